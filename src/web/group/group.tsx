import { Link } from '@tanstack/react-router';
import { daysBetween } from '../../measure/day.ts';
import { dayInZone } from '../../measure/zone.ts';
import type { Animal } from '../../schema/animal.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Notice } from '../../schema/notice.ts';
import type { Person } from '../../schema/person.ts';
import type { Stay } from '../../schema/stay.ts';
import { say } from '../../wording/say.ts';
import { planInForce, type StoredPlan } from '../animals/records.ts';
import { useThoseHere } from '../animals/those-who-left.tsx';
import { hasLeft, sayLeft, thoseHere } from '../animals/whereabouts.ts';
import { useFigures, useGroup, useSession } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayDay } from '../parts/dates.ts';
import { Answered } from '../parts/state.tsx';
import { Empty, sayMessage } from '../parts/text.tsx';
import { Invite } from './invite.tsx';
import { Keeping } from './keeping.tsx';
import { People } from './people.tsx';
import { SetUp } from './set-up.tsx';

/** Keepers and animals at a glance, and who needs a call this week. */
export function GroupScreen() {
  const group = useGroup();
  const session = useSession();
  const animals = useAnswer<readonly Animal[]>('animals');
  const people = useAnswer<readonly Person[]>('people').data ?? [];
  const stays = useAnswer<readonly Stay[]>('stays').data ?? [];
  const notices = useAnswer<readonly Notice[]>('notices?open=true').data ?? [];
  const { shown, button } = useThoseHere(animals.data ?? []);
  const open = notices.filter((notice) => notice.level !== 'for-the-record');
  const stayOf = (notice: Notice) => stays.find((stay) => stay.id === notice.stayId);
  return (
    <>
      <h1>{group.name}</h1>
      <section aria-labelledby="callers">
        <h2 id="callers">{say('web.group.callers')}</h2>
        {open.length === 0 ? (
          <p className="soft">{say('web.group.noCalls')}</p>
        ) : (
          <ul className="lines">
            {open.map((notice) => {
              const animal = animals.data?.find((one) => one.id === stayOf(notice)?.animalId);
              const keeper = people.find((one) => one.id === animal?.keeperId);
              return (
                <li key={notice.id}>
                  <strong>{keeper?.name ?? say('web.group.nobody')}</strong>
                  {animal ? (
                    <>
                      {', '}
                      <Link to="/animals/$animalId" params={{ animalId: animal.id }}>
                        {animal.name}
                      </Link>
                    </>
                  ) : null}
                  : {sayMessage(notice.message)}
                </li>
              );
            })}
          </ul>
        )}
      </section>
      <section aria-labelledby="group-animals">
        <h2 id="group-animals">{say('web.group.animals')}</h2>
        <Answered of={animals}>
          {(list) =>
            list.length === 0 ? (
              <Empty>
                <p>{say('web.animals.empty')}</p>
              </Empty>
            ) : (
              <table data-fold>
                <thead>
                  <tr>
                    {(['animal', 'keeper', 'stage', 'mass'] as const)
                      .filter((column) => column !== 'keeper' || session.peopleExist)
                      .map((column) => (
                        <th scope="col" key={column} data-number={column === 'mass' ? '' : undefined}>
                          {say(`web.group.col.${column}`)}
                        </th>
                      ))}
                  </tr>
                </thead>
                <tbody>
                  {shown.map((animal) => (
                    <Row
                      key={animal.id}
                      animal={animal}
                      keeper={
                        session.peopleExist
                          ? (people.find((one) => one.id === animal.keeperId)?.name ?? say('web.group.nobody'))
                          : undefined
                      }
                    />
                  ))}
                </tbody>
              </table>
            )
          }
        </Answered>
        {button ? <div className="actions">{button}</div> : null}
      </section>
      <section aria-labelledby="keepers">
        <h2 id="keepers">{say('web.group.keepers')}</h2>
        {session.peopleExist ? (
          <>
            <People people={people} />
            {session.role === 'tutor' ? <Invite animals={thoseHere(animals.data ?? [])} /> : null}
          </>
        ) : (
          <SetUp />
        )}
      </section>
      {session.role === 'tutor' ? <Keeping /> : null}
    </>
  );
}

function Row({ animal, keeper }: { readonly animal: Animal; readonly keeper: string | undefined }) {
  const figures = useFigures();
  const plans = useAnswer<readonly StoredPlan[]>(`animals/${animal.id}/plans`).data ?? [];
  const measurements = useAnswer<readonly Measurement[]>(`animals/${animal.id}/measurements`).data ?? [];
  const plan = planInForce(plans)?.plan;
  const stage = plan?.stages.find((one) => one.fromDay <= figures.today && one.toDay >= figures.today);
  const weighed = [...measurements].sort((a, b) => (a.at < b.at ? 1 : -1)).find((one) => one.massG !== undefined);
  return (
    <tr>
      <th scope="row">
        <Link to="/animals/$animalId" params={{ animalId: animal.id }}>
          {animal.name}
        </Link>
      </th>
      {keeper === undefined ? null : <td data-label={say('web.group.col.keeper')}>{keeper}</td>}
      <td data-label={say('web.group.col.stage')}>
        {hasLeft(animal)
          ? sayLeft(animal)
          : stage && plan
            ? say('web.group.stageUntil', {
                stage: say(`web.stage.${stage.name}`),
                days: say('web.animal.days', { count: daysBetween(figures.today, stage.toDay) + 1 }),
              })
            : say('web.plans.none')}
      </td>
      <td data-number data-label={say('web.group.col.mass')}>
        {weighed?.massG === undefined
          ? say('web.notKnown')
          : `${figures.mass(weighed.massG)}, ${sayDay(dayInZone(Date.parse(weighed.at), figures.zone), figures.today)}`}
      </td>
    </tr>
  );
}

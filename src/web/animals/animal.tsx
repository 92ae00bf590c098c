import { Link, useParams } from '@tanstack/react-router';
import { daysBetween } from '../../measure/day.ts';
import { percent } from '../../measure/figures.ts';
import { dayInZone } from '../../measure/zone.ts';
import type { Animal } from '../../schema/animal.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Examination } from '../../schema/examination.ts';
import type { HealthEvent } from '../../schema/health-event.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Notice } from '../../schema/notice.ts';
import type { Photograph } from '../../schema/photograph.ts';
import type { Stay } from '../../schema/stay.ts';
import type { WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { Ahead } from '../ahead/ahead.tsx';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { StayLimits } from '../limits/limits.tsx';
import { MassForecastPart } from '../mass/mass-forecast.tsx';
import { useSleepMass } from '../mass/use-mass.ts';
import { sayDay, sayWeekday } from '../parts/dates.ts';
import { Answered, Remembered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { Photographs } from '../photographs/photographs.tsx';
import { captionOf, newestFirst, pictureOf } from '../photographs/picture.ts';
import { Gut } from '../plan/gut.tsx';
import { useWinter } from '../waking/use-winter.ts';
import { Waking } from '../waking/waking.tsx';
import { WinterLine } from '../winter-line/winter-line.tsx';
import { about } from './about.ts';
import { Diary } from './diary.tsx';
import { HandOver } from './hand-over.tsx';
import { Health } from './health.tsx';
import { Left } from './left.tsx';
import { lineFacts } from './line-facts.ts';
import { planInForce, type StoredPlan, useBoxDays } from './records.ts';
import { Share } from './share.tsx';
import { ConditionPart, VerdictPart } from './verdict.tsx';
import { WeighIns } from './weigh-ins.tsx';
import { hasLeft } from './whereabouts.ts';

export function AnimalScreen() {
  const { animalId } = useParams({ from: '/animals/$animalId' });
  const animal = useAnswer<Animal>(`animals/${animalId}`);
  return (
    <Answered of={animal}>
      {(found) =>
        hasLeft(found) ? (
          <Left key={found.id} animal={found} portrait={<Portrait animal={found} />} />
        ) : (
          <Whole key={found.id} animal={found} />
        )
      }
    </Answered>
  );
}

function Whole({ animal }: { readonly animal: Animal }) {
  const { today, zone } = useFigures();
  const path = `animals/${animal.id}`;
  const measurements = useAnswer<readonly Measurement[]>(`${path}/measurements`).data ?? [];
  const entries = useAnswer<readonly DiaryEntry[]>(`${path}/diary`);
  const diary = entries.data ?? [];
  const health = useAnswer<readonly HealthEvent[]>(`${path}/health-events`).data ?? [];
  const examinations = useAnswer<readonly Examination[]>(`${path}/examinations`).data ?? [];
  const plans = useAnswer<readonly StoredPlan[]>(`${path}/plans`);
  const housed = useAnswer<readonly Stay[]>('stays');
  const stays = housed.data ?? [];
  const winter = useWinter(animal.id);
  const stay =
    winter.wokenMs === undefined
      ? stays.find((one) => one.animalId === animal.id && one.fromDay <= today && (!one.toDay || one.toDay >= today))
      : undefined;
  const plan = planInForce(plans.data ?? [])?.plan;
  const mass = useSleepMass(animal.id, stay);
  const soon = plan?.sleepDay !== undefined && daysBetween(today, plan.sleepDay) <= 14;
  const justWoken = winter.wokenMs !== undefined && daysBetween(dayInZone(winter.wokenMs, zone), today) <= 60;
  // What stands first hangs on these: moved after it was drawn, a form would lose what was typed into it.
  const reading = housed.isPending || entries.isPending || plans.isPending;
  const judged = (
    <>
      <VerdictPart animalId={animal.id} goingDown={soon} />
      <ConditionPart animalId={animal.id} />
    </>
  );
  const daily = (
    <div>
      {winter.wokenMs !== undefined ? <Waking animal={animal} winter={winter} /> : null}
      {plan ? <Next plan={plan} /> : null}
      {plan?.sleepDay && today < plan.sleepDay && today >= windDownOf(plan) ? (
        <>
          <Gut animalId={animal.id} plan={plan} />
          <Link to="/plans/$animalId" params={{ animalId: animal.id }} hash="gut" className="button">
            {say('web.animal.toPlan')}
          </Link>
        </>
      ) : null}
      <WeighIns animalId={animal.id} measurements={measurements} asleep={stay !== undefined} mass={mass} />
      <LastExamined examinations={examinations} />
      <Diary animalId={animal.id} entries={diary} />
      <p>
        <Link to="/animals/$animalId/record" params={{ animalId: animal.id }} className="button" data-kind="word">
          {say('web.record.openHere')}
        </Link>
      </p>
      {stay ? <Waking animal={animal} winter={winter} /> : null}
      <Share animalId={animal.id} />
      <HandOver animal={animal} />
    </div>
  );
  return (
    <>
      <div className="with-portrait">
        <div>
          <div className="title">
            <h1>{animal.name}</h1>
            <span className="title-beside">{about(animal, today)}</span>
          </div>
          <Remembered path={path} zone={zone} />
          <Standing stay={stay} plan={plan} measurements={measurements} />
        </div>
        <Portrait animal={animal} />
      </div>
      {plan ? (
        <Line animal={animal} plan={plan} measurements={measurements} stay={stay} />
      ) : plans.data ? (
        <Empty>
          <p>{say('web.animal.noPlan')}</p>
          <Link to="/plans/$animalId" params={{ animalId: animal.id }} className="button" data-kind="main">
            {say('web.animal.makePlan')}
          </Link>
        </Empty>
      ) : null}
      {reading ? (
        <p className="soft" role="status">
          {say('web.reading')}
        </p>
      ) : (
        <div className="columns">
          {stay || justWoken ? (
            <>
              {daily}
              <div>
                {stay ? <Ahead stay={stay} /> : null}
                {mass ? <MassForecastPart mass={mass} /> : null}
                <details className="why plain-why">
                  <summary>{say('web.verdict.before')}</summary>
                  {judged}
                </details>
                <Health animalId={animal.id} events={health} />
                {stay ? <StayLimits stayId={stay.id} /> : null}
              </div>
            </>
          ) : (
            <>
              <div>
                {judged}
                <Health animalId={animal.id} events={health} />
              </div>
              {daily}
            </>
          )}
        </div>
      )}
      <Photographs animal={animal} />
      <div className="actions">
        <Link to="/animals/$animalId/examination" params={{ animalId: animal.id }} className="button">
          {say('web.animal.examine')}
        </Link>
        <Link to="/plans/$animalId" params={{ animalId: animal.id }} className="button">
          {say('web.animal.toPlan')}
        </Link>
        <Link to="/animals/$animalId/record" params={{ animalId: animal.id }} className="button">
          {say('web.record.open')}
        </Link>
        <Link to="/animals/$animalId/edit" params={{ animalId: animal.id }} className="button" data-kind="quiet">
          {say('web.animal.edit')}
        </Link>
      </div>
    </>
  );
}

/** The photograph the animal is shown by: the one chosen, else the newest. */
function Portrait({ animal }: { readonly animal: Animal }) {
  const list = useAnswer<readonly Photograph[]>(`animals/${animal.id}/photographs`).data ?? [];
  const main = list.find((one) => one.id === animal.photographId) ?? newestFirst(list)[0];
  return main ? <img className="portrait" src={pictureOf(main, 'small')} alt={captionOf(main, animal.name)} /> : null;
}

const windDownOf = (plan: WinterPlan) =>
  plan.stages.find((stage) => stage.name === 'winding-down' || stage.name === 'fast')?.fromDay ?? plan.fromDay;

function LastExamined({ examinations }: { readonly examinations: readonly Examination[] }) {
  const { today, zone } = useFigures();
  const examined = [...examinations].sort((a, b) => (a.at < b.at ? 1 : -1))[0];
  return (
    <p className="soft">
      {examined
        ? say('web.exam.last', {
            day: sayDay(dayInZone(Date.parse(examined.at), zone), today),
            moment: say(`web.exam.moment.${examined.moment}`),
          })
        : say('web.exam.never')}
    </p>
  );
}

interface StandingProps {
  readonly stay: Stay | undefined;
  readonly plan: WinterPlan | undefined;
  readonly measurements: readonly Measurement[];
}

/** The animal's state in a sentence or two. */
function Standing({ stay, plan, measurements }: StandingProps) {
  const figures = useFigures();
  const boxes = useAnswer<readonly BoxRecord[]>('boxes').data ?? [];
  const places = useAnswer<readonly PlaceRecord[]>('places').data ?? [];
  const weighed = measurements
    .flatMap((one) =>
      one.massG === undefined
        ? []
        : [{ massG: one.massG, kind: one.kind, day: dayInZone(Date.parse(one.at), figures.zone) }],
    )
    .sort((a, b) => (a.day < b.day ? -1 : 1));
  const last = weighed.at(-1);
  const start = stay
    ? (weighed.filter((one) => one.kind === 'start' && one.day <= stay.fromDay).at(-1) ??
      weighed.filter((one) => one.day <= stay.fromDay).at(-1))
    : undefined;
  const slept = stay && (!plan?.sleepDay || plan.sleepDay <= figures.today);
  return (
    <p className="lead">
      {slept
        ? `${say('web.animal.asleep', {
            nights: say('web.animal.nights', { count: daysBetween(stay.fromDay, figures.today) }),
            place: places.find((one) => one.id === stay.placeId)?.name ?? '…',
            box: boxes.find((one) => one.id === stay.boxId)?.name ?? '…',
          })} `
        : ''}
      {last ? <Loss last={last} start={start} /> : say('web.animal.noWeighing')}
    </p>
  );
}

interface Weighed {
  readonly massG: number;
  readonly day: string;
}

function Loss({ last, start }: { readonly last: Weighed; readonly start: Weighed | undefined }) {
  const figures = useFigures();
  const day = sayDay(last.day, figures.today);
  if (!start || last.day <= start.day) return say('web.animal.massStory', { mass: figures.mass(last.massG), day });
  const lossG = start.massG - last.massG;
  if (lossG < 0)
    return say('web.animal.gainStory', { mass: figures.mass(last.massG), day, gain: figures.mass(-lossG) });
  return say('web.animal.lossStory', {
    mass: figures.mass(last.massG),
    day,
    loss: figures.mass(lossG),
    share: percent(lossG / start.massG, 1),
    days: say('web.animal.days', { count: daysBetween(start.day, last.day) }),
  });
}

interface LineProps {
  readonly animal: Animal;
  readonly plan: WinterPlan;
  readonly measurements: readonly Measurement[];
  readonly stay: Stay | undefined;
}

function Line({ animal, plan, measurements, stay }: LineProps) {
  const figures = useFigures();
  const notices = useAnswer<readonly Notice[]>('notices').data ?? [];
  const temperatures = useBoxDays(stay, plan.fromDay, figures.zone);
  return (
    <WinterLine
      title={say('web.line.title', { name: animal.name })}
      facts={lineFacts({
        plan,
        today: figures.today,
        zone: figures.zone,
        measurements,
        temperatures,
        notices: stay ? notices.filter((notice) => notice.stayId === stay.id) : [],
        mass: figures.mass,
        temperature: figures.temperature,
      })}
    />
  );
}

const SOON = 5;

/** The next things to do, worded by day. */
function Next({ plan }: { readonly plan: WinterPlan }) {
  const { today } = useFigures();
  const soon = plan.tasks.filter((task) => (task.untilDay ?? task.day) >= today).slice(0, SOON);
  if (soon.length === 0) return null;
  return (
    <section aria-labelledby="next">
      <h2 id="next">{say('web.next.title')}</h2>
      <dl className="facts">
        {soon.map((task) => {
          const ahead = daysBetween(today, task.day);
          return (
            <div key={task.key}>
              <dt>
                {ahead <= 0
                  ? say('web.next.today')
                  : ahead === 1
                    ? say('web.next.tomorrow')
                    : ahead < 7
                      ? sayWeekday(task.day).split(' ')[0]
                      : sayDay(task.day, today)}
              </dt>
              <dd>{say(task.say)}</dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}

import { Link } from '@tanstack/react-router';
import type { Animal } from '../../schema/animal.ts';
import { say } from '../../wording/say.ts';
import { planInForce, type StoredPlan } from '../animals/records.ts';
import { thoseHere } from '../animals/whereabouts.ts';
import { useAnswer } from '../data/queries.ts';
import { Answered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { Subscription } from './subscription.tsx';

const forAnimal = [
  ['papers/plan-sheet.pdf', 'web.papers.plan', 'web.papers.planWhat'],
  ['papers/box-label.pdf', 'web.papers.label', 'web.papers.labelWhat'],
  ['papers/diary-sheet.pdf', 'web.papers.diary', 'web.papers.diaryWhat'],
  ['papers/vet-summary.pdf', 'web.papers.vet', 'web.papers.vetWhat'],
  ['calendar.ics', 'web.papers.calendar', 'web.papers.calendarWhat'],
] as const;

/** Everything that is printed or sent, by animal. */
export function Papers() {
  const animals = useAnswer<readonly Animal[]>('animals');
  return (
    <>
      <h1>{say('web.papers.title')}</h1>
      <p className="lead">{say('web.papers.lead')}</p>
      <Answered of={animals}>
        {(list) =>
          thoseHere(list).length === 0 ? (
            <Empty>
              <p>{say('web.papers.empty')}</p>
              <Link to="/animals/new" className="button" data-kind="main">
                {say('web.animals.new')}
              </Link>
            </Empty>
          ) : (
            <>
              <dl className="facts papers-key">
                {forAnimal.map(([file, key, what]) => (
                  <div key={file}>
                    <dt>{say(key)}</dt>
                    <dd>{say(what)}</dd>
                  </div>
                ))}
              </dl>
              {thoseHere(list).map((animal) => (
                <section key={animal.id} aria-labelledby={`papers-${animal.id}`}>
                  <h2 id={`papers-${animal.id}`}>{say('web.papers.forAnimal', { name: animal.name })}</h2>
                  <ForAnimal animal={animal} />
                </section>
              ))}
            </>
          )
        }
      </Answered>
      <section aria-labelledby="handout">
        <h2 id="handout">{say('web.papers.handout')}</h2>
        <p>{say('web.papers.handoutWhat')}</p>
        <div className="actions">
          <Paper href="/api/v1/papers/handout.pdf" name={say('web.papers.handout')} />
        </div>
      </section>
      <Subscription />
    </>
  );
}

/** The papers of one animal that can be made now; what is missing for the others is said. */
function ForAnimal({ animal }: { readonly animal: Animal }) {
  const plans = useAnswer<readonly StoredPlan[]>(`animals/${animal.id}/plans`).data;
  const plan = plans && planInForce(plans)?.plan;
  const offered = forAnimal.filter(
    ([, key]) => key === 'web.papers.vet' || (plan && (key !== 'web.papers.label' || plan.sleepDay)),
  );
  return (
    <>
      <div className="actions">
        {offered.map(([file, key]) => (
          <Paper key={file} href={`/api/v1/animals/${animal.id}/${file}`} name={say(key)} of={animal.name} />
        ))}
      </div>
      {plans && !plan ? <p className="soft">{say('web.papers.noPlan', { name: animal.name })}</p> : null}
      {plan && !plan.sleepDay ? <p className="soft">{say('web.papers.noLabel', { name: animal.name })}</p> : null}
    </>
  );
}

function Paper({ href, name, of }: { readonly href: string; readonly name: string; readonly of?: string }) {
  return (
    <a className="button" href={href} target="_blank" rel="noreferrer">
      {name}
      {of ? <span className="unseen">, {of}</span> : null}
    </a>
  );
}

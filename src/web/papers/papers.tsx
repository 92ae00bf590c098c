import { Link } from '@tanstack/react-router';
import type { Animal } from '../../schema/animal.ts';
import { say } from '../../wording/say.ts';
import { useAnswer } from '../data/queries.ts';
import { Answered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';

const forAnimal = [
  ['plan-sheet.pdf', 'web.papers.plan', 'web.papers.planWhat'],
  ['box-label.pdf', 'web.papers.label', 'web.papers.labelWhat'],
  ['diary-sheet.pdf', 'web.papers.diary', 'web.papers.diaryWhat'],
  ['vet-summary.pdf', 'web.papers.vet', 'web.papers.vetWhat'],
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
          list.length === 0 ? (
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
              {list.map((animal) => (
                <section key={animal.id} aria-labelledby={`papers-${animal.id}`}>
                  <h2 id={`papers-${animal.id}`}>{say('web.papers.forAnimal', { name: animal.name })}</h2>
                  <div className="actions">
                    {forAnimal.map(([file, key]) => (
                      <a
                        key={file}
                        className="button"
                        href={`/api/v1/papers/animals/${animal.id}/${file}`}
                        target="_blank"
                        rel="noreferrer"
                      >
                        {say(key)}
                        <span className="unseen">, {animal.name}</span>
                      </a>
                    ))}
                  </div>
                </section>
              ))}
            </>
          )
        }
      </Answered>
    </>
  );
}

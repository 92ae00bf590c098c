import { Link } from '@tanstack/react-router';
import { type FormEvent, useId, useState } from 'react';
import { dayInZone } from '../../measure/zone.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Stay } from '../../schema/stay.ts';
import type { TaskDone } from '../../schema/task.ts';
import { say } from '../../wording/say.ts';
import { ask, Unreachable } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { usePart } from '../data/later.ts';
import { enter, enterDeletion, takeBack } from '../data/outbox.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { Expected } from '../mass/expected.tsx';
import { useSleepMass } from '../mass/use-mass.ts';
import { sayDay } from '../parts/dates.ts';
import { typedMass } from '../parts/field.tsx';
import { SourceLine, sayMessage, Why } from '../parts/text.tsx';
import type { Line, RoundStay } from './parts.ts';

// The round opens first and must not wait for what is said later.
const weighAnswerPart = () => import('../mass/weigh-answer.tsx');
const normalPart = () => import('../parts/normal.tsx');

interface LineProps {
  readonly line: Line;
  readonly done: TaskDone | undefined;
  readonly stay: RoundStay | undefined;
}

/** Writes down that a task was done, now. */
function markDone(line: Line): Promise<string> {
  return enter('task-done', {
    taskKey: line.taskKey,
    animalId: line.animalId,
    day: line.day,
    at: new Date().toISOString(),
    outcome: 'done',
  });
}

const diary = (animalId: string, kind: DiaryEntry['kind']) =>
  enter('diary', { animalId, at: new Date().toISOString(), kind });

/** One sentence with a verb and its control: done, undo, or the figure it asks for. */
export function RoundLine({ line, done, stay }: LineProps) {
  const { today } = useFigures();
  const [trouble, setTrouble] = useState('');
  const undo = async () => {
    setTrouble('');
    if (!done || (await takeBack(done.id))) return;
    try {
      await ask(`tasks-done/${done.id}`, { method: 'DELETE' });
      await readAgain('round');
    } catch (problem) {
      if (problem instanceof Unreachable) await enterDeletion('task-done', done);
      else setTrouble((problem as Error).message);
    }
  };
  const weighs = line.kind === 'weigh' || line.kind === 'put-down';
  const looks = line.kind === 'look' || line.kind === 'cold-look';
  const finish = async () => {
    await markDone(line);
    if (looks) await diary(line.animalId, 'lid-opened');
  };
  return (
    <li data-done={done ? '' : undefined}>
      <div className="line-row">
        <div className="round-text">
          <p>
            <Link to="/animals/$animalId" params={{ animalId: line.animalId }} className="round-name">
              {line.animalName}
            </Link>
            {stay ? `, ${stay.boxName}` : ''}: {sayMessage(line.say)}
            {line.late && !done ? (
              <span className="act"> {say('web.round.late', { day: sayDay(line.day, today) })}</span>
            ) : null}
            {weighs && stay?.lastMassG !== undefined && !done ? <LastMass stay={stay} /> : null}
          </p>
          {done ? null : (
            <Why>
              {line.why ? <p>{sayMessage(line.why)}</p> : null}
              <SourceLine source={line.source} />
            </Why>
          )}
        </div>
        {done ? (
          <button type="button" className="button" data-kind="quiet" onClick={undo}>
            {say('web.undo')}
            <span className="unseen">: {line.animalName}</span>
          </button>
        ) : weighs ? null : (
          <button type="button" className="button" onClick={finish}>
            {say('web.done')}
            <span className="unseen">
              : {line.animalName}, {sayMessage(line.say)}
            </span>
          </button>
        )}
      </div>
      {trouble ? (
        <p className="field-error" role="alert">
          {trouble}
        </p>
      ) : null}
      {weighs && (stay || !done) ? <WeighIn line={line} stay={stay} done={done !== undefined} /> : null}
      {looks && !done ? <Wrong line={line} /> : null}
    </li>
  );
}

function LastMass({ stay }: { readonly stay: RoundStay }) {
  const { mass, today, zone } = useFigures();
  if (stay.lastMassG === undefined || !stay.lastMassAt) return null;
  return ` ${say('web.round.lastMass', { mass: mass(stay.lastMassG), day: sayDay(dayInZone(Date.parse(stay.lastMassAt), zone), today) })}`;
}

interface WeighInProps {
  readonly line: Line;
  readonly stay: RoundStay | undefined;
  readonly done: boolean;
}

/** Asks for the weight with the range expected; once it is saved, says what it means and asks again where it does not fit. */
function WeighIn({ line, stay, done }: WeighInProps) {
  const figures = useFigures();
  const id = useId();
  const [typed, setTyped] = useState('');
  const [error, setError] = useState('');
  const stays = useAnswer<readonly Stay[]>('stays', stay !== undefined).data;
  const sleep = useSleepMass(
    line.animalId,
    stays?.find((one) => one.id === stay?.stayId),
  );
  const last = sleep?.judged.at(-1);
  const answered = last && dayInZone(last.weighIn.atMs, figures.zone) === figures.today ? last : undefined;
  const told = usePart(weighAnswerPart, answered !== undefined);
  const answer = told && answered ? <told.WeighAnswer judged={answered} /> : null;
  const save = async (event: FormEvent) => {
    event.preventDefault();
    const value = typedMass(typed);
    if (value === undefined) {
      setError(say('web.round.notANumber', { text: typed }));
      return;
    }
    setError('');
    await enter('measurement', {
      animalId: line.animalId,
      at: new Date().toISOString(),
      massG: figures.massG(value),
      kind: line.kind === 'put-down' ? 'start' : stay ? 'asleep' : 'routine',
    });
    setTyped('');
    if (!done) await markDone(line);
  };
  if (done && !answered?.weighAgain) return answer;
  return (
    <>
      {answer}
      <form onSubmit={save} noValidate className="round-weigh">
        <label className="unseen" htmlFor={id}>
          {line.animalName}: {say('web.round.weigh', { unit: figures.massUnit })}
        </label>
        <input
          id={id}
          className="input"
          data-numeral
          inputMode="decimal"
          autoComplete="off"
          placeholder={figures.massUnit}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
          aria-invalid={error ? true : undefined}
          aria-describedby={error ? `${id}e` : undefined}
        />
        <button type="submit" className="button">
          {say('web.save')}
          <span className="unseen">: {line.animalName}</span>
        </button>
        {error ? (
          <p className="field-error" id={`${id}e`} role="alert">
            {error}
          </p>
        ) : null}
        {sleep && !error ? (
          <p className="field-help expected-now">
            <Expected mass={sleep} />
          </p>
        ) : null}
      </form>
    </>
  );
}

const troubles = [
  ['no-touch-response', 'not-responding'],
  ['urine', 'urine-passed'],
  ['awake-signs', 'awake-early'],
] as const;

/** Something was not as it should be: written down, and straight to what to do. */
function Wrong({ line }: { readonly line: Line }) {
  const [open, setOpen] = useState(false);
  const [written, setWritten] = useState<(typeof troubles)[number]>();
  const normal = usePart(normalPart, open);
  return (
    <details className="why" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('web.round.wrong')}</summary>
      {normal && open ? (
        <normal.Normal beside={['lid-opened', 'touch-response', 'moved', 'awake-signs', 'urine']} />
      ) : null}
      <div className="choices">
        {troubles.map((one) => (
          <button
            type="button"
            className="button"
            key={one[0]}
            onClick={async () => {
              await diary(line.animalId, one[0]);
              setWritten(one);
            }}
          >
            {say(`web.diary.kind.${one[0]}`)}
          </button>
        ))}
        {written ? (
          <p role="status">
            {say('web.round.writtenDown', { what: say(`web.diary.kind.${written[0]}`) })}{' '}
            <Link to="/now/$pageId" params={{ pageId: written[1] }} className="button" data-kind="act">
              {say('web.round.whatToDo')}
            </Link>
          </p>
        ) : null}
      </div>
    </details>
  );
}

import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { addDays, type Day } from '../../measure/day.ts';
import type { Round as RoundAnswer } from '../../schema/round.ts';
import type { TaskDone } from '../../schema/task.ts';
import { say } from '../../wording/say.ts';
import { RoundBreach } from '../ahead/round-breach.tsx';
import { useFigures } from '../data/group.ts';
import { useWordsFor } from '../data/later.ts';
import { useOutbox } from '../data/outbox.ts';
import { useAnswer } from '../data/queries.ts';
import { sayInstant, sayWeekday } from '../parts/dates.ts';
import { Answered, Remembered } from '../parts/state.tsx';
import { Empty } from '../parts/text.tsx';
import { UndeliveredNote } from '../settings/undelivered.tsx';
import { Notices } from './notices.tsx';
import type { Line, RoundPart } from './parts.ts';
import { RoundLine } from './round-line.tsx';
import { TemperatureEntry } from './temperature-entry.tsx';

/** What is to be done on one day, place by place. */
export function Round() {
  const { today } = useFigures();
  const [day, setDay] = useState<Day>();
  const shown = day ?? today;
  const round = useAnswer<RoundAnswer>(`round?day=${shown}`);
  return (
    <Answered of={round}>
      {(answer) => <Told round={answer} today={today} day={shown} go={(to) => setDay(to === today ? undefined : to)} />}
    </Answered>
  );
}

/** Tasks done on this device count as done at once, whether the server has heard of them or not. */
function useDone(): (line: Line) => TaskDone | undefined {
  const own = useOutbox().filter((entry) => entry.kind === 'task-done');
  const waiting = own.filter((entry) => !entry.deletes).map((entry) => entry.body as TaskDone);
  const undone = (done: TaskDone) => own.some((entry) => entry.deletes && !entry.refused && entry.id === done.id);
  return (line) =>
    (line.done && !undone(line.done) ? line.done : undefined) ??
    waiting.find((one) => one.taskKey === line.taskKey && one.animalId === line.animalId);
}

interface ToldProps {
  readonly round: RoundAnswer;
  readonly today: Day;
  readonly day: Day;
  readonly go: (day: Day) => void;
}

function Told({ round, today, day, go }: ToldProps) {
  const { zone } = useFigures();
  const doneOf = useDone();
  const outbox = useOutbox();
  const waiting = outbox.filter((entry) => !entry.refused).length;
  const lines = round.parts.flatMap((part) => part.lines);
  useWordsFor([
    ...lines.flatMap((line) => [line.say, line.why ?? line.say]),
    ...round.notices.map((one) => one.message),
  ]);
  const left = lines.filter((line) => !doneOf(line)).length;
  const progress =
    lines.length === 0
      ? say('web.round.nothing')
      : left === 0
        ? say('web.round.allDone')
        : say('web.round.left', { count: left, all: lines.length });
  const parts = round.parts.filter((part) => part.lines.length > 0 || part.stays.length > 0);
  return (
    <>
      <div className="round-head">
        <h1>{say('web.round.title')}</h1>
        <p className="soft" role="status">
          {sayWeekday(day)}. {progress} {waiting > 0 ? say('web.outbox.waiting', { count: waiting }) : ''}
        </p>
        <Remembered path={`round?day=${day}`} zone={zone} />
      </div>
      <UndeliveredNote />
      <Notices notices={round.notices} parts={round.parts} />
      {parts.length === 0 ? (
        <Empty>
          <p>{say('web.round.empty')}</p>
          <Link to="/animals" className="button" data-kind="main">
            {say('web.nav.animals')}
          </Link>
        </Empty>
      ) : null}
      {parts.map((part) => (
        <Part key={part.placeId ?? ''} part={part} doneOf={doneOf} zone={zone} />
      ))}
      <nav className="actions" aria-label={say('web.round.title')}>
        <button type="button" className="button" data-kind="quiet" onClick={() => go(addDays(day, -1))}>
          {say('web.round.previous')}
        </button>
        {day === today ? null : (
          <button type="button" className="button" data-kind="quiet" onClick={() => go(today)}>
            {say('web.round.today')}
          </button>
        )}
        <button type="button" className="button" data-kind="quiet" onClick={() => go(addDays(day, 1))}>
          {say('web.round.next')}
        </button>
      </nav>
    </>
  );
}

interface PartProps {
  readonly part: RoundPart;
  readonly doneOf: (line: Line) => TaskDone | undefined;
  readonly zone: string;
}

function Part({ part, doneOf, zone }: PartProps) {
  const { temperature } = useFigures();
  const name = part.placeName ?? say('web.round.elsewhere');
  const newest = part.stays
    .flatMap((stay) => (stay.lastReading ? [stay.lastReading] : []))
    .sort((a, b) => (a.at < b.at ? 1 : -1))[0];
  // A phone in a glove wants the open lines first.
  const lines = [...part.lines].sort((a, b) => Number(Boolean(doneOf(a))) - Number(Boolean(doneOf(b))));
  return (
    <section className="round-part" aria-labelledby={`part-${part.placeId ?? 'none'}`}>
      <div className="round-place">
        <h2 id={`part-${part.placeId ?? 'none'}`}>{name}</h2>
        {part.stays.length > 0 ? (
          <span className="number">
            {newest ? (
              <>
                {temperature(newest.tempC)} <span className="small soft">{sayInstant(newest.at, zone)}</span>
              </>
            ) : (
              <span className="small soft">{say('web.round.noReading')}</span>
            )}
          </span>
        ) : null}
      </div>
      {part.stays
        .filter((stay) => stay.breach)
        .map((stay) => (
          <RoundBreach key={stay.stayId} stay={stay} />
        ))}
      <ul className="lines">
        {lines.map((line) => (
          <RoundLine
            key={`${line.animalId}${line.taskKey}`}
            line={line}
            done={doneOf(line)}
            stay={part.stays.find((stay) => stay.animalId === line.animalId)}
          />
        ))}
        {part.stays.length > 0 ? (
          <li>
            <TemperatureEntry stays={part.stays} />
          </li>
        ) : null}
      </ul>
    </section>
  );
}

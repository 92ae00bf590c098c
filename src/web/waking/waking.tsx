import { Link } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import { percent } from '../../measure/figures.ts';
import type { Animal } from '../../schema/animal.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import { FEEDING_LIMIT } from '../../winter/plan-table.ts';
import type { WinterSummary } from '../../winter/summary.ts';
import { type Recovery, recovery, warmingSteps } from '../../winter/waking.ts';
import { say } from '../../wording/say.ts';
import { deleteEntry } from '../data/entries.ts';
import { useFigures, useMayWrite } from '../data/group.ts';
import { enter, takeBack } from '../data/outbox.ts';
import { AskOnce } from '../parts/ask-once.tsx';
import { sayInstant } from '../parts/dates.ts';
import { Normal } from '../parts/normal.tsx';
import { Trouble } from '../parts/state.tsx';
import { SourceLine, Why } from '../parts/text.tsx';
import type { Winter } from './use-winter.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** So long after the waking its list stands on the animal's page, unless the winter is over before. */
const LIST_DAYS = 60;

/** The instant, anew every half minute. */
function useNow(): number {
  const [now, setNow] = useState(Date.now);
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 30_000);
    return () => clearInterval(timer);
  }, []);
  return now;
}

/** Waking: the button that begins it, the hours with their timers, the first days, and the winter looked back on. */
export function Waking({ animal, winter }: { readonly animal: Animal; readonly winter: Winter }) {
  // An entry made since the last stroke of the clock counts at once.
  const nowMs = Math.max(useNow(), winter.entries.at(-1)?.atMs ?? 0);
  const { stay, wokenMs } = winter;
  if (!stay) return null;
  if (wokenMs === undefined) {
    const begin = async () => {
      const at = new Date().toISOString();
      await enter('diary', { animalId: animal.id, at, kind: 'woken' });
    };
    return (
      <details className="why plain-why">
        <summary>{say('web.waking.wake')}</summary>
        <p>{say('web.waking.wakeLead')}</p>
        <AskOnce
          act={say('web.waking.begin')}
          about={animal.name}
          question={say('web.waking.beginAsk', { name: animal.name })}
          onYes={begin}
        />
      </details>
    );
  }
  if (nowMs - wokenMs > LIST_DAYS * DAY_MS) return null;
  const of = (kind: DiaryEntry['kind']) =>
    winter.entries.filter((one) => one.kind === kind && one.atMs >= wokenMs).map((one) => one.atMs);
  const state = recovery({
    wokenMs,
    nowMs,
    fedMs: of('fed'),
    urineMs: of('urine'),
    drankMs: of('drank'),
    weighings: winter.weighings.filter((one) => one.atMs >= wokenMs - DAY_MS),
    ...(winter.startMassG === undefined ? {} : { startMassG: winter.startMassG }),
  });
  return (
    <section aria-labelledby="waking">
      <h2 id="waking">{say('web.waking.title')}</h2>
      {nowMs - wokenMs < DAY_MS ? (
        <>
          <Warming wokenMs={wokenMs} nowMs={nowMs} />
          <NotWoken winter={winter} wokenMs={wokenMs} />
        </>
      ) : null}
      <div
        className="note"
        data-level={state.level === 'vet' || state.level === 'past-every-limit' ? 'act' : undefined}
      >
        <p role="status">{say(state.say)}</p>
        {state.page ? (
          <Link to="/now/$pageId" params={{ pageId: state.page }} className="button">
            {say('web.round.whatToDo')}
          </Link>
        ) : null}
        <Why>
          <SourceLine source={state.source} />
        </Why>
      </div>
      <FirstDays animal={animal} state={state} />
      <details className="why">
        <summary>{say('web.normal.title')}</summary>
        <Normal beside={['bath', 'drank', 'fed', 'urine']} when="waking" />
      </details>
      {winter.summary ? <Summary summary={winter.summary} animal={animal} /> : null}
    </section>
  );
}

/** The way back on the first day: without its diary entry the sleep and its watch go on. */
function NotWoken({ winter, wokenMs }: { readonly winter: Winter; readonly wokenMs: number }) {
  const [trouble, setTrouble] = useState<Error>();
  const mayWrite = useMayWrite();
  const entry = winter.entries.find((one) => one.kind === 'woken' && one.atMs === wokenMs);
  if (!entry || !mayWrite) return null;
  const undo = async () => {
    setTrouble(undefined);
    try {
      const { atMs: _, ...record } = entry;
      const unsent = await takeBack(entry.id);
      if (!unsent) await deleteEntry({ kind: 'diary', record, what: say('web.diary.kind.woken') });
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <>
      {trouble ? <Trouble error={trouble} /> : null}
      <button type="button" className="button no-print" data-kind="quiet" onClick={undo}>
        {say('web.waking.notWoken')}
      </button>
    </>
  );
}

function Warming({ wokenMs, nowMs }: { readonly wokenMs: number; readonly nowMs: number }) {
  const { zone } = useFigures();
  const away = (ms: number) => {
    const minutes = Math.max(1, Math.round(ms / 60_000));
    return minutes < 60
      ? say('web.waking.inMinutes', { count: minutes })
      : say('web.waking.inHours', { hours: Math.floor(minutes / 60), minutes: minutes % 60 });
  };
  return (
    <ol className="steps warming">
      {warmingSteps(wokenMs, nowMs).map((step) => (
        <li key={step.say.key} data-state={step.state}>
          {say(step.say)}{' '}
          <span className="soft">
            {sayInstant(step.atMs, zone)},{' '}
            {step.state === 'coming'
              ? away(step.atMs - nowMs)
              : say(step.state === 'now' ? 'web.waking.now' : 'web.waking.past')}
          </span>
        </li>
      ))}
    </ol>
  );
}

const taps = ['bath', 'drank', 'urine', 'fed', 'refused-food'] as const;

/** What matters in the first days, each a tap away, and the days without food against 7 and 10. */
function FirstDays({ animal, state }: { readonly animal: Animal; readonly state: Recovery }) {
  const [said, setSaid] = useState('');
  const yes = (done: boolean) => say(done ? 'web.waking.yes' : 'web.waking.notYet');
  return (
    <>
      <dl className="facts">
        <div>
          <dt>{say('web.waking.drunk')}</dt>
          <dd>{yes(state.hasDrunk)}</dd>
        </div>
        <div>
          <dt>{say('web.waking.urine')}</dt>
          <dd>{yes(state.hasPassedUrine)}</dd>
        </div>
        <div>
          <dt>{say('web.waking.eaten')}</dt>
          <dd>
            {state.hasEaten
              ? state.daysWithoutFood === 0
                ? say('web.waking.eatenToday')
                : say('web.waking.eatenLast', { count: state.daysWithoutFood })
              : state.daysWithoutFood === 0
                ? say('web.waking.notYet')
                : say('web.waking.without', { count: state.daysWithoutFood })}
            {state.hasEaten && state.hasPassedUrine ? null : <Limits days={state.daysAwake} />}
            <Why>
              <p>{say('web.waking.limitsWhy')}</p>
              <SourceLine source={FEEDING_LIMIT} />
            </Why>
          </dd>
        </div>
        <div>
          <dt>{say('web.waking.weight')}</dt>
          <dd>
            {state.massShare === undefined
              ? say('web.waking.weightUnknown')
              : say('web.waking.weightShare', { share: percent(state.massShare, 1) })}
          </dd>
        </div>
      </dl>
      <fieldset className="no-print">
        <legend>{say('web.waking.tap')}</legend>
        <div className="choices">
          {taps.map((kind) => (
            <button
              key={kind}
              type="button"
              className="button"
              onClick={async () => {
                await enter('diary', { animalId: animal.id, at: new Date().toISOString(), kind });
                setSaid(say('web.round.writtenDown', { what: say(`web.diary.kind.${kind}`) }));
              }}
            >
              {say(`web.diary.kind.${kind}`)}
            </button>
          ))}
        </div>
        <p role="status">{said}</p>
      </fieldset>
    </>
  );
}

/** Ten days as a line: tempt it from the third, the vet on the seventh, past every limit on the tenth. */
function Limits({ days }: { readonly days: number }) {
  const x = (day: number) => 8 + (Math.min(day, 11) * 264) / 11;
  return (
    <svg
      className="feeding-days"
      viewBox="0 0 280 50"
      width="280"
      height="50"
      role="img"
      aria-label={say('web.waking.limits', { days })}
    >
      <line className="pic-line" x1={x(0)} x2={x(11)} y1="24" y2="24" />
      {[0, 3, 7, 10].map((day) => (
        <g key={day}>
          <line className={day >= 7 ? 'pic-mark' : 'pic-line'} x1={x(day)} x2={x(day)} y1="16" y2="32" />
          <text x={x(day)} y="47" textAnchor={day === 0 ? 'start' : 'middle'}>
            {day}
          </text>
        </g>
      ))}
      <path className="pic-dot" d={`M${x(days) - 6} 2h12l-6 11Z`} />
    </svg>
  );
}

/** The winter in figures, what to change, and the next plan that starts from it. */
function Summary({ summary, animal }: { readonly summary: WinterSummary; readonly animal: Animal }) {
  return (
    <section aria-labelledby="winter-over">
      <h3 id="winter-over">{say('web.waking.summary')}</h3>
      {summary.sentences.map((one) => (
        <p key={one.key}>{say(one)}</p>
      ))}
      <h3>{say('web.waking.lessons')}</h3>
      <ul className="plain">
        {summary.lessons.map((one) => (
          <li key={one.key}>{say(one)}</li>
        ))}
      </ul>
      <p>
        <Link to="/plans/$animalId" params={{ animalId: animal.id }} hash="next" className="button">
          {say('web.waking.next')}
        </Link>
      </p>
    </section>
  );
}

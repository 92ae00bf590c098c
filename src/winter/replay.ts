import type { BoxReading } from '../physiology/box-climate.ts';
import type { WeighIn } from '../physiology/mass-estimator.ts';
import { weighInMessage } from '../physiology/weigh-in-message.ts';
import type { Message } from '../wording/say.ts';
import { massEntries } from './mass-entries.ts';
import { replayWatch } from './watch.ts';
import type { NoticeLevel, RuleId, WatchDiaryKind, WatchEntry, WatchNotice, WatchSetup } from './watch-types.ts';

/** Everything on record of a past stay. Each list in order of time; instants are ms since 1970 UTC. */
export interface PastWinter {
  readonly setup: WatchSetup;
  readonly readings: readonly BoxReading[];
  readonly spans?: readonly {
    readonly fromMs: number;
    readonly atMs: number;
    readonly maxC: number;
    readonly minC: number;
  }[];
  /** The first at or before the putting down is the starting weigh-in. */
  readonly weighIns: readonly WeighIn[];
  readonly diary: readonly { readonly atMs: number; readonly kind: WatchDiaryKind | 'drank' }[];
  /** Forecasts of the temperature in the box, as they were made at the time. */
  readonly forecasts?: readonly {
    readonly atMs: number;
    readonly timesMs: ArrayLike<number>;
    readonly tempsC: ArrayLike<number>;
  }[];
  readonly wokenMs?: number;
}

/** One line of a replay: a notice that begins or ends, or what a weigh-in means. */
export type ReplayLine =
  | {
      readonly kind: 'begins' | 'ends';
      readonly atMs: number;
      readonly level: NoticeLevel;
      readonly ruleId: RuleId;
      readonly say: Message;
    }
  | { readonly kind: 'weigh-in'; readonly atMs: number; readonly weighAgain: boolean; readonly say: Message };

export interface Replay {
  /** What would have been said, in the order in which it would have been said. */
  readonly lines: readonly ReplayLine[];
  readonly notices: readonly WatchNotice[];
  /** How many notices of each level. */
  readonly counts: Readonly<Record<NoticeLevel, number>>;
  readonly readings: number;
}

/**
 * Runs a past winter through the rules of the watch as they stand now, each moment with only what was known by then: what would
 * have been said, and when. Ends at the waking, or at `untilMs`.
 */
export function replayWinter(past: PastWinter, untilMs: number): Replay {
  const { setup } = past;
  const steps = past.diary.flatMap(({ atMs, kind }) => (kind === 'urine' || kind === 'drank' ? [{ atMs, kind }] : []));
  const mass = massEntries({
    weighIns: past.weighIns,
    readings: past.readings,
    steps,
    ...(setup.plannedWakeMs === undefined ? {} : { plannedWakeMs: setup.plannedWakeMs }),
  });
  const entries: WatchEntry[] = [...mass.entries];
  for (const { atMs, tempC } of past.readings) entries.push({ kind: 'reading', atMs, tempC });
  for (const span of past.spans ?? []) entries.push({ kind: 'span', ...span });
  for (const { atMs, kind } of past.diary) if (kind !== 'drank') entries.push({ kind: 'diary', atMs, diary: kind });
  for (const forecast of past.forecasts ?? []) entries.push({ kind: 'forecast', ...forecast });
  if (past.wokenMs !== undefined) entries.push({ kind: 'woken', atMs: past.wokenMs });
  const endMs = Math.min(untilMs, past.wokenMs ?? untilMs);
  const { notices } = replayWatch(setup, entries, endMs);

  const lines: ReplayLine[] = mass.judged
    .filter(({ weighIn }) => weighIn.atMs <= endMs)
    .map((judged) => ({
      kind: 'weigh-in',
      atMs: judged.weighIn.atMs,
      weighAgain: judged.weighAgain,
      say: weighInMessage(judged, setup.massUnit),
    }));
  const counts = { 'act-now': 0, 'look-today': 0, 'for-the-record': 0 };
  for (const { level, ruleId, message, raisedMs, clearedMs } of notices) {
    counts[level]++;
    lines.push({ kind: 'begins', atMs: raisedMs, level, ruleId, say: message });
    if (clearedMs !== undefined) lines.push({ kind: 'ends', atMs: clearedMs, level, ruleId, say: message });
  }
  // Sorting keeps lines of one instant in the order above: first what was weighed, then what it set off.
  lines.sort((a, b) => a.atMs - b.atMs);
  return { lines, notices, counts, readings: past.readings.length };
}

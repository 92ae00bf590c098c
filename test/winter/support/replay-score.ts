import { replayWinter } from '../../../src/winter/replay.ts';
import type { RuleId, WatchNotice } from '../../../src/winter/watch-types.ts';
import { type MadeWinter, trueAt } from './real-winters.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;

export interface Score {
  /** Things of which an *act now* had to speak, and how many it did speak of in time. */
  readonly due: number;
  readonly told: number;
  readonly missed: readonly string[];
  /** *Act now* notices without ground. */
  readonly falseActNow: readonly string[];
  /** Breaches that some forecast at least 12 h before had shown, and how many were announced at least 12 h before. */
  readonly foreseeable: number;
  readonly announced: number;
  readonly notices: number;
  readonly actNow: number;
}

/** Stretches of the true temperature under (or over) a limit, in minutes of five. */
function stretches(
  winter: MadeWinter,
  outside: (tempC: number) => boolean,
  leastMs: number,
): [from: number, to: number][] {
  const found: [number, number][] = [];
  let from = Number.NaN;
  for (let atMs = winter.past.setup.fromMs; atMs <= winter.endMs; atMs += 5 * MINUTE_MS) {
    if (outside(trueAt(winter, atMs))) {
      if (Number.isNaN(from)) from = atMs;
    } else if (!Number.isNaN(from)) {
      if (atMs - from >= leastMs) found.push([from, atMs]);
      from = Number.NaN;
    }
  }
  return found;
}

const openBetween = (notices: readonly WatchNotice[], ids: readonly RuleId[], fromMs: number, byMs: number) =>
  notices.some(
    ({ ruleId, raisedMs, clearedMs }) =>
      ids.includes(ruleId) && raisedMs <= byMs && (clearedMs ?? Number.POSITIVE_INFINITY) > fromMs,
  );

/** Counts what the watch said against what is true, by code of its own. */
export function score(winter: MadeWinter): Score {
  const { notices } = replayWinter(winter.past, winter.endMs);
  const missed: string[] = [];
  let due = 0;
  const ask = (what: string, told: boolean) => {
    due++;
    if (!told) missed.push(`${winter.name}: ${what}`);
  };
  const gapAt = (atMs: number) => winter.gaps.find(([from, to]) => atMs >= from - winter.intervalMs && atMs < to);

  // A probe reading to 0.1 K with 0.05 K of noise sees what lies two tenths beyond the limit.
  const cold: [RuleId, number, number][] = [
    ['frost', 0, 0],
    ['under-2', 2, 30 * MINUTE_MS],
  ];
  for (const [rule, limit, afterMs] of cold) {
    for (const [from, to] of stretches(winter, (c) => c < limit - 0.2, afterMs + 2 * winter.intervalMs)) {
      const gap = gapAt(from);
      // Nobody sees into a gap: then it is the silence that has to speak, or the first readings after it.
      const byMs = (gap && gap[1] < to ? gap[1] : from) + afterMs + 2 * winter.intervalMs;
      if (gap && gap[1] >= to - afterMs - 2 * winter.intervalMs) continue;
      ask(`${rule} from ${new Date(from).toISOString()}`, openBetween(notices, [rule], from - HOUR_MS, byMs));
    }
  }
  for (const [from, to] of winter.gaps) {
    const last = winter.past.readings.filter((reading) => reading.atMs < from).at(-1);
    if (!last || last.tempC >= 3 || to - last.atMs < 2.5 * HOUR_MS) continue;
    ask(
      `silence in the cold from ${new Date(from).toISOString()}`,
      openBetween(notices, ['silence-in-cold'], from, from + 2 * HOUR_MS),
    );
  }
  for (const { atMs, share } of winter.trueLoss)
    if (share >= 0.104)
      ask(`10 % lost on ${new Date(atMs).toISOString()}`, openBetween(notices, ['mass-10'], atMs, atMs + HOUR_MS));
  for (const atMs of winter.urineMs) ask('urine', openBetween(notices, ['urine'], atMs, atMs + 2 * HOUR_MS));

  const actNow = notices.filter(({ level }) => level === 'act-now');
  const falseActNow = actNow
    .filter((notice) => !grounded(winter, notice))
    .map(({ ruleId, raisedMs }) => `${winter.name}: ${ruleId} ${new Date(raisedMs).toISOString()}`);

  let foreseeable = 0;
  let announced = 0;
  const breaches: [RuleId, (c: number) => boolean, number][] = [
    ['forecast-cold', (c) => c < 3, 4 * HOUR_MS],
    ['forecast-warm', (c) => c > 10, 4 * HOUR_MS],
  ];
  for (const [rule, outside, leastMs] of breaches) {
    let quietSince = Number.NEGATIVE_INFINITY;
    for (const [from, to] of stretches(winter, outside, leastMs)) {
      const fresh = from - quietSince >= 24 * HOUR_MS;
      quietSince = to;
      if (!fresh || from - winter.past.setup.fromMs < 36 * HOUR_MS) continue;
      if (!shownBefore(winter, outside, leastMs, from)) continue;
      foreseeable++;
      if (openBetween(notices, [rule], from - 12 * HOUR_MS, from - 12 * HOUR_MS)) announced++;
    }
  }
  return {
    due,
    told: due - missed.length,
    missed,
    falseActNow,
    foreseeable,
    announced,
    notices: notices.length,
    actNow: actNow.length,
  };
}

/** The newest forecast at least 12 h before showed a stretch long enough that begins within 12 h of the true one. */
function shownBefore(winter: MadeWinter, outside: (c: number) => boolean, leastMs: number, fromMs: number): boolean {
  const forecast = winter.past.forecasts!.filter(({ atMs }) => atMs <= fromMs - 12 * HOUR_MS).at(-1);
  if (!forecast) return false;
  let run = Number.NaN;
  for (let i = 0; i < forecast.timesMs.length; i++) {
    const atMs = forecast.timesMs[i]!;
    if (!outside(forecast.tempsC[i]!)) run = Number.NaN;
    else if (Number.isNaN(run)) run = atMs;
    if (!Number.isNaN(run) && atMs - run >= leastMs && Math.abs(run - fromMs) <= 12 * HOUR_MS) return true;
  }
  return false;
}

function grounded(winter: MadeWinter, { ruleId, fromMs, raisedMs }: WatchNotice): boolean {
  const near = (limit: number) => {
    for (let atMs = fromMs - HOUR_MS; atMs <= raisedMs + HOUR_MS; atMs += 5 * MINUTE_MS)
      if (trueAt(winter, atMs) < limit) return true;
    return false;
  };
  // The same two tenths as above: nearer to the limit than that, the probe cannot tell.
  if (ruleId === 'frost') return near(0.2);
  if (ruleId === 'under-2') return near(2.2);
  if (ruleId === 'silence-in-cold') return winter.gaps.some(([from, to]) => raisedMs >= from && raisedMs <= to);
  if (ruleId === 'urine') return winter.urineMs.some((atMs) => Math.abs(atMs - raisedMs) < 2 * HOUR_MS);
  if (ruleId === 'mass-10')
    return winter.trueLoss.some(({ atMs, share }) => Math.abs(atMs - raisedMs) < HOUR_MS && share > 0.096);
  return false;
}

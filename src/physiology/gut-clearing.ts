import { figure, temperature } from '../measure/figures.ts';
import type { Spread } from '../measure/spread.ts';
import { type Message, message } from '../wording/say.ts';
import type { TemperatureSeries } from './body-temperature.ts';
import {
  GUT_HOTTEST_C,
  GUT_Q10,
  GUT_REFERENCE,
  GUT_REFERENCE_C,
  GUT_TAPER,
  type GutRow,
  SMALL_UNDER_MM,
} from './constants.ts';

const DAY_MS = 86_400_000;
/** Two readings further apart than this say nothing about the time between: no passage is credited. */
const LONGEST_GAP_MS = 6 * 3_600_000;
/** Slower than this the gut will not clear before the fast itself does harm. */
const STALLED_AFTER_DAYS = 60;

/** The row for an animal of this length; adults when the length is not known, since they take longer. */
export function gutOf(sclMm: number | undefined): GutRow {
  return sclMm !== undefined && sclMm < SMALL_UNDER_MM ? GUT_REFERENCE.small : GUT_REFERENCE.adult;
}

/**
 * Share of a full passage made per day at a body temperature: (1 / D) Q10^((T - 28) / 10) from 15 °C up, falling in a
 * straight line to nothing at 10 °C.
 *
 * @param referenceDays D, days of passage at 28 °C
 */
export function passagePerDay(bodyTempC: number, referenceDays: number, q10: number): number {
  if (bodyTempC <= GUT_TAPER.noneC) return 0;
  const taper = Math.min(1, (bodyTempC - GUT_TAPER.noneC) / (GUT_TAPER.fullC - GUT_TAPER.noneC));
  return (taper * q10 ** ((Math.min(bodyTempC, GUT_HOTTEST_C) - GUT_REFERENCE_C) / 10)) / referenceDays;
}

export interface GutProgress {
  /** Share of the passage made by the end of the series: 1 is clear. `low` is the slow animal. */
  readonly share: Spread;
  /** When the share reached 1, ms since 1970 UTC: the fast animal, the usual one, the slow one. Absent: not within the series. */
  readonly clearAtMs: { readonly early?: number; readonly expected?: number; readonly late?: number };
  /** Passage a day over the last three days, of the usual animal. */
  readonly recentPerDay: number;
  /** Mean body temperature over the last three days, °C; NaN without readings. */
  readonly recentC: number;
  /** Hours of the series without readings, for which nothing was credited. */
  readonly unknownH: number;
}

interface Trace {
  share: number;
  clearAtMs?: number;
  recent: number;
}

/**
 * How far the last meal has passed, from `lastMealMs` to the end of the series (recorded, planned, or the one joined to the
 * other). The range takes the ends of the passage time and, at each moment, the Q10 that makes it wider.
 */
export function gutProgress(series: TemperatureSeries, lastMealMs: number, gut: GutRow): GutProgress {
  const { low, mid, high } = gut.referenceDays;
  const fast: Trace = { share: 0, recent: 0 };
  const usual: Trace = { share: 0, recent: 0 };
  const slow: Trace = { share: 0, recent: 0 };
  const { atMs, tempC } = series;
  const endMs = atMs.length > 0 ? atMs[atMs.length - 1]! : lastMealMs;
  let unknownMs = atMs.length > 0 ? Math.max(0, atMs[0]! - lastMealMs) : 0;
  let recentMs = 0;
  let recentSumC = 0;
  for (let i = 1; i < atMs.length; i++) {
    const to = atMs[i]!;
    const from = Math.max(atMs[i - 1]!, lastMealMs);
    if (to <= from) continue;
    if (to - atMs[i - 1]! > LONGEST_GAP_MS) {
      unknownMs += to - from;
      continue;
    }
    const slope = (tempC[i]! - tempC[i - 1]!) / (to - atMs[i - 1]!);
    const startC = tempC[i - 1]! + slope * (from - atMs[i - 1]!);
    const middleC = (startC + tempC[i]!) / 2;
    const days = (to - from) / DAY_MS;
    const recent = to > endMs - 3 * DAY_MS;
    if (recent) {
      recentMs += to - from;
      recentSumC += middleC * (to - from);
    }
    // Below 28 °C a low Q10 means a faster gut.
    const [fastQ10, slowQ10] =
      middleC < GUT_REFERENCE_C ? [GUT_Q10.value.low, GUT_Q10.value.high] : [GUT_Q10.value.high, GUT_Q10.value.low];
    advance(fast, startC, middleC, tempC[i]!, low, fastQ10, from, days, recent);
    advance(usual, startC, middleC, tempC[i]!, mid, GUT_Q10.value.mid, from, days, recent);
    advance(slow, startC, middleC, tempC[i]!, high, slowQ10, from, days, recent);
  }
  return {
    share: { low: Math.min(1, slow.share), mid: Math.min(1, usual.share), high: Math.min(1, fast.share) },
    clearAtMs: {
      ...(fast.clearAtMs === undefined ? {} : { early: fast.clearAtMs }),
      ...(usual.clearAtMs === undefined ? {} : { expected: usual.clearAtMs }),
      ...(slow.clearAtMs === undefined ? {} : { late: slow.clearAtMs }),
    },
    recentPerDay: recentMs > 0 ? usual.recent / (recentMs / DAY_MS) : 0,
    recentC: recentMs > 0 ? recentSumC / recentMs : Number.NaN,
    unknownH: unknownMs / 3_600_000,
  };
}

/** Simpson's rule over one interval; the instant of clearing by a straight line inside it. */
function advance(
  trace: Trace,
  startC: number,
  middleC: number,
  endC: number,
  days: number,
  q10: number,
  fromMs: number,
  lengthDays: number,
  recent: boolean,
): void {
  const perDay =
    (passagePerDay(startC, days, q10) + 4 * passagePerDay(middleC, days, q10) + passagePerDay(endC, days, q10)) / 6;
  const gained = perDay * lengthDays;
  if (trace.clearAtMs === undefined && trace.share + gained >= 1)
    trace.clearAtMs = fromMs + ((1 - trace.share) / gained) * lengthDays * DAY_MS;
  trace.share += gained;
  if (recent) trace.recent += gained;
}

export type GutState = 'clear' | 'probably-clear' | 'clearing' | 'too-cold-to-clear' | 'unknown';

export interface GutVerdict {
  readonly state: GutState;
  readonly message: Message;
  /** Days still needed at the warmth of the last three days, for the usual and the slow animal. Absent when it is standing still. */
  readonly daysLeft?: { readonly expected: number; readonly late: number };
}

/**
 * What the progress means today. `too-cold-to-clear` is the conflict that harms animals: food still in and too cold to
 * digest it, where neither waiting nor going down helps, only warmth.
 */
export function gutVerdict(progress: GutProgress, gut: GutRow): GutVerdict {
  if (Number.isNaN(progress.recentC)) return { state: 'unknown', message: message('physiology.gut.unknown') };
  if (progress.share.low >= 1) return { state: 'clear', message: message('physiology.gut.clear') };
  const slower = gut.referenceDays.mid / gut.referenceDays.high;
  const expected =
    progress.recentPerDay > 0 ? (1 - progress.share.mid) / progress.recentPerDay : Number.POSITIVE_INFINITY;
  const late =
    progress.recentPerDay > 0 ? (1 - progress.share.low) / (progress.recentPerDay * slower) : Number.POSITIVE_INFINITY;
  if (progress.share.mid >= 1) {
    return {
      state: 'probably-clear',
      message: message('physiology.gut.probably-clear'),
      ...(Number.isFinite(late) ? { daysLeft: { expected: 0, late } } : {}),
    };
  }
  const values = { passed: figure(100 * progress.share.mid), recent: temperature(progress.recentC) };
  if (expected > STALLED_AFTER_DAYS)
    return { state: 'too-cold-to-clear', message: message('physiology.gut.too-cold', values) };
  return {
    state: 'clearing',
    message: message('physiology.gut.clearing', {
      ...values,
      days: figure(Math.ceil(expected)),
      late: figure(Math.ceil(late)),
    }),
    daysLeft: { expected, late },
  };
}

/** What a forecast of the next days in a box says: its coldest and warmest hour, and which limits it passes, and when. */
import { type TemperatureUnit, temperature } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';

const HOUR_MS = 3_600_000;

/** A temperature expected every `stepMs` from `startMs` on, with the ends of its 90 % range, °C. */
export interface BoxCourse {
  readonly startMs: number;
  readonly stepMs: number;
  readonly tempsC: ArrayLike<number>;
  readonly lowC: ArrayLike<number>;
  readonly highC: ArrayLike<number>;
}

/** Limits of a stay, °C, the mildest first. */
export interface OutlookLimits {
  readonly coldC: readonly number[];
  readonly warmC: readonly number[];
}

export interface Passing {
  readonly side: 'cold' | 'warm';
  readonly limitC: number;
  /** True when the expected course itself passes the limit; false when only its 90 % range does. */
  readonly likely: boolean;
  /** The instant it is passed, on a straight line between samples; the start of the forecast when the box is beyond it already. */
  readonly atMs: number;
  readonly already: boolean;
  /** When the expected course is back inside; absent when it stays beyond to the end, or passes in the range alone. */
  readonly backMs?: number;
}

interface Extreme {
  readonly atMs: number;
  readonly tempC: number;
}

export interface Outlook {
  readonly fromMs: number;
  readonly toMs: number;
  readonly coldest: Extreme;
  readonly warmest: Extreme;
  /** Each limit passed, cold before warm, the mildest first. */
  readonly passings: readonly Passing[];
}

/** Reads a course against the limits. Throws RangeError for a course without samples. */
export function outlookOf(course: BoxCourse, limits: OutlookLimits): Outlook {
  const { startMs, stepMs, tempsC } = course;
  if (tempsC.length === 0) throw new RangeError('an outlook needs at least one temperature');
  let cold = 0;
  let warm = 0;
  for (let k = 1; k < tempsC.length; k++) {
    if (tempsC[k]! < tempsC[cold]!) cold = k;
    if (tempsC[k]! > tempsC[warm]!) warm = k;
  }
  const at = (k: number): Extreme => ({ atMs: startMs + k * stepMs, tempC: tempsC[k]! });
  const passings = [
    ...limits.coldC.map((limitC) => passing(course, 'cold', limitC)),
    ...limits.warmC.map((limitC) => passing(course, 'warm', limitC)),
  ].filter((one) => one !== undefined);
  return { fromMs: startMs, toMs: at(tempsC.length - 1).atMs, coldest: at(cold), warmest: at(warm), passings };
}

function passing(course: BoxCourse, side: 'cold' | 'warm', limitC: number): Passing | undefined {
  const { startMs, stepMs, tempsC } = course;
  const sign = side === 'cold' ? -1 : 1;
  for (const likely of [true, false]) {
    const values = likely ? tempsC : side === 'cold' ? course.lowC : course.highC;
    const beyond = (k: number) => sign * (values[k]! - limitC) > 0;
    const crossing = (k: number) =>
      startMs + (k - 1 + (limitC - values[k - 1]!) / (values[k]! - values[k - 1]!)) * stepMs;
    for (let k = 0; k < values.length; k++) {
      if (!beyond(k)) continue;
      const back = likely ? firstFrom(k, values.length, (j) => !beyond(j)) : undefined;
      return {
        side,
        limitC,
        likely,
        atMs: k === 0 ? startMs : crossing(k),
        already: k === 0,
        ...(back === undefined ? {} : { backMs: crossing(back) }),
      };
    }
  }
  return undefined;
}

function firstFrom(from: number, end: number, test: (k: number) => boolean): number | undefined {
  for (let k = from; k < end; k++) if (test(k)) return k;
  return undefined;
}

/**
 * The passing that matters first: what is expected before what is only possible, cold before warm, and of one side the mildest limit,
 * which is passed first. Undefined while the course and its range stay inside.
 */
export function firstPassing({ passings }: Outlook): Passing | undefined {
  return passings.find((one) => one.likely) ?? passings[0];
}

/** The passing as a sentence, counted in hours from the start of the forecast. */
export function sayPassing(passed: Passing, fromMs: number, unit: TemperatureUnit): Message {
  const limit = temperature(passed.limitC, unit, unit === 'F' ? 1 : 0);
  if (passed.already && passed.likely) return message(`heat.next.${passed.side}-now`, { limit });
  // A box half an hour from its limit is told as an hour away, never as no time at all.
  const count = Math.max(1, Math.round((passed.atMs - fromMs) / HOUR_MS));
  return message(`heat.next.${passed.side}-${passed.likely ? 'likely' : 'possible'}`, { count, limit });
}

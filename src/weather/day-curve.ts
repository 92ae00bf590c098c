import { addDays, type Day, dayNumber } from '../measure/day.ts';
import { instantInZone } from '../measure/zone.ts';
import { DAY_CURVES, type DayCurve } from './day-curve-coefficients.ts';
import type { WeatherSeries } from './series.ts';
import { sunTimes } from './sun.ts';

const HOUR_MS = 3_600_000;

/** One day of a max-min record, in the keeper's zone. */
export interface DailyRow {
  readonly day: Day;
  readonly maxC: number;
  readonly minC: number;
  /** Cloud cover as a share of the sky, 0 to 1. */
  readonly cloudShare?: number;
}

/** Where a record was made. */
export interface Site {
  readonly zone: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** One daylight: the sun's rise and set as the curve uses them, and the temperatures at its corners. */
export interface Daylight {
  readonly noonMs: number;
  readonly lengthH: number;
  readonly minC: number;
  readonly maxC: number;
}

/**
 * Temperature by day, °C, at `hoursAfterNoon` of the sun: a sine from the minimum (sunrise + c) over the maximum (noon + a) to sunset.
 * Half-period D + 2(a - c); the published text prints D + 2a, which puts the maximum elsewhere than at noon + a.
 */
export function daytimeTempC(light: Daylight, hoursAfterNoon: number, curve: DayCurve): number {
  const sinceMinimum = hoursAfterNoon + light.lengthH / 2 - curve.minimumLagH;
  const half = light.lengthH + 2 * (curve.maximumLagH - curve.minimumLagH);
  return light.minC + (light.maxC - light.minC) * Math.sin((Math.PI * sinceMinimum) / half);
}

/**
 * Temperature by night, °C, from the sunset of one daylight to the minimum of the next: exponential decay, rescaled so that it reaches that
 * minimum. The published form stops with exp(-b), about a ninth, of the fall still to come, and then jumps.
 */
export function nightTempC(before: Daylight, after: Daylight, atMs: number, curve: DayCurve): number {
  const sunset = before.noonMs + (before.lengthH / 2) * HOUR_MS;
  const minimum = after.noonMs + (curve.minimumLagH - after.lengthH / 2) * HOUR_MS;
  const share = (atMs - sunset) / (minimum - sunset);
  const rest = Math.exp(-curve.nightDecay);
  const excess = (Math.exp(-curve.nightDecay * share) - rest) / (1 - rest);
  const atSunset = daytimeTempC(before, before.lengthH / 2, curve);
  return after.minC + (atSunset - after.minC) * excess;
}

/** The clock of one day: its local midnights and its sun, worked out once and used for any number of winters. */
export interface DayClock {
  readonly day: Day;
  readonly startMs: number;
  readonly endMs: number;
  readonly noonMs: number;
  readonly lengthH: number;
}

/** Clocks of `count` days from `firstDay` on. */
export function dayClocks(firstDay: Day, count: number, site: Site): DayClock[] {
  const clocks: DayClock[] = [];
  let startMs = instantInZone(firstDay, site.zone);
  for (let i = 0; i < count; i++) {
    const day = addDays(firstDay, i);
    const endMs = instantInZone(addDays(day, 1), site.zone);
    const sun = sunTimes(day, site.zone, site.latitudeDeg, site.longitudeDeg);
    clocks.push({ day, startMs, endMs, noonMs: sun.noonMs, lengthH: sun.dayLengthH });
    startMs = endMs;
  }
  return clocks;
}

/** Daylight as the curve can bear it: where the sun hardly rises or hardly sets, a day still has a warmer and a colder part. */
function daylight(clock: DayClock, minC: number, maxC: number, curve: DayCurve): Daylight {
  const lengthH = Math.min(20, Math.max(2 * curve.maximumLagH + 0.5, clock.lengthH));
  return { noonMs: clock.noonMs, lengthH, minC, maxC };
}

function temperatureAt(atMs: number, before: Daylight, own: Daylight, after: Daylight, curve: DayCurve): number {
  const hours = (atMs - own.noonMs) / HOUR_MS;
  let value: number;
  let low = own.minC;
  let high = own.maxC;
  if (hours < curve.minimumLagH - own.lengthH / 2) {
    value = nightTempC(before, own, atMs, curve);
    low = Math.min(low, before.minC);
    high = Math.max(high, before.maxC);
  } else if (hours <= own.lengthH / 2) {
    value = daytimeTempC(own, hours, curve);
  } else {
    value = nightTempC(own, after, atMs, curve);
    low = Math.min(low, after.minC);
    high = Math.max(high, after.maxC);
  }
  return Math.min(high, Math.max(low, value));
}

const sound = (light: Daylight | undefined): light is Daylight =>
  light !== undefined && Number.isFinite(light.minC) && Number.isFinite(light.maxC);

/**
 * Hours from the extremes of consecutive days, one per clock; NaN where the day is not known. One sample an hour from local midnight of the
 * first day. See `hoursFromDays`.
 */
export function hoursOnClocks(
  clocks: readonly DayClock[],
  minC: Float64Array,
  maxC: Float64Array,
  curve: DayCurve = DAY_CURVES[0]!,
): { readonly startMs: number; readonly airTempC: Float64Array } {
  const startMs = clocks[0]!.startMs;
  const count = Math.ceil((clocks.at(-1)!.endMs - startMs) / HOUR_MS);
  const airTempC = new Float64Array(count).fill(Number.NaN);
  const lights = clocks.map((clock, i) => daylight(clock, minC[i]!, maxC[i]!, curve));
  for (let index = 0; index < clocks.length; index++) {
    const own = lights[index]!;
    if (!sound(own)) continue;
    // At the edge of a gap the day itself stands in for its missing neighbour.
    const before = sound(lights[index - 1]) ? lights[index - 1]! : { ...own, noonMs: own.noonMs - 24 * HOUR_MS };
    const after = sound(lights[index + 1]) ? lights[index + 1]! : { ...own, noonMs: own.noonMs + 24 * HOUR_MS };
    const from = Math.ceil((clocks[index]!.startMs - startMs) / HOUR_MS);
    const to = Math.ceil((clocks[index]!.endMs - startMs) / HOUR_MS);
    for (let i = from; i < to; i++) airTempC[i] = temperatureAt(startMs + i * HOUR_MS, before, own, after, curve);
  }
  return { startMs, airTempC };
}

/** One value a day spread over the day's hours; NaN for a day without one. */
export function dailyOverHours(clocks: readonly DayClock[], values: Float64Array): Float64Array {
  const startMs = clocks[0]!.startMs;
  const out = new Float64Array(Math.ceil((clocks.at(-1)!.endMs - startMs) / HOUR_MS));
  for (let index = 0; index < clocks.length; index++)
    out.fill(
      values[index]!,
      Math.ceil((clocks[index]!.startMs - startMs) / HOUR_MS),
      Math.ceil((clocks[index]!.endMs - startMs) / HOUR_MS),
    );
  return out;
}

/**
 * Hours from daily extremes: Parton and Logan 1981, with the night rescaled and falling to the next day's minimum. The sun's own times are
 * used, so the shape does not jump when the clocks change. Every value lies between the extremes of the days it joins.
 *
 * `rows` in rising order of days, each day once (RangeError otherwise). A day that is not in the record, or whose extremes are NaN, gives
 * hours of NaN. The series begins at local midnight of the first day and ends before local midnight after the last; one sample an hour.
 */
export function hoursFromDays(rows: readonly DailyRow[], site: Site, curve: DayCurve = DAY_CURVES[0]!): WeatherSeries {
  const first = rows[0];
  if (!first) throw new RangeError('There are no days to make hours from');
  const days = dayNumber(rows.at(-1)!.day) - dayNumber(first.day) + 1;
  let latest = Number.NEGATIVE_INFINITY;
  for (const row of rows) {
    const number = dayNumber(row.day);
    if (number <= latest) throw new RangeError(`Day ${row.day} does not come after the one before it`);
    if (row.maxC < row.minC) throw new RangeError(`The maximum of ${row.day} lies below its minimum`);
    latest = number;
  }
  const minC = new Float64Array(days).fill(Number.NaN);
  const maxC = new Float64Array(days).fill(Number.NaN);
  const cloud = new Float64Array(days).fill(Number.NaN);
  for (const row of rows) {
    const index = dayNumber(row.day) - dayNumber(first.day);
    minC[index] = row.minC;
    maxC[index] = row.maxC;
    cloud[index] = row.cloudShare ?? Number.NaN;
  }
  const clocks = dayClocks(first.day, days, site);
  const hours = hoursOnClocks(clocks, minC, maxC, curve);
  const clouds = rows.some((row) => row.cloudShare !== undefined);
  return { ...hours, stepS: 3600, ...(clouds ? { cloudShare: dailyOverHours(clocks, cloud) } : {}) };
}

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

/** Daylight as the curve can bear it: where the sun hardly rises or hardly sets, a day still has a warmer and a colder part. */
function daylight(row: DailyRow, site: Site, curve: DayCurve): Daylight {
  const sun = sunTimes(row.day, site.zone, site.latitudeDeg, site.longitudeDeg);
  const lengthH = Math.min(20, Math.max(2 * curve.maximumLagH + 0.5, sun.dayLengthH));
  return { noonMs: sun.noonMs, lengthH, minC: row.minC, maxC: row.maxC };
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

/**
 * Hours from daily extremes: Parton and Logan 1981, with the night rescaled and falling to the next day's minimum. The sun's own times are
 * used, so the shape does not jump when the clocks change. Every value lies between the extremes of the days it joins.
 *
 * `rows` in rising order of days, each day once (RangeError otherwise). A day that is not in the record, or whose extremes are NaN, gives
 * hours of NaN. The series begins at local midnight of the first day and ends before local midnight after the last; one sample an hour.
 */
export function hoursFromDays(rows: readonly DailyRow[], site: Site, curve: DayCurve = DAY_CURVES[0]!): WeatherSeries {
  const first = rows[0];
  const last = rows.at(-1);
  if (!first || !last) throw new RangeError('There are no days to make hours from');
  for (let i = 1; i < rows.length; i++)
    if (dayNumber(rows[i]!.day) <= dayNumber(rows[i - 1]!.day))
      throw new RangeError(`Day ${rows[i]!.day} does not come after ${rows[i - 1]!.day}`);
  for (const row of rows)
    if (row.maxC < row.minC) throw new RangeError(`The maximum of ${row.day} lies below its minimum`);

  const startMs = instantInZone(first.day, site.zone);
  const count = Math.round((instantInZone(addDays(last.day, 1), site.zone) - startMs) / HOUR_MS);
  const airTempC = new Float64Array(count).fill(Number.NaN);
  const clouds = rows.some((row) => row.cloudShare !== undefined);
  const cloudShare = clouds ? new Float64Array(count).fill(Number.NaN) : undefined;
  const lights = rows.map((row) => daylight(row, site, curve));
  const adjacent = (index: number, other: number): Daylight | undefined => {
    const row = rows[other];
    const near = row && Math.abs(dayNumber(row.day) - dayNumber(rows[index]!.day)) === 1;
    return near && Number.isFinite(row.minC) && Number.isFinite(row.maxC) ? lights[other] : undefined;
  };
  for (let index = 0; index < rows.length; index++) {
    const row = rows[index]!;
    if (!Number.isFinite(row.maxC) || !Number.isFinite(row.minC)) continue;
    const own = lights[index]!;
    // At the edge of a gap the day itself stands in for its missing neighbour.
    const before = adjacent(index, index - 1) ?? { ...own, noonMs: own.noonMs - 24 * HOUR_MS };
    const after = adjacent(index, index + 1) ?? { ...own, noonMs: own.noonMs + 24 * HOUR_MS };
    const from = Math.ceil((instantInZone(row.day, site.zone) - startMs) / HOUR_MS);
    const to = Math.ceil((instantInZone(addDays(row.day, 1), site.zone) - startMs) / HOUR_MS);
    for (let i = from; i < to; i++) {
      airTempC[i] = temperatureAt(startMs + i * HOUR_MS, before, own, after, curve);
      if (cloudShare && row.cloudShare !== undefined) cloudShare[i] = row.cloudShare;
    }
  }
  return { startMs, stepS: 3600, airTempC, ...(cloudShare ? { cloudShare } : {}) };
}

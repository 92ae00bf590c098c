/** A place known by the readings taken in it: its air by the hour, and the winters in which they tell enough of a sleep. */
import type { WeatherSeries } from '../weather/series.ts';
import { WHOLE_UNKNOWN_SHARE } from './answer.ts';
import { forecastPlace, type PlaceForecast, reachedStretches, type SleepWindow } from './forecast.ts';
import type { PreparedWinters } from './place-weather.ts';

const HOUR_MS = 3_600_000;
const DAY_H = 24;
/** Missing hours up to this many in a row are bridged: a thermometer that reads every four hours tells a room's air. */
const BRIDGED_H = 3;
/** Readings of fewer days than this in a sleep tell too little of it; a shorter sleep needs to be known as a whole. */
const LEAST_READ_DAYS = 14;

/** Means of one thermometer by the hour, each under the instant at which its hour begins, ms since 1970 UTC. */
export interface HourMeans {
  readonly atMs: readonly number[];
  readonly meanC: readonly number[];
}

/**
 * The air of a place from any number of thermometers: where several read, their mean. A mean stands in the middle of its hour. Longer
 * holes than three hours stay holes. Undefined without a single reading.
 */
export function airOfReadings(thermometers: readonly HourMeans[]): WeatherSeries | undefined {
  let [first, last] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { atMs } of thermometers)
    for (const at of atMs) {
      const hour = Math.floor(at / HOUR_MS);
      if (hour < first) first = hour;
      if (hour > last) last = hour;
    }
  if (first > last) return undefined;
  const airTempC = new Float64Array(last - first + 1);
  const counts = new Uint16Array(airTempC.length);
  for (const { atMs, meanC } of thermometers)
    atMs.forEach((at, i) => {
      const k = Math.floor(at / HOUR_MS) - first;
      airTempC[k]! += meanC[i]!;
      counts[k]! += 1;
    });
  let before = 0;
  for (let k = 0; k < airTempC.length; k++) {
    if (counts[k] === 0) {
      airTempC[k] = Number.NaN;
      continue;
    }
    airTempC[k]! /= counts[k]!;
    const hole = k - before - 1;
    if (hole <= BRIDGED_H)
      for (let i = 1; i <= hole; i++)
        airTempC[before + i] = airTempC[before]! + ((airTempC[k]! - airTempC[before]!) * i) / (hole + 1);
    before = k;
  }
  return { startMs: first * HOUR_MS + HOUR_MS / 2, stepS: HOUR_MS / 1000, airTempC };
}

export interface ReadPlace {
  /** The place in the winters of which enough was read; undefined when there is none. */
  readonly place: PlaceForecast | undefined;
  /** Days of the sleep that were read in the winter in which most were, and how many there must be. */
  readonly mostDays: number;
  readonly leastDays: number;
}

/** Takes readings, cut into winters, as the air of a place for one sleep. Winters in which too little of the sleep was read are left out. */
export function placeOfReadings(prepared: PreparedWinters, sleep: SleepWindow): ReadPlace {
  const leastDays = Math.min(LEAST_READ_DAYS, (1 - WHOLE_UNKNOWN_SHARE) * sleep.days);
  const whole = forecastPlace({ kind: 'readings' }, prepared);
  const enough = new Set<object>();
  let mostDays = 0;
  for (const { place, from, to } of reachedStretches(whole, sleep)) {
    const { airTempC, stepS } = place.winter.series;
    let known = 0;
    for (let k = Math.max(from, 0); k < Math.min(to, airTempC.length); k++) if (!Number.isNaN(airTempC[k]!)) known += 1;
    const days = (known * stepS) / 3600 / DAY_H;
    mostDays = Math.max(mostDays, days);
    if (days >= leastDays) enough.add(place.winter);
  }
  if (enough.size === 0) return { place: undefined, mostDays, leastDays };
  const winters = prepared.winters.filter(({ winter }) => enough.has(winter));
  return { place: forecastPlace({ kind: 'readings' }, { ...prepared, winters }), mostDays, leastDays };
}

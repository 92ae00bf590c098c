import { vapourDensityKgM3 } from '../air/humid-air.ts';
import { LEAST_DEFICIT_SHARE, USUAL_BOX_AIR } from './constants.ts';
import { vapourDeficitKgM3 } from './water-loss.ts';

/** What is known, or expected, of the air around the animal for a while. */
interface ClimateSpan {
  readonly fromMs: number;
  readonly toMs: number;
  readonly tempC: number;
  /** Share 0 to 1; absent when nobody measures it. */
  readonly relativeHumidity?: number;
}

/** Air of a box through time: spans in order of time, not overlapping. Where no span is, `usual` holds. */
export interface BoxClimate {
  readonly spans: readonly ClimateSpan[];
  readonly usual?: { readonly tempC: number; readonly relativeHumidity: number };
}

/** What an animal was exposed to between two instants. */
export interface Exposure {
  readonly days: number;
  /** Vapour deficit summed over time, kg s/m3. */
  readonly deficitKgSM3: number;
  /** Measured humidity in the last day before the end; absent when none was. */
  readonly humidityAtEnd?: number;
}

const DAY_MS = 86_400_000;

/** Sums the vapour deficit from `fromMs` to `toMs`. Air damper than the animal counts as almost no loss, not as a gain. */
export function exposure(climate: BoxClimate, fromMs: number, toMs: number): Exposure {
  if (!(toMs >= fromMs)) throw new RangeError('an exposure ends after it begins');
  const usual = climate.usual ?? USUAL_BOX_AIR;
  const usualDeficit = effectiveDeficitKgM3(usual.tempC, usual.relativeHumidity);
  let deficit = 0;
  let coveredMs = 0;
  let humidity = 0;
  let humidityMs = 0;
  for (let i = firstSpan(climate.spans, fromMs); i < climate.spans.length; i++) {
    const span = climate.spans[i]!;
    if (span.fromMs >= toMs) break;
    const from = Math.max(span.fromMs, fromMs);
    const lastingMs = Math.min(span.toMs, toMs) - from;
    if (lastingMs <= 0) continue;
    coveredMs += lastingMs;
    deficit += effectiveDeficitKgM3(span.tempC, span.relativeHumidity ?? usual.relativeHumidity) * (lastingMs / 1000);
    const lateMs = Math.min(span.toMs, toMs) - Math.max(from, toMs - DAY_MS);
    if (span.relativeHumidity !== undefined && lateMs > 0) {
      humidity += span.relativeHumidity * lateMs;
      humidityMs += lateMs;
    }
  }
  deficit += usualDeficit * ((toMs - fromMs - coveredMs) / 1000);
  return {
    days: (toMs - fromMs) / DAY_MS,
    deficitKgSM3: deficit,
    ...(humidityMs > 0 ? { humidityAtEnd: humidity / humidityMs } : {}),
  };
}

function effectiveDeficitKgM3(tempC: number, relativeHumidity: number): number {
  const least = LEAST_DEFICIT_SHARE.value * vapourDensityKgM3(tempC, 1);
  return Math.max(least, vapourDeficitKgM3(tempC, relativeHumidity));
}

/** Index of the first span that ends after `fromMs`, by halving. */
function firstSpan(spans: readonly ClimateSpan[], fromMs: number): number {
  let low = 0;
  let high = spans.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (spans[middle]!.toMs <= fromMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A reading in the box, with humidity where the probe gives it (share 0 to 1). */
export interface BoxReading {
  readonly atMs: number;
  readonly tempC: number;
  readonly humidity?: number;
}

const HOUR_MS = 3_600_000;

/**
 * Climate from readings in order of time: hourly means. An hour without a reading is left out, so that the usual air stands in
 * for it; the usual air is the mean of what was read in the last seven days before `untilMs`.
 *
 * @param first index of the first reading that counts
 */
export function climateFromReadings(readings: readonly BoxReading[], untilMs: number, first = 0): BoxClimate {
  const spans: ClimateSpan[] = [];
  let late = { temp: 0, n: 0, humidity: 0, m: 0 };
  let i = first;
  while (i < readings.length && readings[i]!.atMs < untilMs) {
    const hour = Math.floor(readings[i]!.atMs / HOUR_MS);
    const sum = { temp: 0, n: 0, humidity: 0, m: 0 };
    for (
      ;
      i < readings.length && readings[i]!.atMs < untilMs && Math.floor(readings[i]!.atMs / HOUR_MS) === hour;
      i++
    ) {
      const { tempC, humidity } = readings[i]!;
      sum.temp += tempC;
      sum.n++;
      if (humidity === undefined) continue;
      sum.humidity += humidity;
      sum.m++;
    }
    spans.push({
      fromMs: hour * HOUR_MS,
      toMs: (hour + 1) * HOUR_MS,
      tempC: sum.temp / sum.n,
      ...(sum.m > 0 ? { relativeHumidity: sum.humidity / sum.m } : {}),
    });
    if (hour * HOUR_MS >= untilMs - 7 * DAY_MS)
      late = {
        temp: late.temp + sum.temp,
        n: late.n + sum.n,
        humidity: late.humidity + sum.humidity,
        m: late.m + sum.m,
      };
  }
  if (late.n === 0) return { spans };
  const relativeHumidity = late.m > 0 ? late.humidity / late.m : USUAL_BOX_AIR.relativeHumidity;
  return { spans, usual: { tempC: late.temp / late.n, relativeHumidity } };
}

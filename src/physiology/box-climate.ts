import { vapourDensityKgM3 } from '../air/humid-air.ts';
import { LEAST_DEFICIT_SHARE, USUAL_BOX_AIR } from './constants.ts';
import { vapourDeficitKgM3 } from './water-loss.ts';

/** What is known, or expected, of the air around the animal for a while. */
export interface ClimateSpan {
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

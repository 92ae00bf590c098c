import type { Day } from '../../measure/day.ts';
import type { Group } from '../../schema/group.ts';
import type { Forecast } from '../../schema/winters.ts';
import { CLIMATES } from '../../weather/climates.ts';
import { generateWinters } from '../../weather/generator.ts';
import type { WeatherSeries } from '../../weather/series.ts';
import type { WeatherHour } from '../weather.ts';

const HOUR_MS = 3_600_000;
/** Always the same invented winter: one cold enough that the boxes differ, and not so cold that one of them fails. */
const SEED = 216;

/** One invented winter outdoors, hourly, from `fromDay` for `days` days. */
export function demoWeather(group: Group, fromDay: Day, days: number): WeatherSeries {
  const [winter] = generateWinters({
    normals: group.climateNormals!,
    departures: CLIMATES[0]!,
    site: { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone },
    fromDay,
    days,
    winters: 1,
    seed: SEED,
  });
  return winter!.series;
}

export interface Following {
  /** Time constant with which it follows the outdoors, h; 0 is the outdoors itself. */
  readonly lagH: number;
  /** Where it would stay if nothing outdoors moved it, °C, and how much of the outdoors reaches it, 0 to 1. */
  readonly towardsC: number;
  readonly share: number;
}

/**
 * Invented readings at every `stepMs`: a first-order lag behind the outdoors, with the resolution and the jitter of a cheap probe.
 * They are no forecast and no measurement; the builder's forecast is computed from the described box instead.
 */
export function demoReadings(
  outdoors: WeatherSeries,
  following: Following,
  fromMs: number,
  toMs: number,
  stepMs: number,
): { readonly atMs: number; readonly tempC: number }[] {
  const out: { atMs: number; tempC: number }[] = [];
  let tempC = following.share * (outdoors.airTempC[0] ?? 5) + (1 - following.share) * following.towardsC;
  const keep = following.lagH === 0 ? 0 : Math.exp(-stepMs / HOUR_MS / following.lagH);
  for (let atMs = outdoors.startMs; atMs <= toMs; atMs += stepMs) {
    const outdoorC = at(outdoors, atMs);
    if (Number.isNaN(outdoorC)) break;
    const target = following.share * outdoorC + (1 - following.share) * following.towardsC;
    tempC = target + (tempC - target) * keep;
    // A refrigerator swings about its setting; nothing else here has a rhythm of its own.
    const swing = following.share === 0 ? 0.6 * Math.sin(atMs / (0.4 * HOUR_MS)) : 0;
    if (atMs >= fromMs) out.push({ atMs, tempC: Math.round((tempC + swing + jitter(atMs)) * 16) / 16 });
  }
  return out;
}

/** Between -0.05 and 0.05 K, the same for the same instant. */
const jitter = (atMs: number): number => (((Math.sin(atMs / 7919) * 43_758.5453) % 1) + 0) * 0.05;

function at(series: WeatherSeries, atMs: number): number {
  const place = (atMs - series.startMs) / (series.stepS * 1000);
  const low = Math.floor(place);
  const [a, b] = [series.airTempC[low], series.airTempC[low + 1]];
  if (a === undefined) return Number.NaN;
  return b === undefined ? a : a + (b - a) * (place - low);
}

/** The hours outdoors from `fromMs` to `toMs`, as a weather service would have sent them. */
export function demoHours(outdoors: WeatherSeries, fromMs: number, toMs: number): WeatherHour[] {
  const { startMs, airTempC, cloudShare } = outdoors;
  const index = (ms: number) => Math.floor((ms - startMs) / HOUR_MS);
  const hours: WeatherHour[] = [];
  for (let i = Math.max(0, index(fromMs)); i <= Math.min(index(toMs), airTempC.length - 1); i++) {
    const cloud = cloudShare?.[i];
    hours.push({
      atMs: startMs + i * HOUR_MS,
      tempC: Math.round(airTempC[i]! * 10) / 10,
      ...(cloud === undefined || Number.isNaN(cloud) ? {} : { cloudShare: Math.round(cloud * 100) / 100 }),
    });
  }
  return hours;
}

/** The next seven days outdoors, as a service would forecast them: the invented winter itself, a little warmer the farther ahead. */
export function demoForecast(outdoors: WeatherSeries, nowMs: number): Forecast {
  const startMs = Math.ceil(nowMs / HOUR_MS) * HOUR_MS;
  const hours = Array.from({ length: 168 }, (_, hour) => at(outdoors, startMs + hour * HOUR_MS) + hour * 0.006);
  return {
    madeAtMs: nowMs,
    startMs,
    stepS: 3600,
    airTempC: hours.map((tempC) => (Number.isNaN(tempC) ? null : Math.round(tempC * 10) / 10)),
  };
}

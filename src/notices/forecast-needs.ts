import type { BoxDescription, PlaceDescription } from '../heat/description.ts';
import type { BoxReading } from '../physiology/box-climate.ts';
import type { Database } from '../records/database.ts';
import { newestForecast, weatherSeries } from '../records/weather.ts';
import type { NoForecastReason } from '../schema/box-forecast.ts';
import type { Forecast } from '../schema/winters.ts';
import type { WeatherSeries } from '../weather/series.ts';
import { readingsSince, type WatchedStay } from './watched.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Weather before the readings, in which the walls and floor of the place forget what they were started with. */
const SPIN_UP_MS = 14 * DAY_MS;
const READINGS_MS = 2 * DAY_MS;
const AHEAD_H = 72;
/** A weather forecast older than this says too little. */
const OLDEST_MS = DAY_MS;
/** Missing hours up to this many in a row are bridged; a longer hole ends the forecast. */
const BRIDGED_H = 3;
/** A forecast that reaches less far is left out. */
const SHORTEST_H = 6;
/** One reading in each span of this length is enough for a box whose fastest change takes longer. */
const READING_EVERY_MS = 10 * 60_000;

/** The weather round the present of one group, and when its forecast was made. */
export interface GroupWeather {
  readonly madeAtMs: number;
  readonly series: WeatherSeries;
}

/** All that the forecast of one box is worked out from. */
export interface ForecastNeeds {
  readonly place: Extract<PlaceDescription, { kind: 'building' }>;
  readonly box: BoxDescription;
  readonly series: WeatherSeries;
  readonly aheadH: number;
  /** First hour of the series that belongs to the readings. */
  readonly from: number;
  readonly readings: readonly BoxReading[];
}

/** The weather of a group for its boxes, or why it is of no use. */
export async function groupWeather(
  database: Database,
  groupId: string,
  now: number,
): Promise<GroupWeather | { readonly reason: NoForecastReason }> {
  const weather = await newestForecast(database, groupId);
  if (!weather) return { reason: 'no-weather' };
  if (now - weather.madeAtMs > OLDEST_MS) return { reason: 'old-weather' };
  return { madeAtMs: weather.madeAtMs, series: await weatherAround(database, groupId, weather, now) };
}

/** What the forecast of a stay needs, or what is missing. Weather is looked at last: place and thermometer come before it. */
export async function forecastNeeds(
  database: Database,
  stay: WatchedStay,
  weather: GroupWeather | { readonly reason: NoForecastReason },
  now: number,
): Promise<ForecastNeeds | { readonly reason: NoForecastReason }> {
  const described = await descriptionsOf(database, stay.stayId);
  if (!described) return { reason: 'place-unknown' };
  const { place, box } = described;
  if (place.kind === 'refrigerator') return { reason: 'refrigerator' };
  if (place.kind === 'readings') return { reason: 'place-unknown' };
  if (stay.probeId === undefined) return { reason: 'no-thermometer' };
  if ('reason' in weather) return weather;
  const { series } = weather;
  const aheadH = reachH(series, now);
  if (!(aheadH >= SHORTEST_H) || series.startMs > now) return { reason: 'short-weather' };
  const from = Math.max(0, Math.floor((now - READINGS_MS - series.startMs) / HOUR_MS));
  const read = await readingsSince(database, stay.probeId, series.startMs + from * HOUR_MS - 1, now);
  const readings = [
    ...new Map(
      read.filter((one) => one.atMs <= now).map((one) => [Math.floor(one.atMs / READING_EVERY_MS), one]),
    ).values(),
  ];
  if (readings.length === 0) return { reason: 'no-readings' };
  return { place, box, series, aheadH, from, readings };
}

/** Hourly weather from two weeks ago to the end of the forecast; what nobody knows is NaN. Begins with the first known hour. */
async function weatherAround(
  database: Database,
  groupId: string,
  forecast: Forecast,
  now: number,
): Promise<WeatherSeries> {
  const hour = Math.floor(now / HOUR_MS) * HOUR_MS;
  const firstMs = hour - SPIN_UP_MS;
  const past = await weatherSeries(database, groupId, firstMs, hour + HOUR_MS);
  const stepMs = forecast.stepS * 1000;
  const count = Math.floor((forecast.startMs + (forecast.airTempC.length - 1) * stepMs - firstMs) / HOUR_MS) + 1;
  const airTempC = new Float64Array(Math.max(count, 0)).fill(Number.NaN);
  const cloudShare = new Float64Array(airTempC.length).fill(Number.NaN);
  const put = (startMs: number, index: number, step: number, tempC?: number | null, cloud?: number | null) => {
    const at = Math.round((startMs + index * step - firstMs) / HOUR_MS);
    if (at < 0 || at >= airTempC.length || !Number.isNaN(airTempC[at]!)) return;
    airTempC[at] = tempC ?? Number.NaN;
    cloudShare[at] = cloud ?? Number.NaN;
  };
  past.airTempC.forEach((tempC, i) => {
    put(past.startMs, i, HOUR_MS, tempC, past.cloudShare?.[i]);
  });
  forecast.airTempC.forEach((tempC, i) => {
    put(forecast.startMs, i, stepMs, tempC, forecast.cloudShare?.[i]);
  });
  const from = Math.max(
    airTempC.findIndex((tempC) => !Number.isNaN(tempC)),
    0,
  );
  return {
    startMs: firstMs + from * HOUR_MS,
    stepS: HOUR_MS / 1000,
    airTempC: airTempC.subarray(from),
    cloudShare: cloudShare.subarray(from),
  };
}

/** How many whole hours after `now` the weather is known without a hole too long to bridge. */
function reachH(series: WeatherSeries, now: number): number {
  const { airTempC } = series;
  let last = Math.floor((now - series.startMs) / HOUR_MS);
  for (let i = last; i < airTempC.length; i++) {
    if (Number.isNaN(airTempC[i]!)) continue;
    if (i - last > BRIDGED_H + 1) break;
    last = i;
  }
  return Math.min(AHEAD_H, Math.floor((series.startMs + last * HOUR_MS - now) / HOUR_MS));
}

async function descriptionsOf(
  database: Database,
  stayId: string,
): Promise<{ place: PlaceDescription; box: BoxDescription } | undefined> {
  const row = await database.kysely
    .selectFrom('stays')
    .innerJoin('boxes', 'boxes.id', 'stays.boxId')
    .innerJoin('places', 'places.id', 'stays.placeId')
    .select(['boxes.description as box', 'places.description as place'])
    .where('stays.id', '=', stayId)
    .executeTakeFirst();
  return (
    row && {
      place: JSON.parse(String(row.place)) as PlaceDescription,
      box: JSON.parse(String(row.box)) as BoxDescription,
    }
  );
}

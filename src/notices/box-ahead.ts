import { usualBand } from '../heat/answer.ts';
import { buildBox } from '../heat/box.ts';
import type { BoxDescription, PlaceDescription } from '../heat/description.ts';
import { forecastPlace, SLEEPING_HEAT_W_PER_KG } from '../heat/forecast.ts';
import { prepareWinters } from '../heat/place-weather.ts';
import { breachOf, forecastFromState } from '../heat/state-forecast.ts';
import { dayInZone } from '../measure/zone.ts';
import type { BoxForecast } from '../records/box-forecasts.ts';
import type { Database } from '../records/database.ts';
import { weatherSeries } from '../records/weather.ts';
import type { Group } from '../schema/group.ts';
import type { Forecast } from '../schema/winters.ts';
import { gapReport, type WeatherSeries } from '../weather/series.ts';
import { say } from '../wording/say.ts';
import { readingsSince, type WatchedStay } from './watched.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;
const HOUR_S = 3600;
/** Weather before the readings, in which the walls and floor of the place forget what they were started with. */
const SPIN_UP_MS = 14 * DAY_MS;
const READINGS_MS = 2 * DAY_MS;
const AHEAD_H = 72;
/** Missing hours up to this many in a row are bridged; a longer hole ends the forecast. */
const BRIDGED_H = 3;
/** A forecast that reaches less far is left out. */
const SHORTEST_H = 6;
/** One reading in each span of this length is enough for a box whose fastest change takes longer. */
const READING_EVERY_MS = 10 * MINUTE_MS;

/** Hourly weather from two weeks ago to the end of the forecast; what nobody knows is NaN. Begins with the first known hour. */
export async function weatherAround(
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
    stepS: HOUR_S,
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

/**
 * The box of one stay from its last two days of readings on. Undefined where it cannot be worked out: no readings, no weather, a box in a
 * refrigerator, or a place whose air is known by readings alone. Ice in the bottles is left out: a frost then comes early, not late.
 */
export async function forecastBox(
  database: Database,
  group: Group,
  stay: WatchedStay,
  series: WeatherSeries,
  now: number,
): Promise<Omit<BoxForecast, 'watched'> | undefined> {
  const described = await descriptionsOf(database, stay.stayId);
  if (described?.place.kind !== 'building' || stay.probeId === undefined) return undefined;
  const aheadH = reachH(series, now);
  if (!(aheadH >= SHORTEST_H)) return undefined;
  const from = Math.max(0, Math.floor((now - READINGS_MS - series.startMs) / HOUR_MS));
  const startMs = series.startMs + from * HOUR_MS;
  const read = (await readingsSince(database, stay.probeId, startMs - 1, now)).filter((one) => one.atMs <= now);
  const readings = [...new Map(read.map((one) => [Math.floor(one.atMs / READING_EVERY_MS), one])).values()];
  if (readings.length === 0) return undefined;

  const site = { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone };
  const { missingShare } = gapReport(series);
  const fromDay = dayInZone(series.startMs, group.zone);
  const winter = { label: fromDay, origin: 'recorded' as const, fromDay, series, missingShare };
  const normals = group.climateNormals;
  const place = forecastPlace(described.place, prepareWinters(site, [winter], normals ? { normals } : undefined));
  const { airC, floorC } = place.winters[0]!;

  const massG = described.box.animal?.massG ?? stay.setup.startMassG;
  const box = buildBox(massG === undefined ? described.box : { ...described.box, animal: { massG } });
  const inputs: ArrayLike<number>[] = [];
  inputs[box.inputs.placeAir] = airC.subarray(from);
  inputs[box.inputs.floor] = floorC.subarray(from);
  inputs[box.inputs.heat] = [((massG ?? 0) / 1000) * SLEEPING_HEAT_W_PER_KG];
  const forecast = forecastFromState(
    {
      network: box.network,
      airInputs: [box.inputs.placeAir, box.inputs.floor],
      animalNode: box.nodes.animal,
      probeNodes: [box.nodes.probe],
    },
    {
      inputs,
      stepS: HOUR_S,
      nowS: (now - startMs) / 1000,
      aheadS: aheadH * HOUR_S,
      readings: readings.map(({ atMs, tempC }) => ({ probe: 0, atS: (atMs - startMs) / 1000, tempC })),
    },
  );
  const breach = breachOf(forecast, usualBand);
  const hundredths = (values: Float64Array) => Array.from(values, (value) => Math.round(value * 100) / 100);
  return {
    atMs: now,
    stepMs: HOUR_MS,
    tempsC: hundredths(forecast.meanC),
    lowC: hundredths(forecast.low90C),
    highC: hundredths(forecast.high90C),
    ...(breach
      ? { breach: { side: breach.side, likely: breach.likely, inHours: breach.inHours, what: say(breach.message) } }
      : {}),
  };
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

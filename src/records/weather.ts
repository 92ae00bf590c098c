import { addDays, type Day } from '../measure/day.ts';
import { dayInZone } from '../measure/zone.ts';
import type { Group } from '../schema/group.ts';
import type { Forecast, Winters } from '../schema/winters.ts';
import { CLIMATES } from '../weather/climates.ts';
import { generateWinters } from '../weather/generator.ts';
import type { WeatherSeries } from '../weather/series.ts';
import { cutWinters, type Winter, windowOfDays } from '../weather/winters.ts';
import { shortestDayNear } from '../winter/season.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { RecordProblem } from './problem.ts';

const HOUR_MS = 3_600_000;
const HOURLY_S = 3600;
/** A recorded winter with more hours missing than this does not stand for a winter. */
const MOST_MISSING = 0.1;
/** Fewer recorded winters than this say too little about the next; the normals then fill up. */
const ENOUGH_RECORDED = 4;
const ROWS_AT_ONCE = 5000;

export interface WeatherHour {
  readonly atMs: number;
  readonly tempC: number;
  readonly cloudShare?: number;
  readonly relativeHumidity?: number;
}

/** Keeps hours of weather outdoors; a later record of the same hour replaces the earlier, as services correct theirs. */
export async function keepWeather(
  database: Database,
  groupId: string,
  hours: readonly WeatherHour[],
  source: string,
): Promise<void> {
  await database.kysely.transaction().execute(async (transaction) => {
    for (let from = 0; from < hours.length; from += ROWS_AT_ONCE)
      await transaction
        .insertInto('weatherHours')
        .values(
          hours.slice(from, from + ROWS_AT_ONCE).map((hour) => ({
            groupId,
            atMs: hour.atMs,
            tempC: hour.tempC,
            cloud: hour.cloudShare ?? null,
            humidity: hour.relativeHumidity ?? null,
            source,
          })),
        )
        .onConflict((conflict) =>
          conflict.columns(['groupId', 'atMs']).doUpdateSet((e) => ({
            tempC: e.ref('excluded.tempC'),
            cloud: e.ref('excluded.cloud'),
            humidity: e.ref('excluded.humidity'),
            source: e.ref('excluded.source'),
          })),
        )
        .execute();
  });
}

/** The stored weather of a group in [fromMs, toMs) as one hourly series; hours that are not there are NaN. */
export async function weatherSeries(
  database: Database,
  groupId: string,
  fromMs = 0,
  toMs = Number.MAX_SAFE_INTEGER,
): Promise<WeatherSeries> {
  const rows = await database.kysely
    .selectFrom('weatherHours')
    .selectAll()
    .where('groupId', '=', groupId)
    .where('atMs', '>=', fromMs)
    .where('atMs', '<', toMs)
    .orderBy('atMs')
    .execute();
  const startMs = Math.floor((rows[0]?.atMs ?? 0) / HOUR_MS) * HOUR_MS;
  const length = rows.length === 0 ? 0 : Math.floor((rows.at(-1)!.atMs - startMs) / HOUR_MS) + 1;
  const airTempC = new Float64Array(length).fill(Number.NaN);
  const cloudShare = new Float64Array(length).fill(Number.NaN);
  for (const row of rows) {
    const index = Math.floor((row.atMs - startMs) / HOUR_MS);
    airTempC[index] = row.tempC;
    if (row.cloud !== null) cloudShare[index] = row.cloud;
  }
  const clouded = rows.some((row) => row.cloud !== null);
  return { startMs, stepS: HOURLY_S, airTempC, ...(clouded ? { cloudShare } : {}) };
}

/**
 * Winters to run a place and a box through, from `fromDay` for `days` days: the recorded ones when there are at least four, else as
 * many as asked made from the group's normals, always the same ones for the same group and dates.
 */
export async function wintersOf(
  database: Database,
  group: Group,
  asked: { readonly fromDay: Day; readonly days: number; readonly winters: number },
): Promise<Winters> {
  const window = windowOfDays(asked.fromDay, addDays(asked.fromDay, asked.days - 1));
  const series = await weatherSeries(database, group.id);
  const recorded = cutWinters(series, group.zone, window, MOST_MISSING);
  if (recorded.length >= ENOUGH_RECORDED)
    return { source: 'recorded', winters: recorded.slice(-asked.winters).map(winterOut) };
  if (!group.climateNormals) {
    const what = say('records.noWeather');
    throw new RecordProblem('invalid', what, [{ where: 'group.climateNormals', what }]);
  }
  const made = generateWinters({
    normals: group.climateNormals,
    departures: CLIMATES[0]!,
    site: { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone },
    fromDay: asked.fromDay,
    days: asked.days,
    winters: asked.winters,
    seed: seedOf(group.id),
  });
  return { source: 'normals', ...(group.climateNote ? { note: group.climateNote } : {}), winters: made.map(winterOut) };
}

/** A whole number from an identifier, so that a group always sees the same made winters. */
const seedOf = (id: string): number => Number.parseInt(id.replaceAll('-', '').slice(-8), 16);

const hundredths = (values: Float64Array): (number | null)[] =>
  Array.from(values, (value) => (Number.isNaN(value) ? null : Math.round(value * 100) / 100));

function winterOut(winter: Winter): Winters['winters'][number] {
  const { series } = winter;
  return {
    label: winter.label,
    origin: winter.origin,
    fromDay: winter.fromDay,
    startMs: series.startMs,
    stepS: series.stepS,
    airTempC: hundredths(series.airTempC),
    ...(series.cloudShare ? { cloudShare: hundredths(series.cloudShare) } : {}),
    missingShare: winter.missingShare,
  };
}

/** The newest forecast of the weather outdoors, or undefined. Forecasts are kept a week, to see how good they were. */
export async function newestForecast(database: Database, groupId: string): Promise<Forecast | undefined> {
  const row = await database.kysely
    .selectFrom('weatherForecasts')
    .selectAll()
    .where('groupId', '=', groupId)
    .orderBy('madeAtMs', 'desc')
    .executeTakeFirst();
  return row && (JSON.parse(row.body) as Forecast);
}

export async function keepForecast(database: Database, groupId: string, forecast: Forecast): Promise<void> {
  await database.kysely
    .insertInto('weatherForecasts')
    .values({ groupId, madeAtMs: forecast.madeAtMs, body: JSON.stringify(forecast) })
    .onConflict((conflict) => conflict.columns(['groupId', 'madeAtMs']).doNothing())
    .execute();
  await database.kysely
    .deleteFrom('weatherForecasts')
    .where('groupId', '=', groupId)
    .where('madeAtMs', '<', forecast.madeAtMs - 7 * 24 * HOUR_MS)
    .execute();
}

/** Where a winter's weather is cut by default: from 90 days before the shortest day nearest to now, for 210 days. */
export function defaultWinterFrom(atMs: number, group: Group): Day {
  return addDays(shortestDayNear(dayInZone(atMs, group.zone), group.latitudeDeg), -90);
}

import type { Forecast } from '../schema/winters.ts';
import type { WeatherSeries } from '../weather/series.ts';
import type { Database } from './database.ts';

const HOUR_MS = 3_600_000;
const HOURLY_S = 3600;
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

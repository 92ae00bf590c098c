import type { BoxCourse } from '../heat/box-outlook.ts';
import type { Database } from './database.ts';

const HOUR_MS = 3_600_000;
/** What was expected half a day ago is no forecast any more. */
const STALE_MS = 12 * HOUR_MS;

/** Temperatures expected in a box, one every `stepMs` from the instant they were worked out. */
export interface WatchedForecast {
  readonly atMs: number;
  /** Where the clock of the watch stood when it was told; left out: at `atMs`. */
  readonly countsFromMs?: number;
  readonly stepMs: number;
  readonly tempsC: readonly number[];
}

/** The newest forecast of the box of one stay. */
export interface BoxForecast extends WatchedForecast {
  readonly lowC: readonly number[];
  readonly highC: readonly number[];
  /** The readings it starts from. */
  readonly readings: {
    readonly fromMs: number;
    readonly toMs: number;
    readonly used: number;
    readonly setAside: number;
    /** Mean of the squared surprises: 1 is as expected, much more is a place or box described otherwise than it is. */
    readonly surprise: number;
  };
  /** Forecasts that the watch needs again when it replays the stay, oldest first; the newest is the last. */
  readonly watched: readonly WatchedForecast[];
}

const PREFIX = 'box-forecast:';

/** The newest forecast kept for a stay, however old. */
export async function boxForecastOf(
  database: Database,
  groupId: string,
  stayId: string,
): Promise<BoxForecast | undefined> {
  const row = await database.kysely
    .selectFrom('settings')
    .select('value')
    .where('groupId', '=', groupId)
    .where('name', '=', `${PREFIX}${stayId}`)
    .executeTakeFirst();
  return row && (JSON.parse(row.value) as BoxForecast);
}

/** The forecasts of a group's boxes that still hold at `nowMs`, by stay. */
export async function freshBoxForecasts(
  database: Database,
  groupId: string,
  nowMs: number,
): Promise<ReadonlyMap<string, BoxForecast>> {
  const rows = await database.kysely
    .selectFrom('settings')
    .select(['name', 'value'])
    .where('groupId', '=', groupId)
    .where('name', 'like', `${PREFIX}%`)
    .execute();
  const kept = rows.map(({ name, value }) => [name.slice(PREFIX.length), JSON.parse(value) as BoxForecast] as const);
  return new Map(kept.filter(([, forecast]) => isFresh(forecast, nowMs)));
}

export const isFresh = (forecast: BoxForecast, nowMs: number): boolean => nowMs - forecast.atMs <= STALE_MS;

export const courseOf = ({ atMs, stepMs, tempsC, lowC, highC }: BoxForecast): BoxCourse => ({
  startMs: atMs,
  stepMs,
  tempsC,
  lowC,
  highC,
});

export async function keepBoxForecast(
  database: Database,
  groupId: string,
  stayId: string,
  forecast: BoxForecast,
): Promise<void> {
  const value = JSON.stringify(forecast);
  await database.kysely
    .insertInto('settings')
    .values({ groupId, name: `${PREFIX}${stayId}`, value })
    .onConflict((conflict) => conflict.columns(['groupId', 'name']).doUpdateSet({ value }))
    .execute();
}

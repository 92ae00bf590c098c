import type { Database } from './database.ts';

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
  readonly breach?: {
    readonly side: 'cold' | 'warm';
    readonly likely: boolean;
    readonly inHours: number;
    readonly what: string;
  };
  /** Forecasts that the watch needs again when it replays the stay, oldest first; the newest is the last. */
  readonly watched: readonly WatchedForecast[];
}

const nameOf = (stayId: string) => `box-forecast:${stayId}`;

export async function boxForecastOf(
  database: Database,
  groupId: string,
  stayId: string,
): Promise<BoxForecast | undefined> {
  const row = await database.kysely
    .selectFrom('settings')
    .select('value')
    .where('groupId', '=', groupId)
    .where('name', '=', nameOf(stayId))
    .executeTakeFirst();
  return row && (JSON.parse(row.value) as BoxForecast);
}

export async function keepBoxForecast(
  database: Database,
  groupId: string,
  stayId: string,
  forecast: BoxForecast,
): Promise<void> {
  const value = JSON.stringify(forecast);
  await database.kysely
    .insertInto('settings')
    .values({ groupId, name: nameOf(stayId), value })
    .onConflict((conflict) => conflict.columns(['groupId', 'name']).doUpdateSet({ value }))
    .execute();
}

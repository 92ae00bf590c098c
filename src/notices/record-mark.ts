import { sql } from 'kysely';
import type { Database } from '../records/database.ts';
import type { WatchedStay } from './watched.ts';

const HOUR_MS = 3_600_000;

/**
 * A mark that moves when another process has recorded something a stay's watch rests on. On SQLite that is any commit through another
 * connection than ours; PostgreSQL keeps no such figure, so there the rows are counted: none of these tables ever loses one.
 */
export async function recordMark(database: Database, stay: WatchedStay): Promise<string> {
  const { kysely, sqlite } = database;
  if (sqlite) return kysely.connection().execute(async () => String(sqlite.pragma('data_version', { simple: true })));
  const fromMs = stay.setup.fromMs;
  const probe = sql`(select number from probe_numbers where probe_id = ${stay.probeId ?? null})`;
  // The sums of the hours stand for the readings themselves: they change in the same transaction, and a winter has some thousands.
  const { rows } = await sql<Record<string, number | null>>`select
    (select sum(count) from reading_hours where probe = ${probe} and hour >= ${Math.floor(fromMs / HOUR_MS)}) as readings,
    (select count(*) from reading_corrections where probe = ${probe} and at_ms >= ${fromMs}) as corrections,
    (select count(*) from max_min_readings where probe = ${probe} and to_at_ms >= ${fromMs}) as spans,
    (select count(*) from battery_levels where probe = ${probe} and at_ms >= ${fromMs}) as batteries,
    (select count(*) from changes where group_id = ${stay.groupId} and at_ms >= ${fromMs}) as entries`.execute(kysely);
  return JSON.stringify(rows[0]);
}

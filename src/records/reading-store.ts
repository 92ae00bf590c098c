import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { type Kysely, sql } from 'kysely';
import type { Pool, PoolClient } from 'pg';
import type { Database } from './database.ts';
import type { ReadingRow, Tables } from './tables.ts';

const HOUR_MS = 3_600_000;
/** From here on one COPY beats one INSERT (measured on PostgreSQL 15). */
const COPY_FROM_ROWS = 2000;

/** Readings quality as it lies in the table. */
export const QUALITY_CODES = ['good', 'suspect', 'excluded'] as const;
export const SOURCE_CODES = ['typed', 'csv', 'http', 'mqtt', 'wire', 'service', 'demonstration'] as const;
const EXCLUDED = QUALITY_CODES.indexOf('excluded');

/**
 * Stores rows, skipping those whose probe and instant are taken, in one durable transaction. Returns how many were new.
 * The sums of the hours touched are brought up to date in the same transaction.
 */
export async function storeReadings(database: Database, rows: readonly ReadingRow[]): Promise<number> {
  if (rows.length === 0) return 0;
  if (database.sqlite) return storeInSqlite(database, rows);
  await makePartitions(
    database.kysely,
    rows.map((row) => row.atMs),
  );
  if (database.pool && rows.length >= COPY_FROM_ROWS) return copyIntoPostgres(database.pool, rows);
  return insertIntoPostgres(database.kysely, rows);
}

async function storeInSqlite(database: Database, rows: readonly ReadingRow[]): Promise<number> {
  // Inside connection(), so that no other transaction of this process is open on the same connection.
  return database.kysely.connection().execute(async () => {
    const sqlite = database.sqlite!;
    const statements = prepared(sqlite);
    const run = sqlite.transaction(() => {
      let stored = 0;
      const hours = new Map<number, Map<number, HourSum>>();
      for (const row of rows) {
        const result = statements.insert.run(row.probe, row.atMs, row.tempC, row.humidity, row.quality, row.source);
        if (result.changes === 0) continue;
        stored += 1;
        if (row.quality !== EXCLUDED) addTo(hours, row);
      }
      for (const ofProbe of hours.values()) for (const sum of ofProbe.values()) statements.sum.run(sum);
      return stored;
    });
    return run.immediate();
  });
}

/** What new readings add to one hour of one probe. A new reading has no correction yet, so adding is all there is to do. */
interface HourSum {
  readonly probe: number;
  readonly hour: number;
  count: number;
  minC: number;
  sumC: number;
  maxC: number;
  humiditySum: number;
  humidityCount: number;
}

function addTo(hours: Map<number, Map<number, HourSum>>, { probe, atMs, tempC, humidity }: ReadingRow): void {
  const hour = Math.floor(atMs / HOUR_MS);
  let ofProbe = hours.get(probe);
  if (!ofProbe) {
    ofProbe = new Map();
    hours.set(probe, ofProbe);
  }
  let sum = ofProbe.get(hour);
  if (!sum) {
    sum = { probe, hour, count: 0, minC: tempC, sumC: 0, maxC: tempC, humiditySum: 0, humidityCount: 0 };
    ofProbe.set(hour, sum);
  }
  sum.count += 1;
  sum.sumC += tempC;
  if (tempC < sum.minC) sum.minC = tempC;
  if (tempC > sum.maxC) sum.maxC = tempC;
  if (humidity === null) return;
  sum.humiditySum += humidity;
  sum.humidityCount += 1;
}

type Sqlite = NonNullable<Database['sqlite']>;
const prepare = (sqlite: Sqlite) => ({
  insert: sqlite.prepare(
    'insert into readings (probe, at_ms, temp_c, humidity, quality, source) values (?, ?, ?, ?, ?, ?) on conflict do nothing',
  ),
  sum: sqlite.prepare(ADD_TO_HOUR),
});
const statementsOf = new WeakMap<Sqlite, ReturnType<typeof prepare>>();

/** Kysely prepares each statement anew; in the hot path that would cost more than the insert. */
function prepared(sqlite: Sqlite): ReturnType<typeof prepare> {
  let found = statementsOf.get(sqlite);
  if (!found) {
    found = prepare(sqlite);
    statementsOf.set(sqlite, found);
  }
  return found;
}

/** What counts at each instant: the reading, or its highest correction; excluded ones count nowhere. */
const effective = (range: string) => `
  select r.probe, r.at_ms, coalesce(c.temp_c, r.temp_c) as temp_c,
    case when c.probe is null then r.humidity else c.humidity end as humidity, coalesce(c.quality, r.quality) as quality
  from readings r left join reading_corrections c on c.probe = r.probe and c.at_ms = r.at_ms and c.part =
    (select max(part) from reading_corrections n where n.probe = r.probe and n.at_ms = r.at_ms)
  where ${range}`;

const ADDED = (least: string, greatest: string) => `
  on conflict (probe, hour) do update set count = reading_hours.count + excluded.count,
    min_c = ${least}(reading_hours.min_c, excluded.min_c), sum_c = reading_hours.sum_c + excluded.sum_c,
    max_c = ${greatest}(reading_hours.max_c, excluded.max_c), humidity_sum = reading_hours.humidity_sum + excluded.humidity_sum,
    humidity_count = reading_hours.humidity_count + excluded.humidity_count`;

const ADD_TO_HOUR = `insert into reading_hours (probe, hour, count, min_c, sum_c, max_c, humidity_sum, humidity_count)
  values (@probe, @hour, @count, @minC, @sumC, @maxC, @humiditySum, @humidityCount) ${ADDED('min', 'max')}`;

/** Sums the hours from..to (inclusive, counted from 1970) of one probe anew from the readings that count. */
export async function sumHours(kysely: Kysely<Tables>, probe: number, fromHour: number, toHour: number): Promise<void> {
  await sql`delete from reading_hours where probe = ${probe} and hour >= ${fromHour} and hour <= ${toHour}`.execute(
    kysely,
  );
  const range = `r.probe = ${Number(probe)} and r.at_ms >= ${fromHour * HOUR_MS} and r.at_ms < ${(toHour + 1) * HOUR_MS}`;
  await sql
    .raw(
      `insert into reading_hours (probe, hour, count, min_c, sum_c, max_c, humidity_sum, humidity_count)
      select probe, at_ms / ${HOUR_MS}, count(*), min(temp_c), sum(temp_c), max(temp_c), coalesce(sum(humidity), 0.0), count(humidity)
      from (${effective(range)}) as counted where quality <> ${EXCLUDED} group by probe, at_ms / ${HOUR_MS}`,
    )
    .execute(kysely);
}

/**
 * Sums anew every hour that holds a corrected reading: for readings and corrections that came in one after the other, from another
 * database or an export.
 */
export async function sumCorrectedHours(kysely: Kysely<Tables>): Promise<void> {
  const { rows } = await sql<{ probe: number; hour: number }>`
    select distinct probe, at_ms / ${sql.lit(HOUR_MS)} as hour from reading_corrections`.execute(kysely);
  for (const { probe, hour } of rows) await sumHours(kysely, probe, hour, hour);
}

/** A month's partition is made when its first reading comes; two servers take turns. Bounds are epoch ms of UTC months. */
export async function makePartitions(kysely: Kysely<Tables>, instants: Iterable<number>): Promise<void> {
  const months = monthsOf(instants);
  const names = [...months].map((month) => `readings_${month.replace('-', '_')}`);
  const there = await sql<{ relname: string }>`select relname from pg_class where relname = any(${names})`.execute(
    kysely,
  );
  const existing = new Set(there.rows.map((row) => row.relname));
  for (const month of months) {
    const name = `readings_${month.replace('-', '_')}`;
    if (existing.has(name)) continue;
    const from = Date.parse(`${month}-01T00:00:00Z`);
    const end = new Date(from);
    const to = end.setUTCMonth(end.getUTCMonth() + 1);
    await kysely.transaction().execute(async (transaction) => {
      await sql`select pg_advisory_xact_lock(7325120)`.execute(transaction);
      await sql
        .raw(`create table if not exists ${name} partition of readings for values from (${from}) to (${to})`)
        .execute(transaction);
    });
  }
}

/** The UTC months that instants lie in, as `2026-10`. */
function monthsOf(instants: Iterable<number>): Set<string> {
  const months = new Set<string>();
  let [from, to] = [0, 0];
  for (const atMs of instants) {
    if (atMs >= from && atMs < to) continue;
    const month = new Date(atMs).toISOString().slice(0, 7);
    months.add(month);
    from = Date.parse(`${month}-01T00:00:00Z`);
    to = new Date(from).setUTCMonth(new Date(from).getUTCMonth() + 1);
  }
  return months;
}

const SUM_STAGED = `
  insert into reading_hours (probe, hour, count, min_c, sum_c, max_c, humidity_sum, humidity_count)
  select r.probe, r.at_ms / ${HOUR_MS}, count(*), min(r.temp_c), sum(r.temp_c), max(r.temp_c), coalesce(sum(r.humidity), 0.0), count(r.humidity)
  from (${effective('true')} and (r.probe, r.at_ms / ${HOUR_MS}) in (select * from touched)) r
  where r.quality <> ${EXCLUDED} group by r.probe, r.at_ms / ${HOUR_MS}
  on conflict (probe, hour) do update set count = excluded.count, min_c = excluded.min_c, sum_c = excluded.sum_c,
    max_c = excluded.max_c, humidity_sum = excluded.humidity_sum, humidity_count = excluded.humidity_count`;

async function insertIntoPostgres(kysely: Kysely<Tables>, rows: readonly ReadingRow[]): Promise<number> {
  // One statement is one transaction; the order keeps two writers from waiting for each other.
  const { rows: counted } = await sql<{ stored: string }>`
    with stored as (
      insert into readings (probe, at_ms, temp_c, humidity, quality, source)
      select * from unnest(${rows.map((row) => row.probe)}::integer[], ${rows.map((row) => row.atMs)}::bigint[],
        ${rows.map((row) => row.tempC)}::double precision[], ${rows.map((row) => row.humidity)}::double precision[],
        ${rows.map((row) => row.quality)}::smallint[], ${rows.map((row) => row.source)}::smallint[]) as given (probe, at_ms)
      order by probe, at_ms
      on conflict (probe, at_ms) do nothing returning probe, at_ms / ${sql.lit(HOUR_MS)} as hour, temp_c, humidity, quality
    ), summed as (
      insert into reading_hours (probe, hour, count, min_c, sum_c, max_c, humidity_sum, humidity_count)
      select probe, hour, count(*), min(temp_c), sum(temp_c), max(temp_c), coalesce(sum(humidity), 0.0), count(humidity)
      from stored where quality <> ${sql.lit(EXCLUDED)} group by probe, hour order by probe, hour
      ${sql.raw(ADDED('least', 'greatest'))}
    )
    select count(*) as stored from stored`.execute(kysely);
  return Number(counted[0]?.stored ?? 0);
}

async function copyIntoPostgres(pool: Pool, rows: readonly ReadingRow[]): Promise<number> {
  const client = await pool.connect();
  let failed: Error | undefined;
  try {
    await client.query('begin');
    const stored = await copyIn(client, rows);
    await client.query('commit');
    return stored;
  } catch (error) {
    failed = error as Error;
    await client.query('rollback').catch(() => {});
    throw error;
  } finally {
    client.release(failed);
  }
}

/** Copies rows in through a staging table, inside the transaction that the client is in. Returns how many were new. */
export async function copyIn(client: PoolClient, rows: Iterable<ReadingRow>): Promise<number> {
  // PostgreSQL's own way in, which no server on SQLite needs.
  const { from: copyFrom } = await import('pg-copy-streams');
  await client.query(
    'create temporary table staged (probe integer, at_ms bigint, temp_c double precision, humidity double precision, quality smallint, source smallint) on commit drop',
  );
  await pipeline(Readable.from(copyLines(rows)), client.query(copyFrom('copy staged from stdin')));
  await client.query(
    `create temporary table touched on commit drop as select distinct probe, at_ms / ${HOUR_MS} as hour from staged`,
  );
  const stored = await client.query(
    'insert into readings select * from staged order by probe, at_ms on conflict (probe, at_ms) do nothing',
  );
  await client.query(SUM_STAGED);
  return stored.rowCount ?? 0;
}

/** Tab-separated lines in pieces of about 64 KB, as COPY reads them. */
function* copyLines(rows: Iterable<ReadingRow>): Generator<string> {
  let piece = '';
  for (const row of rows) {
    piece += `${row.probe}\t${row.atMs}\t${row.tempC}\t${row.humidity ?? '\\N'}\t${row.quality}\t${row.source}\n`;
    if (piece.length > 65_536) {
      yield piece;
      piece = '';
    }
  }
  if (piece !== '') yield piece;
}

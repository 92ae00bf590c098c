import { setImmediate as nextTurn } from 'node:timers/promises';
import { PostgresDialect, type PostgresPool, sql, type Transaction } from 'kysely';
import type { Pool, PoolClient } from 'pg';
import { type Database, kyselyOn } from './database.ts';
import { copyIn, makePartitions, sumHours } from './reading-store.ts';
import type { ReadingRow, Tables } from './tables.ts';

const HOUR_MS = 3_600_000;
/** Rows written before other work of this process gets its turn. */
const ROWS_AT_ONCE = 20_000;
const ROWS_IN_STATEMENT = 50;
const HOURS_AT_ONCE = 4000;
/** Runs of new hours closer together than this are summed as one. */
const GAP_HOURS = 48;

/** Readings of one probe as columns, instants rising, none twice. */
interface ReadingColumns {
  /** The probe's small number. */
  readonly probe: number;
  readonly atMs: Float64Array;
  readonly tempC: Float64Array;
  /** Relative humidity 0 to 1; NaN where there is none. */
  readonly humidity: Float32Array;
  /** Code of the quality of each reading. */
  readonly quality: Uint8Array;
  readonly source: number;
}

/** What one durable transaction offers to whoever stores many readings in it. */
export interface BulkTransaction {
  readonly kysely: Transaction<Tables>;
  /** Stores readings whose probe and instant are free; returns how many were new. Sums of the hours touched follow. */
  store(columns: ReadingColumns, stored?: (count: number) => void): Promise<number>;
}

/**
 * Runs `work` in one durable transaction in which a million readings go straight from plain arrays to the disk. All or nothing.
 * `instants` are those of every reading that will be stored (PostgreSQL makes the tables of their months beforehand).
 */
export async function inBulk<T>(
  database: Database,
  instants: readonly Float64Array[],
  work: (bulk: BulkTransaction) => Promise<T>,
): Promise<T> {
  if (database.kind === 'postgres') for (const some of instants) await makePartitions(database.kysely, some);
  if (database.pool) return withClient(database.pool, work);
  return database.kysely.transaction().execute((transaction) =>
    work({
      kysely: transaction,
      store: (columns, stored) =>
        database.sqlite
          ? storeInSqlite(database.sqlite, transaction, columns, stored)
          : storeByInsert(transaction, columns, stored),
    }),
  );
}

const humidityOf = (share: number) => (Number.isNaN(share) ? null : Math.round(share * 1e4) / 1e4);
type Sqlite = NonNullable<Database['sqlite']>;

async function storeInSqlite(
  sqlite: Sqlite,
  transaction: Transaction<Tables>,
  columns: ReadingColumns,
  told?: (count: number) => void,
): Promise<number> {
  const { probe, atMs, tempC, humidity, quality, source } = columns;
  const inserting = (count: number) =>
    sqlite.prepare(
      `insert into readings (probe, at_ms, temp_c, humidity, quality, source) values ${new Array(count)
        .fill(`(${probe}, ?, ?, ?, ?, ${source})`)
        .join(', ')} on conflict do nothing`,
    );
  const many = inserting(ROWS_IN_STATEMENT);
  const one = inserting(1);
  const values: (number | null)[] = [];
  const runs: { from: number; to: number }[] = [];
  let stored = 0;
  let count = 1;
  for (let from = 0; from < atMs.length; from += count) {
    count = atMs.length - from >= ROWS_IN_STATEMENT ? ROWS_IN_STATEMENT : 1;
    for (let row = 0, at = from; row < count; row += 1, at += 1) {
      const wet = humidity[at]!;
      values[row * 4] = atMs[at]!;
      values[row * 4 + 1] = tempC[at]!;
      values[row * 4 + 2] = humidityOf(wet);
      values[row * 4 + 3] = quality[at]!;
    }
    values.length = count * 4;
    const { changes } = (count === 1 ? one : many).run(values);
    if (changes > 0) {
      stored += changes;
      const [first, final] = [Math.floor(atMs[from]! / HOUR_MS), Math.floor(atMs[from + count - 1]! / HOUR_MS)];
      const last = runs.at(-1);
      if (last && first - last.to <= GAP_HOURS) last.to = final;
      else runs.push({ from: first, to: final });
    }
    if (from % ROWS_AT_ONCE < count) {
      told?.(from);
      await nextTurn();
    }
  }
  await sumRuns(transaction, probe, runs);
  told?.(atMs.length);
  return stored;
}

async function storeByInsert(
  transaction: Transaction<Tables>,
  columns: ReadingColumns,
  told?: (count: number) => void,
): Promise<number> {
  const { probe, atMs, tempC, humidity, quality, source } = columns;
  const runs: { from: number; to: number }[] = [];
  let stored = 0;
  for (let from = 0; from < atMs.length; from += ROWS_AT_ONCE) {
    const part = <A extends Float64Array | Float32Array | Uint8Array>(array: A) =>
      Array.from(array.subarray(from, from + ROWS_AT_ONCE));
    const wet = part(humidity).map(humidityOf);
    const made = await sql<{ hour: number }>`
      insert into readings (probe, at_ms, temp_c, humidity, quality, source)
      select ${probe}::integer, *, ${source}::smallint from unnest(${part(atMs)}::bigint[],
        ${part(tempC)}::double precision[], ${wet}::double precision[], ${part(quality)}::smallint[])
      on conflict (probe, at_ms) do nothing returning at_ms / ${sql.lit(HOUR_MS)} as hour`.execute(transaction);
    stored += made.rows.length;
    for (const { hour } of made.rows) {
      const last = runs.at(-1);
      if (last && hour >= last.from && hour - last.to <= GAP_HOURS) last.to = Math.max(last.to, hour);
      else runs.push({ from: hour, to: hour });
    }
    told?.(Math.min(atMs.length, from + ROWS_AT_ONCE));
  }
  await sumRuns(transaction, probe, runs);
  return stored;
}

async function sumRuns(
  transaction: Transaction<Tables>,
  probe: number,
  runs: readonly { from: number; to: number }[],
): Promise<void> {
  for (const { from, to } of runs)
    for (let hour = from; hour <= to; hour += HOURS_AT_ONCE) {
      await sumHours(transaction, probe, hour, Math.min(to, hour + HOURS_AT_ONCE - 1));
      await nextTurn();
    }
}

async function withClient<T>(pool: Pool, work: (bulk: BulkTransaction) => Promise<T>): Promise<T> {
  const client = await pool.connect();
  // The statements of the same transaction, through the same connection: COPY needs the connection itself.
  const query = client.query.bind(client) as never;
  const connect = async () => ({ query, release: () => {} });
  const kysely = kyselyOn(
    new PostgresDialect({ pool: { connect, end: async () => {}, options: {} } as unknown as PostgresPool }),
  ) as Transaction<Tables>;
  let failed: Error | undefined;
  try {
    await client.query('begin');
    const result = await work({ kysely, store: (columns, told) => copyColumns(client, columns, told) });
    await client.query('commit');
    return result;
  } catch (error) {
    failed = error as Error;
    await client.query('rollback').catch(() => {});
    throw error;
  } finally {
    client.release(failed);
  }
}

async function copyColumns(client: PoolClient, columns: ReadingColumns, told?: (count: number) => void) {
  const stored = await copyIn(client, rowsOf(columns, told));
  await client.query('drop table staged, touched');
  return stored;
}

/** One row object, filled anew for each reading. */
function* rowsOf(columns: ReadingColumns, told?: (count: number) => void): Generator<ReadingRow> {
  const { probe, atMs, tempC, humidity, quality, source } = columns;
  const row: ReadingRow = { probe, atMs: 0, tempC: 0, humidity: null, quality: 0, source };
  for (let at = 0; at < atMs.length; at += 1) {
    row.atMs = atMs[at]!;
    row.tempC = tempC[at]!;
    row.humidity = humidityOf(humidity[at]!);
    row.quality = quality[at]!;
    yield row;
    if (at % ROWS_AT_ONCE === ROWS_AT_ONCE - 1) told?.(at + 1);
  }
  told?.(atMs.length);
}

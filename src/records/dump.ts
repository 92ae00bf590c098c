import { createHash } from 'node:crypto';
import { sql } from 'kysely';
import type { Database } from './database.ts';
import { storeReadings } from './reading-store.ts';
import type { ReadingRow, Tables } from './tables.ts';

type TableName = keyof Tables;
export type Row = Record<string, string | number | null>;

interface DumpedTable {
  readonly name: TableName;
  readonly key: readonly string[];
  /** Secrets and devices: moved with a whole database, never put into an export. */
  readonly secret?: true;
}

/** Every table, each after those it refers to. Only the hourly sums are left out: they are made anew from the readings. */
export const DUMPED: readonly DumpedTable[] = [
  { name: 'groups', key: ['id'] },
  { name: 'people', key: ['id'], secret: true },
  { name: 'animals', key: ['id'] },
  { name: 'measurements', key: ['id'] },
  { name: 'examinations', key: ['id'] },
  { name: 'healthEvents', key: ['id'] },
  { name: 'diaryEntries', key: ['id'] },
  { name: 'photographs', key: ['id'] },
  { name: 'photographBytes', key: ['photographId'] },
  { name: 'places', key: ['id'] },
  { name: 'boxes', key: ['id'] },
  { name: 'stays', key: ['id'] },
  { name: 'probes', key: ['id'] },
  { name: 'tasksDone', key: ['id'] },
  { name: 'gutWarmths', key: ['id'] },
  { name: 'plans', key: ['id'] },
  { name: 'notices', key: ['id'] },
  { name: 'changes', key: ['id'] },
  { name: 'editConflicts', key: ['id'] },
  { name: 'probeNumbers', key: ['number'], secret: true },
  { name: 'readings', key: ['probe', 'atMs'] },
  { name: 'readingCorrections', key: ['probe', 'atMs', 'part'] },
  { name: 'maxMinReadings', key: ['probe', 'toAtMs', 'part'] },
  { name: 'batteryLevels', key: ['probe', 'atMs'] },
  { name: 'weatherHours', key: ['groupId', 'atMs'] },
  { name: 'weatherForecasts', key: ['groupId', 'madeAtMs'] },
  { name: 'settings', key: ['groupId', 'name'], secret: true },
  { name: 'sessions', key: ['tokenHash'], secret: true },
  { name: 'invitations', key: ['id'], secret: true },
  { name: 'shareLinks', key: ['id'], secret: true },
  { name: 'calendarLinks', key: ['id'], secret: true },
  { name: 'channels', key: ['id'], secret: true },
  { name: 'listenings', key: ['personId'], secret: true },
  { name: 'deliveries', key: ['id'], secret: true },
  { name: 'quarantine', key: ['id'], secret: true },
];

const PAGE = 5000;

/** Rows of a table in the order of its key, page by page: nothing is held open between pages, so writes go on. */
export async function* pagesOf(database: Database, table: DumpedTable): AsyncGenerator<Row[]> {
  let after: (string | number | null)[] | undefined;
  for (;;) {
    let query = database.kysely.selectFrom(table.name).selectAll();
    if (after) {
      const last = after;
      const columns = sql.join(table.key.map((column) => sql.ref(column)));
      query = query.where(sql<boolean>`(${columns}) > (${sql.join(last)})`);
    }
    for (const column of table.key) query = query.orderBy(sql.ref(column));
    const rows = (await query.limit(PAGE).execute()) as Row[];
    if (rows.length > 0) yield rows;
    if (rows.length < PAGE) return;
    after = table.key.map((column) => rows.at(-1)![column]!);
  }
}

/** One text for one row, whichever database it came from: columns by name, bytes as base64. */
function rowText(row: Row): string {
  const columns = Object.keys(row).sort();
  return JSON.stringify(columns.map((column) => [column, portable(row[column] as unknown)]));
}

export const portable = (value: unknown): unknown =>
  value instanceof Uint8Array ? Buffer.from(value).toString('base64') : value;

export interface TableSum {
  readonly rows: number;
  readonly sha256: string;
}

/** Count and checksum of every table: equal exactly when two databases hold the same. */
export async function sumsOf(database: Database): Promise<Map<string, TableSum>> {
  const sums = new Map<string, TableSum>();
  for (const table of DUMPED) {
    const hash = createHash('sha256');
    let rows = 0;
    // Text is ordered differently by different databases, so the sum must not depend on the order: rows are hashed and added.
    const total = new Uint32Array(8);
    for await (const page of pagesOf(database, table))
      for (const row of page) {
        rows += 1;
        const digest = createHash('sha256').update(rowText(row)).digest();
        for (let i = 0; i < 8; i++) total[i] = total[i]! + digest.readUInt32LE(i * 4);
      }
    sums.set(table.name, { rows, sha256: hash.update(Buffer.from(total.buffer)).digest('hex') });
  }
  return sums;
}

/** Puts rows into a table as they are, skipping those whose key is taken. Returns how many were new. */
export async function putRows(database: Database, name: TableName, rows: readonly Row[]): Promise<number> {
  if (rows.length === 0) return 0;
  if (name === 'readings') return storeReadings(database, rows as unknown as ReadingRow[]);
  let put = 0;
  // SQLite takes 32,766 values in one statement.
  const step = Math.max(1, Math.floor(20_000 / Object.keys(rows[0]!).length));
  for (let from = 0; from < rows.length; from += step) {
    const result = await database.kysely
      .insertInto(name)
      .values(rows.slice(from, from + step) as never)
      .onConflict((conflict) => conflict.doNothing())
      .executeTakeFirst();
    put += Number(result.numInsertedOrUpdatedRows ?? 0);
  }
  return put;
}

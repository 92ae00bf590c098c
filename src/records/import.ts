import { problemsOf } from '../schema/problems.ts';
import { type Reading, readingSchema } from '../schema/reading.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import type { Row } from './dump.ts';
import { thingOf } from './entry-row.ts';
import { BY_PROBE, EXPORTED, type ExportedTable, notAnExport } from './export.ts';
import { openArchive, parsed } from './export-archive.ts';
import { ENTRY_KINDS } from './kinds.ts';
import { RecordProblem } from './problem.ts';
import { sumCorrectedHours } from './reading-store.ts';
import { appendReadings, numberProbes } from './readings.ts';
import type { EntryRow } from './tables.ts';

const AT_ONCE = 500;

export interface ImportCount {
  readonly part: string;
  readonly rows: number;
  /** Rows that were not there yet. */
  readonly taken: number;
  /** Records that are here already and say something else: they stay as they are here. */
  readonly differing: number;
}

const READINGS = /^readings\/([0-9a-f-]{36})\.csv$/;

/**
 * Takes an export in. Everything is checked before the first row is kept; the records then go in as one piece, and the readings after
 * them, each once. Taking the same export in again changes nothing. With `intoGroupId` the records join that group, so that one
 * animal's history can be handed on; records that are there already stay as they are, and those that differ are counted.
 */
export async function importExport(
  database: Database,
  archive: Uint8Array,
  options: { readonly intoGroupId?: string; readonly nowMs: number },
): Promise<ImportCount[]> {
  const { format, part } = openArchive(archive);
  if (format.animalId !== undefined && options.intoGroupId === undefined)
    throw new RecordProblem('invalid', say('records.exportNeedsGroup'));
  const tables = new Map<ExportedTable, Row[]>();
  for (const table of EXPORTED)
    if (format.parts.some((one) => one.name === `json/${table}.json`))
      tables.set(table, rowsOf(table, part(`json/${table}.json`)));
  for (const { name } of format.parts) if (READINGS.test(name)) part(name);
  const groupId = options.intoGroupId ?? format.groupId;
  const counts = await takeRecords(database, tables, groupId, groupId !== format.groupId);
  for (const { name, rows } of format.parts) {
    const probeId = READINGS.exec(name)?.[1];
    if (probeId === undefined) continue;
    const taken = await takeReadings(database, groupId, probeId, part(name), options.nowMs);
    counts.push({ part: name, rows, taken, differing: 0 });
  }
  await sumCorrectedHours(database.kysely);
  return counts;
}

/** Rows of one table, each checked: entered records against their schema, the others for being plain rows. */
function rowsOf(table: ExportedTable, text: string): Row[] {
  const rows = parsed(table, text);
  if (!Array.isArray(rows)) throw notAnExport(table);
  const kind = ENTRY_KINDS.find((one) => one.table === table);
  for (const [index, row] of (rows as (Row | null)[]).entries()) {
    if (row === null || typeof row !== 'object') throw notAnExport(`${table}[${index}]`);
    const plain = Object.entries(row).every(
      ([column, value]) =>
        /^[a-zA-Z]{1,40}$/.test(column) && (value === null || ['string', 'number'].includes(typeof value)),
    );
    if (!plain) throw notAnExport(`${table}[${index}]`);
    const checked = kind?.schema.safeParse(thingOf(kind, row as EntryRow));
    if (checked && !checked.success) {
      const problems = problemsOf(checked.error).map((one) => ({ ...one, where: `${table}[${index}].${one.where}` }));
      throw new RecordProblem('invalid', problems[0]!.what, problems);
    }
  }
  return rows as Row[];
}

async function takeRecords(
  database: Database,
  tables: ReadonlyMap<ExportedTable, Row[]>,
  groupId: string,
  handedOn: boolean,
): Promise<ImportCount[]> {
  const counts: ImportCount[] = [];
  await database.kysely.transaction().execute(async (transaction) => {
    for (const table of EXPORTED) {
      const rows = tables.get(table) ?? [];
      // A group that hands an animal on does not come along itself.
      if (rows.length === 0 || (handedOn && table === 'groups')) continue;
      if (BY_PROBE.has(table)) await numberProbes(transaction, groupId);
      let taken = 0;
      let differing = 0;
      const numbers = new Map(
        (
          await transaction
            .selectFrom('probeNumbers')
            .select(['probeId', 'number'])
            .where('groupId', '=', groupId)
            .execute()
        ).map((row) => [row.probeId, row.number]),
      );
      for (let from = 0; from < rows.length; from += AT_ONCE) {
        differing += await differingFrom(transaction, table, rows.slice(from, from + AT_ONCE));
        const values = rows.slice(from, from + AT_ONCE).map((row) => ({
          ...row,
          ...('groupId' in row ? { groupId } : {}),
          ...(handedOn && table === 'animals' ? { keeperId: null } : {}),
          ...('probe' in row ? { probe: numbers.get(String(row.probe)) ?? null } : {}),
          ...(table === 'photographBytes' ? { image: Buffer.from(String(row.image), 'base64') } : {}),
        }));
        const result = await transaction
          .insertInto(table)
          .values(values as never)
          .onConflict((conflict) => conflict.doNothing())
          .executeTakeFirst();
        taken += Number(result.numInsertedOrUpdatedRows ?? 0);
      }
      counts.push({ part: table, rows: rows.length, taken, differing });
    }
  });
  return counts;
}

/** How many of these entered records stand here with other words than they come with. Whose animal it is differs by nature. */
async function differingFrom(transaction: Database['kysely'], table: ExportedTable, rows: readonly Row[]) {
  const kind = ENTRY_KINDS.find((one) => one.table === table);
  if (!kind) return 0;
  const ids = rows.map((row) => String(row.id));
  const here = (await transaction
    .selectFrom(kind.table)
    .selectAll()
    .where('id', 'in', ids)
    .execute()) as unknown as EntryRow[];
  const words = (row: EntryRow) =>
    JSON.stringify({ ...thingOf(kind, row), revision: 0, keeperId: '', deleted: row.deletedAtMs !== null });
  const coming = new Map(rows.map((row) => [String(row.id), words(row as EntryRow)]));
  return here.filter((row) => words(row) !== coming.get(row.id)).length;
}

async function takeReadings(
  database: Database,
  groupId: string,
  probeId: string,
  text: string,
  nowMs: number,
): Promise<number> {
  const scope = { groupId, personId: null, nowMs };
  const lines = text.split('\r\n').slice(1, -1);
  let taken = 0;
  for (let from = 0; from < lines.length; from += 20_000) {
    const readings = lines.slice(from, from + 20_000).map((line, index): Reading => {
      const [at = '', tempC, humidity, quality, source] = line.split(',');
      const reading = readingSchema.safeParse({
        probeId,
        at,
        tempC: Number(tempC || Number.NaN),
        ...(humidity ? { humidity: Number(humidity) } : {}),
        quality,
        source,
      });
      if (!reading.success) throw notAnExport(`readings/${probeId}.csv, ${from + index + 2}`);
      return reading.data;
    });
    taken += (await appendReadings(database, scope, readings)).stored;
  }
  return taken;
}

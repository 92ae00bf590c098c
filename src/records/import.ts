import { unzipSync } from 'fflate';
import { z } from 'zod';
import { problemsOf } from '../schema/problems.ts';
import { type Reading, readingSchema } from '../schema/reading.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import type { Row } from './dump.ts';
import { thingOf } from './entry-row.ts';
import {
  EXPORT_FORMAT,
  EXPORT_VERSION,
  EXPORTED,
  type ExportedTable,
  type ExportFormat,
  notAnExport,
  sha256,
} from './export.ts';
import { ENTRY_KINDS } from './kinds.ts';
import { RecordProblem } from './problem.ts';
import { appendReadings, numberProbes } from './readings.ts';
import type { EntryRow } from './tables.ts';

/** An archive may hold this much unpacked, in this many files: more is a trap, not an export. */
const MOST_BYTES = 2_000_000_000;
const MOST_FILES = 20_000;
/** Records shrink to a tenth or so; what shrinks to less than a two-hundredth, and is large, is a trap too. */
const MOST_SHRUNK = 200;
const ALWAYS_FINE_BYTES = 20_000_000;
/** A text longer than this cannot be held in one piece. */
const MOST_BYTES_OF_ONE = 500_000_000;
const AT_ONCE = 500;

// Loose: a newer version may say more, and is told apart by its number.
const formatSchema = z.looseObject({
  format: z.literal(EXPORT_FORMAT),
  version: z.number(),
  groupId: z.string(),
  parts: z.array(z.looseObject({ name: z.string(), rows: z.number(), sha256: z.string() })),
});

export interface ImportCount {
  readonly part: string;
  readonly rows: number;
  /** Rows that were not there yet. */
  readonly taken: number;
}

/**
 * Takes an export in. Everything is checked before the first row is kept; the records then go in as one piece, and the readings after
 * them, each once. Taking the same export in again changes nothing. With `intoGroupId` the records join that group, so that one
 * animal's history can be handed on; records that are there already stay as they are.
 */
export async function importExport(
  database: Database,
  archive: Uint8Array,
  options: { readonly intoGroupId?: string; readonly nowMs: number },
): Promise<ImportCount[]> {
  const files = sizesOf(archive);
  const text = (name: string) => textOf(archive, files, name);
  const format = formatOf(text('format.json'));
  const tables = new Map<ExportedTable, Row[]>();
  for (const part of format.parts) {
    const content = text(part.name);
    if (sha256(content) !== part.sha256)
      throw new RecordProblem('invalid', say('records.exportSum', { name: part.name }), [
        { where: part.name, what: say('records.exportSum', { name: part.name }) },
      ]);
    const table = EXPORTED.find((name) => part.name === `json/${name}.json`);
    if (table) tables.set(table, rowsOf(table, content));
  }
  const groupId = options.intoGroupId ?? format.groupId;
  const counts = await takeRecords(database, tables, groupId, options.intoGroupId !== undefined);
  for (const part of format.parts) {
    const probeId = /^readings\/([0-9a-f-]{36})\.csv$/.exec(part.name)?.[1];
    if (probeId === undefined) continue;
    const taken = await takeReadings(database, groupId, probeId, text(part.name), options.nowMs);
    counts.push({ part: part.name, rows: part.rows, taken });
  }
  return counts;
}

function sizesOf(archive: Uint8Array): Map<string, number> {
  const sizes = new Map<string, number>();
  let total = 0;
  let largest = 0;
  try {
    unzipSync(archive, {
      filter: (file) => {
        sizes.set(file.name, file.originalSize);
        total += file.originalSize;
        largest = Math.max(largest, file.originalSize);
        return false;
      },
    });
  } catch {
    throw notAnExport('zip');
  }
  const trap = total > ALWAYS_FINE_BYTES && total > MOST_SHRUNK * archive.length;
  if (trap || total > MOST_BYTES || largest > MOST_BYTES_OF_ONE || sizes.size > MOST_FILES)
    throw new RecordProblem('invalid', say('records.exportTooBig'));
  return sizes;
}

/** One file of the archive, unpacked alone. Names are only looked up here, never used as paths. */
function textOf(archive: Uint8Array, sizes: ReadonlyMap<string, number>, name: string): string {
  if (!sizes.has(name)) throw notAnExport(name);
  try {
    const bytes = unzipSync(archive, { filter: (file) => file.name === name })[name]!;
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw notAnExport(name);
  }
}

function formatOf(text: string): ExportFormat {
  const format = formatSchema.safeParse(parsed('format.json', text));
  if (!format.success) throw notAnExport('format.json');
  if (format.data.version > EXPORT_VERSION) throw new RecordProblem('database-newer', say('records.exportNewer'));
  return format.data as unknown as ExportFormat;
}

function parsed(name: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw notAnExport(name);
  }
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
      if (table === 'readingCorrections' || table === 'maxMinReadings') await numberProbes(transaction, groupId);
      let taken = 0;
      const numbers = new Map(
        (await transaction.selectFrom('probeNumbers').select(['probeId', 'number']).execute()).map((row) => [
          row.probeId,
          row.number,
        ]),
      );
      for (let from = 0; from < rows.length; from += AT_ONCE) {
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
      counts.push({ part: table, rows: rows.length, taken });
    }
  });
  return counts;
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

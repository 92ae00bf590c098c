import { createHash } from 'node:crypto';
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { z } from 'zod';
import { stayLimitsSchema } from '../schema/limits.ts';
import { say } from '../wording/say.ts';
import { csvCell } from './csv-cells.ts';
import type { Database } from './database.ts';
import { portable, type Row } from './dump.ts';
import { ENTRY_KINDS } from './kinds.ts';
import { limitsOfStays } from './limits.ts';
import { RecordProblem } from './problem.ts';
import { QUALITY_CODES, SOURCE_CODES } from './reading-store.ts';
import type { Tables } from './tables.ts';

export const EXPORT_FORMAT = 'stillwinter-export';
export const EXPORT_VERSION = 1;

/** Tables of an export, each after those it refers to. Passphrases, sessions and links are never among them. */
export const EXPORTED = [
  'groups',
  'animals',
  'measurements',
  'examinations',
  'healthEvents',
  'diaryEntries',
  'photographs',
  'photographBytes',
  'places',
  'boxes',
  'stays',
  'probes',
  'tasksDone',
  'gutWarmths',
  'plans',
  'notices',
  'changes',
  'readingCorrections',
  'maxMinReadings',
  'batteryLevels',
  'weatherHours',
] as const satisfies readonly (keyof Tables)[];
export type ExportedTable = (typeof EXPORTED)[number];

/** The part with the limits of stays: of the table they lie in only these rows go out, for it holds keys too. */
export const LIMITS_PART = 'stayLimits';

/** Tables whose rows belong to a probe by its small number. */
export const BY_PROBE: ReadonlySet<ExportedTable> = new Set(['readingCorrections', 'maxMinReadings', 'batteryLevels']);

interface ExportPart {
  readonly name: string;
  readonly rows: number;
  readonly sha256: string;
}

export interface ExportFormat {
  readonly format: typeof EXPORT_FORMAT;
  readonly version: number;
  readonly exportedAt: string;
  readonly groupId: string;
  /** Present when the export is one animal's history only. */
  readonly animalId?: string;
  readonly parts: readonly ExportPart[];
}

export interface ExportAsked {
  readonly groupId: string;
  /** Only this animal, to hand its history to another keeper. */
  readonly animalId?: string;
  readonly nowMs: number;
}

/**
 * Writes everything of a group (or of one animal) as a zip of open formats: each table as JSON, which an import reads back without
 * loss, and as CSV for a spreadsheet; readings as one CSV for each probe; the JSON Schema of every record; counts and checksums.
 */
export async function exportGroup(
  database: Database,
  asked: ExportAsked,
  write: (chunk: Uint8Array) => void,
): Promise<ExportFormat> {
  const zip = archive(write);
  const parts: ExportPart[] = [];
  const add = (name: string, rows: number, text: string) => {
    zip.file(name, text);
    parts.push({ name, rows, sha256: sha256(text) });
  };
  for (const table of EXPORTED) {
    const rows = await rowsOf(database, table, asked);
    add(`json/${table}.json`, rows.length, JSON.stringify(rows.map(portableRow), null, 1));
    if (table !== 'photographBytes') zip.file(`csv/${table}.csv`, csvOf(rows));
  }
  const stays = await rowsOf(database, 'stays', asked);
  const limits = await limitsOfStays(
    database,
    asked.groupId,
    stays.map((stay) => String(stay.id)),
  );
  add(`json/${LIMITS_PART}.json`, limits.length, JSON.stringify(limits, null, 1));
  zip.file(
    `csv/${LIMITS_PART}.csv`,
    csvOf(
      limits.map((one) => ({
        stayId: one.stayId,
        limits: JSON.stringify(one.limits),
        changes: JSON.stringify(one.changes),
      })),
    ),
  );
  for (const probe of await probesOf(database, asked)) {
    const name = `readings/${probe.probeId}.csv`;
    parts.push({ name, ...(await zip.pieces(name, readingsCsv(database, probe.number))) });
  }
  zip.file('schema.json', JSON.stringify(schemas(), null, 1));
  zip.file('READ ME.txt', say('records.exportReadMe'));
  const format: ExportFormat = {
    format: EXPORT_FORMAT,
    version: EXPORT_VERSION,
    exportedAt: new Date(asked.nowMs).toISOString(),
    groupId: asked.groupId,
    ...(asked.animalId === undefined ? {} : { animalId: asked.animalId }),
    parts,
  };
  zip.file('format.json', JSON.stringify(format, null, 1));
  zip.end();
  return format;
}

export const sha256 = (text: string | Uint8Array): string => createHash('sha256').update(text).digest('hex');

function archive(write: (chunk: Uint8Array) => void) {
  const zip = new Zip((error, chunk) => {
    if (error) throw error;
    write(chunk);
  });
  const encoder = new TextEncoder();
  return {
    file(name: string, text: string): void {
      // Base64 pictures do not shrink; everything else does.
      const entry = name.includes('photographBytes') ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 6 });
      zip.add(entry);
      entry.push(encoder.encode(text), true);
    },
    /** Packs a text as it comes, for one that is too long to be held. */
    async pieces(name: string, texts: AsyncIterable<{ text: string; rows: number }>) {
      const entry = new ZipDeflate(name, { level: 6 });
      zip.add(entry);
      const sum = createHash('sha256');
      let rows = 0;
      for await (const piece of texts) {
        sum.update(piece.text);
        rows += piece.rows;
        entry.push(encoder.encode(piece.text));
      }
      entry.push(new Uint8Array(), true);
      return { rows, sha256: sum.digest('hex') };
    },
    end: () => zip.end(),
  };
}

const portableRow = (row: Row): Record<string, unknown> =>
  Object.fromEntries(Object.entries(row).map(([column, value]) => [column, portable(value)]));

function csvOf(rows: readonly Row[]): string {
  const columns = Object.keys(rows[0] ?? {});
  const lines = rows.map((row) => columns.map((column) => csvCell(row[column])).join(','));
  return [columns.map(csvCell).join(','), ...lines, ''].join('\r\n');
}

/** Readings of one probe as CSV, page by page. */
async function* readingsCsv(database: Database, probe: number): AsyncGenerator<{ text: string; rows: number }> {
  yield { text: 'at,tempC,humidity,quality,source\r\n', rows: 0 };
  const page = 5000;
  for (let after = -1; ; ) {
    const rows = await database.kysely
      .selectFrom('readings')
      .selectAll()
      .where('probe', '=', probe)
      .where('atMs', '>', after)
      .orderBy('atMs')
      .limit(page)
      .execute();
    let text = '';
    for (const row of rows)
      text += `${new Date(row.atMs).toISOString()},${row.tempC},${row.humidity ?? ''},${QUALITY_CODES[row.quality]},${SOURCE_CODES[row.source]}\r\n`;
    yield { text, rows: rows.length };
    if (rows.length < page) return;
    after = rows.at(-1)!.atMs;
  }
}

async function probesOf(database: Database, asked: ExportAsked) {
  const boxes =
    asked.animalId === undefined ? undefined : (await stayBoxes(database, asked.animalId)).map((row) => row.boxId);
  const rows = await database.kysely
    .selectFrom('probeNumbers')
    .innerJoin('probes', 'probes.id', 'probeNumbers.probeId')
    .select(['probeNumbers.number', 'probeNumbers.probeId', 'probes.boxId'])
    .where('probeNumbers.groupId', '=', asked.groupId)
    .orderBy('number')
    .execute();
  return rows.filter((row) => !boxes || boxes.includes(String(row.boxId)));
}

const stayBoxes = async (database: Database, animalId: string) =>
  (await database.kysely.selectFrom('stays').selectAll().where('animalId', '=', animalId).execute()) as unknown as {
    boxId: string;
    placeId: string;
    id: string;
  }[];

/** Rows of one table that belong to the group, or to the one animal asked for. */
async function rowsOf(database: Database, table: ExportedTable, asked: ExportAsked): Promise<Row[]> {
  const { kysely } = database;
  const all = async (name: keyof Tables, column: string, values: readonly (string | number)[]): Promise<Row[]> => {
    if (values.length === 0) return [];
    const query = kysely
      .selectFrom(name)
      .selectAll()
      .where(column as never, 'in', [...values] as never);
    return (await query.execute()) as unknown as Row[];
  };
  // Where a group is and how it is run is no part of one animal's history.
  if (table === 'groups') return asked.animalId === undefined ? all('groups', 'id', [asked.groupId]) : [];
  if (table === 'photographBytes') {
    const photographs = await rowsOf(database, 'photographs', asked);
    return all(
      table,
      'photographId',
      photographs.map((row) => String(row.id)),
    );
  }
  if (BY_PROBE.has(table)) {
    const probes = await probesOf(database, asked);
    const names = new Map(probes.map((probe) => [probe.number, probe.probeId]));
    const rows = await all(table, 'probe', [...names.keys()]);
    // The small numbers are this database's own: outside it a probe is known by its identifier.
    return rows.map((row) => ({ ...row, probe: names.get(Number(row.probe))! }));
  }
  const rows = await all(table, 'groupId', [asked.groupId]);
  return asked.animalId === undefined ? rows : ofAnimal(database, table, rows, asked.animalId);
}

async function ofAnimal(database: Database, table: ExportedTable, rows: Row[], animalId: string): Promise<Row[]> {
  if (table === 'animals') return rows.filter((row) => row.id === animalId);
  if (table === 'weatherHours') return [];
  const stays = await stayBoxes(database, animalId);
  if (table === 'boxes') return rows.filter((row) => stays.some((stay) => stay.boxId === row.id));
  if (table === 'places') return rows.filter((row) => stays.some((stay) => stay.placeId === row.id));
  if (table === 'probes') return rows.filter((row) => stays.some((stay) => stay.boxId === row.boxId));
  if (table === 'notices') return rows.filter((row) => stays.some((stay) => stay.id === row.stayId));
  if (table === 'changes')
    return rows.filter(
      (row) => row.recordId === animalId || `${row.before}${row.after}`.includes(`"animalId":"${animalId}"`),
    );
  return rows.filter((row) => row.animalId === animalId);
}

function schemas(): Record<string, unknown> {
  const kinds = ENTRY_KINDS.map((kind) => [kind.name, z.toJSONSchema(kind.schema, { io: 'input' })]);
  return { ...Object.fromEntries(kinds), [LIMITS_PART]: z.toJSONSchema(stayLimitsSchema, { io: 'input' }) };
}

/** Refused in the words of an import. */
export const notAnExport = (what: string): RecordProblem =>
  new RecordProblem('invalid', say('records.exportNot', { what }), [
    { where: 'file', what: say('records.exportNot', { what }) },
  ]);

import { z } from 'zod';
import { type StayLimits, stayLimitsSchema } from '../schema/limits.ts';
import { problemsOf } from '../schema/problems.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import type { Row } from './dump.ts';
import { thingOf } from './entry-row.ts';
import { BY_PROBE, EXPORTED, type ExportedTable, LIMITS_PART, notAnExport } from './export.ts';
import { openArchive, parsed, READINGS } from './export-archive.ts';
import { checkReadings, takeReadings } from './import-readings.ts';
import { ENTRY_KINDS } from './kinds.ts';
import { limitProblem, takeLimits } from './limits.ts';
import { RecordProblem } from './problem.ts';
import { sumCorrectedHours } from './reading-store.ts';
import { numberProbes } from './readings.ts';
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
  const opened = openArchive(archive);
  const { format, part } = opened;
  if (format.animalId !== undefined && options.intoGroupId === undefined)
    throw new RecordProblem('invalid', say('records.exportNeedsGroup'));
  const tables = new Map<ExportedTable, Row[]>();
  for (const table of EXPORTED)
    if (format.parts.some((one) => one.name === `json/${table}.json`))
      tables.set(table, rowsOf(table, part(`json/${table}.json`)));
  const idsOf = (table: ExportedTable) => new Set((tables.get(table) ?? []).map((row) => String(row.id)));
  const limitsName = `json/${LIMITS_PART}.json`;
  // Archives from before the limits went out have no such part.
  const limits = format.parts.some((one) => one.name === limitsName)
    ? limitsIn(part(limitsName), idsOf('stays'))
    : undefined;
  const groupId = options.intoGroupId ?? format.groupId;
  const readings = format.parts.flatMap(({ name, rows }) => {
    const probeId = READINGS.exec(name)?.[1];
    return probeId === undefined ? [] : [{ name, rows, probeId }];
  });
  const probes = idsOf('probes');
  for (const { name, probeId } of readings) {
    const count = await checkReadings(opened, name, probeId, options.nowMs);
    if (!probes.has(probeId) || (count > 0 && (await isElsewhere(database, groupId, probeId))))
      throw new RecordProblem('invalid', say('records.noSuchProbe'), [
        { where: name, what: say('records.noSuchProbe') },
      ]);
  }
  const counts = await takeRecords(database, tables, limits, groupId, groupId !== format.groupId);
  for (const { name, rows, probeId } of readings) {
    const taken = await takeReadings(database, opened, name, probeId);
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

/** Limits of stays, each against the schema and the rules of the watch, and only of stays that come along. */
function limitsIn(text: string, stays: ReadonlySet<string>): StayLimits[] {
  const checked = z.array(stayLimitsSchema).safeParse(parsed(LIMITS_PART, text));
  const problems = checked.success
    ? checked.data.flatMap(({ stayId, limits }, index) => {
        const where = `${LIMITS_PART}[${index}]`;
        if (!stays.has(stayId)) return [{ where: `${where}.stayId`, what: say('records.noSuchReference') }];
        return limits.flatMap((limit, at) => {
          const what = limitProblem(limit);
          return what === undefined ? [] : [{ where: `${where}.limits[${at}]`, what }];
        });
      })
    : problemsOf(checked.error).map((one) => ({ ...one, where: `${LIMITS_PART}${one.where}` }));
  if (!checked.success || problems.length > 0) throw new RecordProblem('invalid', problems[0]!.what, problems);
  return checked.data;
}

/** Whether another group of this database keeps the probe. */
async function isElsewhere(database: Database, groupId: string, probeId: string): Promise<boolean> {
  const here = await database.kysely
    .selectFrom('probes')
    .select('groupId')
    .where('id', '=', probeId)
    .executeTakeFirst();
  return here !== undefined && here.groupId !== groupId;
}

async function takeRecords(
  database: Database,
  tables: ReadonlyMap<ExportedTable, Row[]>,
  limits: readonly StayLimits[] | undefined,
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
        differing += await differingFrom(transaction, table, rows.slice(from, from + AT_ONCE), handedOn);
        const values = rows.slice(from, from + AT_ONCE).map((row) => ({
          ...row,
          ...('groupId' in row ? { groupId } : {}),
          ...(handedOn && table === 'animals' ? arriving(row) : {}),
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
    // Readings find their probe by its number.
    await numberProbes(transaction, groupId);
    if (limits && limits.length > 0)
      counts.push({
        part: LIMITS_PART,
        rows: limits.length,
        ...(await takeLimits(transaction, groupId, limits)),
      });
  });
  return counts;
}

/** An animal that is handed on has a keeper yet to be named, and has not left the group it comes to; one that died stays dead. */
const arriving = (row: Row): Row => ({
  keeperId: null,
  ...(row.leftHow === 'died' ? {} : { leftOn: null, leftHow: null, leftNote: null }),
});

/** How many of these entered records stand here with other words than they come with. Whose animal it is differs by nature. */
async function differingFrom(
  transaction: Database['kysely'],
  table: ExportedTable,
  rows: readonly Row[],
  handedOn: boolean,
) {
  const kind = ENTRY_KINDS.find((one) => one.table === table);
  if (!kind) return 0;
  const ids = rows.map((row) => String(row.id));
  const here = (await transaction
    .selectFrom(kind.table)
    .selectAll()
    .where('id', 'in', ids)
    .execute()) as unknown as EntryRow[];
  const words = (row: EntryRow) => {
    const told = thingOf(kind, {
      ...row,
      keeperId: null,
      ...(handedOn && table === 'animals' ? arriving(row as Row) : {}),
    });
    return JSON.stringify({ ...told, revision: 0, deleted: row.deletedAtMs !== null });
  };
  const coming = new Map(rows.map((row) => [String(row.id), words(row as EntryRow)]));
  return here.filter((row) => words(row) !== coming.get(row.id)).length;
}

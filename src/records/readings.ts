import { sql, type Transaction } from 'kysely';
import type { MaxMin, Probe, Reading } from '../schema/reading.ts';
import { say } from '../wording/say.ts';
import { announce } from './announce.ts';
import type { Database } from './database.ts';
import { list, type Scope } from './entries.ts';
import { PROBE } from './kinds.ts';
import { RecordProblem } from './problem.ts';
import { QUALITY_CODES, SOURCE_CODES, storeReadings, sumHours } from './reading-store.ts';
import type { ReadingRow, Tables } from './tables.ts';

const HOUR_MS = 3_600_000;
/** Readings before this instant come from a clock that was never set (2000-01-01). */
const EARLIEST_MS = 946_684_800_000;
const CLOCK_SLACK_MS = 24 * HOUR_MS;

export interface StoredCount {
  /** Readings that are new. */
  readonly stored: number;
  /** Readings whose probe and instant were there already. */
  readonly alreadyThere: number;
}

/**
 * Stores readings once each; sending the same again stores nothing. All or none: one that names an unknown probe or an impossible
 * instant refuses the whole batch with its place in it.
 */
export async function appendReadings(
  database: Database,
  scope: Scope,
  readings: readonly Reading[],
): Promise<StoredCount> {
  const numbers = await probeNumbers(database, scope);
  const rows: ReadingRow[] = [];
  const problems = [];
  for (const [index, reading] of readings.entries()) {
    const probe = numbers.get(reading.probeId);
    const atMs = Date.parse(reading.at);
    if (probe === undefined) problems.push({ where: `[${index}].probeId`, what: say('records.noSuchProbe') });
    else {
      const what = instantProblem(atMs, scope.nowMs);
      if (what === undefined) rows.push(rowOf(probe, atMs, reading));
      else problems.push({ where: `[${index}].at`, what });
    }
    if (problems.length >= 20) break;
  }
  if (problems.length > 0) throw new RecordProblem('invalid', problems[0]!.what, problems);
  const stored = await storeReadings(database, rows);
  if (stored > 0) {
    const fromMs = rows.reduce((least, row) => Math.min(least, row.atMs), Number.POSITIVE_INFINITY);
    announce(database, {
      kind: 'readings',
      probeIds: [...new Set(readings.map((reading) => reading.probeId))],
      fromMs,
    });
  }
  return { stored, alreadyThere: rows.length - stored };
}

/** What is wrong with the instant of a reading (epoch ms): it lies in the future, or before any thermometer of today; or nothing. */
export function instantProblem(atMs: number, nowMs: number): string | undefined {
  if (atMs > nowMs + CLOCK_SLACK_MS) return say('records.future');
  return atMs < EARLIEST_MS ? say('records.tooOld') : undefined;
}

function rowOf(probe: number, atMs: number, reading: Reading): ReadingRow {
  return {
    probe,
    atMs,
    tempC: reading.tempC,
    humidity: reading.humidity ?? null,
    quality: QUALITY_CODES.indexOf(reading.quality),
    source: SOURCE_CODES.indexOf(reading.source),
  };
}

/** Puts a correction above a reading: another value, or `excluded`. The reading itself stays as it came. */
export async function correctReading(
  database: Database,
  scope: Scope,
  reading: Reading,
  reason: string,
): Promise<void> {
  const numbers = await probeNumbers(database, scope);
  const probe = numbers.get(reading.probeId);
  const atMs = Date.parse(reading.at);
  await database.kysely.transaction().execute(async (transaction) => {
    const base =
      probe !== undefined &&
      (await transaction
        .selectFrom('readings')
        .select('atMs')
        .where('probe', '=', probe)
        .where('atMs', '=', atMs)
        .executeTakeFirst());
    if (probe === undefined || !base) throw new RecordProblem('not-found', say('records.notFound'));
    const last = await transaction
      .selectFrom('readingCorrections')
      .select((e) => e.fn.max('part').as('part'))
      .where('probe', '=', probe)
      .where('atMs', '=', atMs)
      .executeTakeFirst();
    await transaction
      .insertInto('readingCorrections')
      .values({
        ...rowOf(probe, atMs, reading),
        part: (last?.part ?? 0) + 1,
        reason,
        byPerson: scope.personId,
        recordedAtMs: scope.nowMs,
      })
      .execute();
    const hour = Math.floor(atMs / HOUR_MS);
    await sumHours(transaction, probe, hour, hour);
  });
  announce(database, { kind: 'readings', probeIds: [reading.probeId], fromMs: atMs });
}

/** Stores what a maximum-minimum thermometer said; the same span said again with other figures supersedes the first. */
export async function appendMaxMin(database: Database, scope: Scope, spans: readonly MaxMin[]): Promise<StoredCount> {
  const numbers = await probeNumbers(database, scope);
  for (const [index, span] of spans.entries()) {
    if (!numbers.has(span.probeId)) refuse(index, 'probeId', say('records.noSuchProbe'));
    if (Date.parse(span.toAt) > scope.nowMs + CLOCK_SLACK_MS) refuse(index, 'toAt', say('records.future'));
    if (Date.parse(span.fromAt) < EARLIEST_MS) refuse(index, 'fromAt', say('records.tooOld'));
  }
  const counted = await database.kysely.transaction().execute((transaction) =>
    storeSpans(
      transaction,
      scope,
      spans.map(({ probeId, fromAt, toAt, maxC, minC }) => ({
        probe: numbers.get(probeId)!,
        fromAtMs: Date.parse(fromAt),
        toAtMs: Date.parse(toAt),
        maxC,
        minC,
      })),
    ),
  );
  const fromMs = spans.reduce((least, span) => Math.min(least, Date.parse(span.fromAt)), Number.POSITIVE_INFINITY);
  if (counted.stored > 0) announce(database, { kind: 'readings', probeIds: spans.map((span) => span.probeId), fromMs });
  return counted;
}

/** Stores spans in a transaction; a span that says the same again is not stored a second time. */
export async function storeSpans(
  transaction: Transaction<Tables>,
  scope: Scope,
  spans: readonly { probe: number; fromAtMs: number; toAtMs: number; maxC: number; minC: number }[],
): Promise<StoredCount> {
  let stored = 0;
  for (const span of spans) {
    const last = await transaction
      .selectFrom('maxMinReadings')
      .selectAll()
      .where('probe', '=', span.probe)
      .where('toAtMs', '=', span.toAtMs)
      .orderBy('part', 'desc')
      .executeTakeFirst();
    if (last && last.fromAtMs === span.fromAtMs && last.maxC === span.maxC && last.minC === span.minC) continue;
    await transaction
      .insertInto('maxMinReadings')
      .values({ ...span, part: (last?.part ?? 0) + 1, byPerson: scope.personId, recordedAtMs: scope.nowMs })
      .execute();
    stored += 1;
  }
  return { stored, alreadyThere: spans.length - stored };
}

function refuse(index: number, field: string, what: string): never {
  throw new RecordProblem('invalid', what, [{ where: `[${index}].${field}`, what }]);
}

/** The small numbers of the probes this scope may use; a probe without one gets the next. */
async function probeNumbers(database: Database, scope: Scope): Promise<Map<string, number>> {
  const visible: Probe[] = await list(database, scope, PROBE);
  const known = await numbersOf(database, scope.groupId);
  const complete = visible.every((probe) => known.has(probe.id));
  if (!complete) await database.kysely.transaction().execute((transaction) => numberProbes(transaction, scope.groupId));
  const all = complete ? known : await numbersOf(database, scope.groupId);
  return new Map(visible.flatMap((probe) => (all.has(probe.id) ? [[probe.id, all.get(probe.id)!]] : [])));
}

/** Gives every probe of a group its small number. */
export async function numberProbes(transaction: Transaction<Tables>, groupId: string): Promise<void> {
  const missing = await transaction
    .selectFrom('probes')
    .leftJoin('probeNumbers', 'probeNumbers.probeId', 'probes.id')
    .select('probes.id')
    .where('probes.groupId', '=', groupId)
    .where('probeNumbers.number', 'is', null)
    .orderBy('probes.id')
    .execute();
  for (const { id } of missing)
    await sql`insert into probe_numbers (number, probe_id, group_id)
      select coalesce(max(number), 0) + 1, ${id}, ${groupId} from probe_numbers where true
      on conflict (probe_id) do nothing`.execute(transaction);
}

async function numbersOf(database: Database, groupId: string): Promise<Map<string, number>> {
  const rows = await database.kysely
    .selectFrom('probeNumbers')
    .select(['probeId', 'number'])
    .where('groupId', '=', groupId)
    .execute();
  return new Map(rows.map((row) => [row.probeId, row.number]));
}

/** The small number of one probe, or undefined when it never had a reading. */
export async function probeNumber(database: Database, probeId: string): Promise<number | undefined> {
  const row = await database.kysely
    .selectFrom('probeNumbers')
    .select('number')
    .where('probeId', '=', probeId)
    .executeTakeFirst();
  return row?.number;
}

/** Readings that count (corrections applied, excluded ones left out) of one probe in [fromMs, toMs), oldest first. */
export async function readingsBetween(
  database: Database,
  probeId: string,
  fromMs: number,
  toMs: number,
  limit = 500_000,
): Promise<Reading[]> {
  const probe = await probeNumber(database, probeId);
  if (probe === undefined) return [];
  const base = await database.kysely
    .selectFrom('readings')
    .selectAll()
    .where('probe', '=', probe)
    .where('atMs', '>=', fromMs)
    .where('atMs', '<', toMs)
    .orderBy('atMs')
    .limit(limit)
    .execute();
  const corrections = await database.kysely
    .selectFrom('readingCorrections')
    .selectAll()
    .where('probe', '=', probe)
    .where('atMs', '>=', fromMs)
    .where('atMs', '<', toMs)
    .orderBy('part')
    .execute();
  const latest = new Map(corrections.map((row) => [row.atMs, row]));
  return base
    .map((row) => latest.get(row.atMs) ?? row)
    .map((row) => ({
      probeId,
      at: new Date(row.atMs).toISOString(),
      tempC: row.tempC,
      ...(row.humidity === null ? {} : { humidity: row.humidity }),
      quality: QUALITY_CODES[row.quality]!,
      source: SOURCE_CODES[row.source]!,
    }))
    .filter((reading) => reading.quality !== 'excluded');
}

/** Spans of a maximum-minimum thermometer that touch [fromMs, toMs), oldest first; superseded ones left out. */
export async function maxMinBetween(
  database: Database,
  probeId: string,
  fromMs: number,
  toMs: number,
): Promise<MaxMin[]> {
  const probe = await probeNumber(database, probeId);
  if (probe === undefined) return [];
  const rows = await database.kysely
    .selectFrom('maxMinReadings')
    .selectAll()
    .where('probe', '=', probe)
    .where('toAtMs', '>=', fromMs)
    .where('fromAtMs', '<', toMs)
    .orderBy('toAtMs')
    .orderBy('part')
    .execute();
  const latest = new Map(rows.map((row) => [row.toAtMs, row]));
  return [...latest.values()].map((row) => ({
    probeId,
    fromAt: new Date(row.fromAtMs).toISOString(),
    toAt: new Date(row.toAtMs).toISOString(),
    maxC: row.maxC,
    minC: row.minC,
  }));
}

/** The newest reading that counts of each probe that has one. */
export async function newestReadings(database: Database, probeIds: readonly string[]): Promise<Map<string, Reading>> {
  const found = new Map<string, Reading>();
  for (const probeId of probeIds) {
    const probe = await probeNumber(database, probeId);
    if (probe === undefined) continue;
    const rows = await database.kysely
      .selectFrom('readings')
      .select('atMs')
      .where('probe', '=', probe)
      .orderBy('atMs', 'desc')
      .limit(20)
      .execute();
    const [last, first] = [rows[0]?.atMs, rows.at(-1)?.atMs];
    if (last === undefined || first === undefined) continue;
    // A newest reading that was set aside gives way to the one before it.
    const newest = (await readingsBetween(database, probeId, first, last + 1)).at(-1);
    if (newest) found.set(probeId, newest);
  }
  return found;
}

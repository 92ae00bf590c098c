import type { Kysely, Transaction } from 'kysely';
import { v7 as uuidv7 } from 'uuid';
import type { BoxDescription, PlaceDescription } from '../heat/description.ts';
import { dayInWords } from '../measure/day-words.ts';
import { boxInPlaceProblems } from '../schema/box.ts';
import type { Problem } from '../schema/problems.ts';
import { say } from '../wording/say.ts';
import { announceEntry } from './announce.ts';
import type { Database } from './database.ts';
import { columnsOf, thingOf } from './entry-row.ts';
import { canonical, note, write } from './entry-writing.ts';
import { checkUnused } from './in-use.ts';
import { ANIMAL, BOX, DIARY, type EntryKind, STAY } from './kinds.ts';
import { followLeaving } from './leaving.ts';
import { RecordProblem } from './problem.ts';
import type { Scope } from './scope.ts';
import type { EntryRow, EntryTable, Tables } from './tables.ts';
import { followWaking } from './waking.ts';

export type { Scope } from './scope.ts';

type Entry = { id: string };
export type Kept<T> = T & { revision: number };
type Outcome<T> = { conflict: boolean; record: Kept<T>; before?: Kept<T> };

/** A deleted record can be brought back for this long. */
export const UNDO_MS = 30 * 86_400_000;
/** Clocks of phones run a little ahead. */
const CLOCK_SLACK_MS = 26 * 3_600_000;

/**
 * Keeps a new record. Sending the same again is no second record: the answer is then `already-there`.
 * Throws RecordProblem `id-in-use` when another record has the identifier.
 */
export async function make<T extends Entry>(
  database: Database,
  scope: Scope,
  kind: EntryKind<T>,
  thing: T,
): Promise<{ state: 'saved' | 'already-there'; record: Kept<T> }> {
  const once = () => database.kysely.transaction().execute((transaction) => makeIn(transaction, scope, kind, thing));
  // The same record sent to two servers at once: the later one finds it there on its second look.
  const made = await once().catch((error) => {
    if ((error as { code?: string }).code === '23505') return once();
    throw error;
  });
  if (made.state === 'saved') tell(database, kind, made.record);
  return made;
}

export async function makeIn<T extends Entry>(
  transaction: Transaction<Tables>,
  scope: Scope,
  kind: EntryKind<T>,
  thing: T,
): Promise<{ state: 'saved' | 'already-there'; record: Kept<T> }> {
  const body = owned(scope, kind, thing);
  const existing = await rowById(transaction, kind.table, thing.id);
  if (existing) {
    const first = await firstVersion(transaction, thing.id);
    if (existing.groupId === scope.groupId && first === canonical(kind, body))
      return { state: 'already-there', record: thingOf(kind, existing) };
    throw new RecordProblem('id-in-use', say('records.idInUse'), [{ where: 'id', what: say('records.idInUse') }]);
  }
  await checkAgainstRecords(transaction, scope, kind, body);
  const row = {
    ...columnsOf(kind, body),
    id: thing.id,
    groupId: scope.groupId,
    revision: 1,
    recordedBy: scope.personId,
    recordedAtMs: scope.nowMs,
    changedBy: scope.personId,
    changedAtMs: scope.nowMs,
    deletedAtMs: null,
  } as EntryRow;
  await transaction.insertInto(kind.table).values(row).execute();
  await note(transaction, scope, kind.name, row, 'made', null, canonical(kind, body));
  await followed(transaction, scope, kind, null, row);
  return { state: 'saved', record: thingOf(kind, row) };
}

/**
 * Keeps an edit. When `thing.revision` is not the present one, the edit is put beside the record and RecordProblem
 * `edit-conflict` tells both; without a revision the edit is taken as it is. The same edit sent twice changes once.
 */
export async function change<T extends Entry>(
  database: Database,
  scope: Scope,
  kind: EntryKind<T>,
  thing: T,
): Promise<Kept<T>> {
  const base = (thing as { revision?: number }).revision;
  const body = owned(scope, kind, thing);
  const once = () =>
    database.kysely.transaction().execute(async (transaction): Promise<Outcome<T>> => {
      const existing = await seen(transaction, scope, kind, thing.id);
      if (existing.deletedAtMs !== null) throw new RecordProblem('deleted', say('records.deleted'));
      const before = thingOf(kind, existing);
      const after = canonical(kind, body);
      if (after === canonical(kind, before)) {
        // Whoever saves what stands there, knowing it, has chosen it.
        if (base === existing.revision) await settle(transaction, scope, thing.id);
        return { conflict: false, record: before };
      }
      if (base !== undefined && base !== existing.revision) {
        await keepConflict(transaction, scope, kind, thing.id, base, after);
        return { conflict: true, record: before };
      }
      await checkAgainstRecords(transaction, scope, kind, body, existing);
      const row = {
        ...existing,
        ...columnsOf(kind, body),
        revision: existing.revision + 1,
        changedBy: scope.personId,
        changedAtMs: scope.nowMs,
      };
      await write(transaction, kind.table, row, existing.revision);
      await note(transaction, scope, kind.name, row, 'changed', canonical(kind, before), after);
      await followed(transaction, scope, kind, existing, row);
      await settle(transaction, scope, thing.id);
      return { conflict: false, record: thingOf(kind, row), before };
    });
  // Overtaken between reading and writing: on the second look both edits are kept, like any two.
  const outcome = await once().catch((error) => {
    if (error instanceof RecordProblem && error.type === 'edit-conflict') return once();
    throw error;
  });
  // Thrown outside the transaction, so that the second version stays kept.
  if (outcome.conflict) throw new RecordProblem('edit-conflict', say('records.editConflict'), [], outcome.record);
  tell(database, kind, outcome.record, outcome.before);
  return outcome.record;
}

/**
 * Deletes so that it can be brought back for 30 days. Deleting what is deleted changes nothing; the answer is then false. With `base`, the
 * version that was seen, a record that was changed since stays as it is: RecordProblem `edit-conflict` then tells it as it stands.
 */
export async function remove(
  database: Database,
  scope: Scope,
  kind: EntryKind,
  id: string,
  base?: number,
): Promise<boolean> {
  let gone = false;
  const row = await database.kysely.transaction().execute(async (transaction) => {
    const existing = await seen(transaction, scope, kind, id);
    if (existing.deletedAtMs !== null) return existing;
    if (base !== undefined && base !== existing.revision)
      throw new RecordProblem('edit-conflict', say('records.deleteConflict'), [], thingOf(kind, existing));
    await checkUnused(transaction, scope, kind, id);
    const marked = await mark(transaction, scope, kind, existing, 'deleted', scope.nowMs);
    await followed(transaction, scope, kind, existing, marked);
    gone = true;
    return existing;
  });
  tell(database, kind, thingOf(kind, row));
  return gone;
}

/** Brings a deleted record back. Throws RecordProblem `too-late` after 30 days. */
export async function restore<T extends Entry>(
  database: Database,
  scope: Scope,
  kind: EntryKind<T>,
  id: string,
): Promise<Kept<T>> {
  const restored = await database.kysely.transaction().execute(async (transaction) => {
    const existing = await seen(transaction, scope, kind, id);
    if (existing.deletedAtMs === null) return thingOf(kind, existing);
    if (scope.nowMs - existing.deletedAtMs > UNDO_MS) throw new RecordProblem('too-late', say('records.tooLate'));
    const back = await mark(transaction, scope, kind, existing, 'restored', null);
    await followed(transaction, scope, kind, null, back);
    return thingOf(kind, back);
  });
  tell(database, kind, restored);
  return restored;
}

export async function read<T extends Entry>(
  database: Database,
  scope: Scope,
  kind: EntryKind<T>,
  id: string,
): Promise<Kept<T>> {
  const row = await seen(database.kysely, scope, kind, id);
  if (row.deletedAtMs !== null) throw new RecordProblem('deleted', say('records.deleted'));
  return thingOf(kind, row);
}

/** Records that are not deleted, in the kind's own order. `where` compares columns for equality. */
export async function list<T extends Entry>(
  database: Database,
  scope: Scope,
  kind: EntryKind<T>,
  where: Readonly<Record<string, string>> = {},
): Promise<Kept<T>[]> {
  let query = database.kysely.selectFrom(kind.table).selectAll().where('deletedAtMs', 'is', null);
  query = query.where('groupId', '=', scope.groupId);
  for (const [column, value] of Object.entries(where)) query = query.where(column, '=', value);
  const rows = (await query.orderBy(kind.orderBy).orderBy('id').execute()) as EntryRow[];
  const visible = await visibility(database.kysely, scope, kind);
  return rows.filter(visible).map((row) => thingOf(kind, row));
}

/** The row, when it exists and this scope may see it, deleted or not. */
export async function seen(kysely: Kysely<Tables>, scope: Scope, kind: EntryKind, id: string): Promise<EntryRow> {
  const row = await rowById(kysely, kind.table, id);
  if (row?.groupId !== scope.groupId || !(await visibility(kysely, scope, kind))(row))
    throw new RecordProblem('not-found', say('records.notFound'));
  return row;
}

async function rowById(kysely: Kysely<Tables>, table: EntryTable, id: string): Promise<EntryRow | undefined> {
  const row = await kysely.selectFrom(table).selectAll().where('id', '=', id).executeTakeFirst();
  return row as EntryRow | undefined;
}

/** The body as it is kept: without the revision, and a keeper's animal stays that keeper's own. */
function owned(scope: Scope, kind: EntryKind, thing: object): object {
  const { revision: _, ...body } = thing as { revision?: number };
  return kind === ANIMAL && scope.keeperId !== undefined ? { ...body, keeperId: scope.keeperId } : body;
}

/**
 * Which rows of a kind a keeper sees: their own animals and what is about them, boxes and places these stay in or that they made
 * themselves, and the probes of those. Everybody else sees the whole group.
 */
export async function visibility(
  kysely: Kysely<Tables>,
  scope: Scope,
  kind: EntryKind,
): Promise<(row: EntryRow) => boolean> {
  const keeper = scope.keeperId;
  if (keeper === undefined) return () => true;
  if (kind === ANIMAL) return (row) => row.keeperId === keeper;
  const animals = await kysely
    .selectFrom('animals')
    .select('id')
    .where('groupId', '=', scope.groupId)
    .where('keeperId', '=', keeper)
    .execute();
  const own = new Set<unknown>(animals.map((row) => row.id));
  if (kind.animalField) return (row) => (row.animalId === null ? row.recordedBy === keeper : own.has(row.animalId));
  const stays = await kysely
    .selectFrom('stays')
    .select(['animalId', 'boxId', 'placeId'])
    .where('groupId', '=', scope.groupId)
    .execute();
  const used = new Set<unknown>();
  for (const stay of stays) if (own.has(stay.animalId)) used.add(stay.boxId).add(stay.placeId);
  return (row) =>
    row.recordedBy === keeper || row.outdoors === 1 || used.has(row.id) || used.has(row.boxId) || used.has(row.placeId);
}

/** What only the other records can tell: references that exist and are ours, and no date in the future. */
async function checkAgainstRecords(
  kysely: Kysely<Tables>,
  scope: Scope,
  kind: EntryKind,
  body: object,
  existing?: EntryRow,
): Promise<void> {
  const given = body as Record<string, unknown>;
  const problems: Problem[] = [];
  for (const [field, table] of Object.entries(kind.references)) {
    const id = given[field];
    if (id === undefined || id === existing?.[field]) continue;
    const query = kysely
      .selectFrom(table)
      .selectAll()
      .where('id', '=', String(id))
      .where('groupId', '=', scope.groupId);
    const found = await query.where('deletedAtMs', 'is', null).executeTakeFirst();
    const hidden = table === 'animals' && scope.keeperId !== undefined && found?.keeperId !== scope.keeperId;
    if (!found || hidden) problems.push({ where: field, what: say('records.noSuchReference') });
  }
  if (kind === ANIMAL && given.photographId !== undefined && given.photographId !== existing?.photographId)
    problems.push(...(await photographOfAnimal(kysely, given)));
  if (kind === BOX && problems.length === 0) problems.push(...(await boxInItsPlace(kysely, given)));
  if (kind === STAY && problems.length === 0) problems.push(...(await stayOfPresentAnimal(kysely, given)));
  for (const where of kind.past ?? []) {
    const dated = given[where];
    if (typeof dated === 'string' && Date.parse(dated) > scope.nowMs + CLOCK_SLACK_MS)
      problems.push({ where, what: say('records.future') });
  }
  if (problems.length > 0) throw new RecordProblem('invalid', problems[0]!.what, problems);
}

/** An animal is shown by a photograph of its own, not by that of another. */
async function photographOfAnimal(kysely: Kysely<Tables>, animal: Record<string, unknown>): Promise<Problem[]> {
  const photograph = await rowById(kysely, 'photographs', String(animal.photographId));
  const own = photograph?.animalId === animal.id && photograph?.deletedAtMs === null;
  return own ? [] : [{ where: 'photographId', what: say('records.noSuchReference') }];
}

/** An animal that died or left goes into no box after that day. */
async function stayOfPresentAnimal(kysely: Kysely<Tables>, stay: Record<string, unknown>): Promise<Problem[]> {
  const animal = await rowById(kysely, 'animals', String(stay.animalId));
  const leftOn = animal?.leftOn ?? null;
  if (leftOn === null || (typeof stay.toDay === 'string' && stay.toDay <= String(leftOn))) return [];
  return [{ where: 'animalId', what: say('records.animalLeft', { day: dayInWords(String(leftOn)) }) }];
}

/** A box cannot be larger than the place it stands in, nor float above its floor. */
async function boxInItsPlace(kysely: Kysely<Tables>, box: Record<string, unknown>): Promise<Problem[]> {
  if (typeof box.placeId !== 'string') return [];
  const place = await rowById(kysely, 'places', box.placeId);
  const description = JSON.parse(String(place?.description)) as PlaceDescription;
  return boxInPlaceProblems(box.description as BoxDescription, description, ['description']);
}

async function mark(
  transaction: Transaction<Tables>,
  scope: Scope,
  kind: EntryKind,
  existing: EntryRow,
  action: 'deleted' | 'restored',
  deletedAtMs: number | null,
): Promise<EntryRow> {
  const row = {
    ...existing,
    revision: existing.revision + 1,
    changedBy: scope.personId,
    changedAtMs: scope.nowMs,
    deletedAtMs,
  };
  await write(transaction, kind.table, row, existing.revision);
  const body = canonical(kind, thingOf(kind, existing));
  await note(
    transaction,
    scope,
    kind.name,
    row,
    action,
    action === 'deleted' ? body : null,
    action === 'deleted' ? null : body,
  );
  return row;
}

/** What else a record changes by being made, changed, deleted or brought back. A deleted row counts as not there. */
async function followed(
  transaction: Transaction<Tables>,
  scope: Scope,
  kind: EntryKind,
  before: EntryRow | null,
  after: EntryRow,
): Promise<void> {
  if (kind === ANIMAL && before && after.deletedAtMs === null)
    await followLeaving(transaction, scope, thingOf(ANIMAL, before), thingOf(ANIMAL, after));
  if (kind !== DIARY) return;
  await followWaking(
    transaction,
    scope,
    before && thingOf(DIARY, before),
    after.deletedAtMs === null ? thingOf(DIARY, after) : null,
  );
}

/** Tells of a record, and of the stay that a waking has ended or given back. */
function tell(database: Database, kind: EntryKind, record: object, before?: object): void {
  announceEntry(database, kind.name, record);
  const wakes = [record, before].some((one) => (one as { kind?: string } | undefined)?.kind === 'woken');
  if (kind === DIARY && wakes)
    announceEntry(database, 'stay', { animalId: (record as { animalId?: string }).animalId });
}

async function settle(transaction: Transaction<Tables>, scope: Scope, recordId: string): Promise<void> {
  await transaction
    .updateTable('editConflicts')
    .set({ settledAtMs: scope.nowMs })
    .where('recordId', '=', recordId)
    .where('settledAtMs', 'is', null)
    .execute();
}

async function keepConflict(
  transaction: Transaction<Tables>,
  scope: Scope,
  kind: EntryKind,
  recordId: string,
  baseRevision: number,
  body: string,
): Promise<void> {
  const same = await transaction
    .selectFrom('editConflicts')
    .select('id')
    .where('recordId', '=', recordId)
    .where('body', '=', body)
    .where('settledAtMs', 'is', null)
    .executeTakeFirst();
  if (same) return;
  await transaction
    .insertInto('editConflicts')
    .values({
      id: uuidv7(),
      groupId: scope.groupId,
      kind: kind.name,
      recordId,
      baseRevision,
      body,
      byPerson: scope.personId,
      atMs: scope.nowMs,
      settledAtMs: null,
    })
    .execute();
}

async function firstVersion(transaction: Transaction<Tables>, recordId: string): Promise<string | null> {
  const row = await transaction
    .selectFrom('changes')
    .select('after')
    .where('recordId', '=', recordId)
    .where('revision', '=', 1)
    .executeTakeFirst();
  return row?.after ?? null;
}

import type { DeletedEntry, Trail } from '../schema/trail.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { type Scope, seen, UNDO_MS, visibility } from './entries.ts';
import { thingOf } from './entry-row.ts';
import { changesOf } from './history.ts';
import { ENTRY_KINDS, type EntryKind } from './kinds.ts';
import { RecordProblem } from './problem.ts';
import type { EntryRow } from './tables.ts';

/** Who changed one record, when, and what stood there before; and every edit that was put beside it and waits for a choice. */
export async function trailOf(database: Database, scope: Scope, recordId: string): Promise<Trail> {
  const { kysely } = database;
  const made = await kysely
    .selectFrom('changes')
    .select('kind')
    .where('groupId', '=', scope.groupId)
    .where('recordId', '=', recordId)
    .executeTakeFirst();
  const kind: EntryKind | undefined = ENTRY_KINDS.find(({ name }) => name === made?.kind);
  if (!kind) throw new RecordProblem('not-found', say('records.notFound'));
  const row = await seen(kysely, scope, kind, recordId);
  const beside = await kysely
    .selectFrom('editConflicts')
    .leftJoin('people', 'people.id', 'editConflicts.byPerson')
    .select(['editConflicts.id', 'editConflicts.body', 'editConflicts.atMs', 'people.name as byName'])
    .where('editConflicts.recordId', '=', recordId)
    .where('settledAtMs', 'is', null)
    .orderBy('editConflicts.atMs')
    .execute();
  return {
    kind: kind.name,
    record: thingOf(kind, row),
    changes: await changesOf(database, scope.groupId, [recordId]),
    beside: beside.map(({ id, body, atMs, byName }) => ({
      id,
      at: new Date(atMs).toISOString(),
      ...(byName ? { by: byName } : {}),
      edit: JSON.parse(body),
    })),
  };
}

/** Everything this scope sees that was deleted in the last 30 days and can be brought back, newest first. */
export async function deletedEntries(database: Database, scope: Scope): Promise<DeletedEntry[]> {
  const { kysely } = database;
  const people = new Map(
    (await kysely.selectFrom('people').select(['id', 'name']).execute()).map((one) => [one.id, one.name]),
  );
  const found: DeletedEntry[] = [];
  for (const kind of ENTRY_KINDS as readonly EntryKind[]) {
    const rows = (await kysely
      .selectFrom(kind.table)
      .selectAll()
      .where('groupId', '=', scope.groupId)
      .where('deletedAtMs', '>=', scope.nowMs - UNDO_MS)
      .execute()) as EntryRow[];
    const visible = await visibility(kysely, scope, kind);
    for (const row of rows.filter(visible)) {
      const by = row.changedBy === null ? undefined : people.get(row.changedBy);
      found.push({
        kind: kind.name,
        at: new Date(Number(row.deletedAtMs)).toISOString(),
        ...(by ? { by } : {}),
        record: thingOf(kind, row),
      });
    }
  }
  return found.sort((a, b) => (a.at < b.at ? 1 : -1));
}

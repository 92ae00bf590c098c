import type { Transaction } from 'kysely';
import { v7 as uuidv7 } from 'uuid';
import { say } from '../wording/say.ts';
import { columnsOf, thingOf } from './entry-row.ts';
import type { EntryKind, EntryKindName } from './kinds.ts';
import { RecordProblem } from './problem.ts';
import type { Scope } from './scope.ts';
import type { EntryRow, EntryTable, Tables } from './tables.ts';

/** Writes a row over the version it was made from; a version that moved meanwhile fails the transaction. */
export async function write(
  transaction: Transaction<Tables>,
  table: EntryTable,
  row: EntryRow,
  was: number,
): Promise<void> {
  const { id, ...columns } = row;
  const result = await transaction
    .updateTable(table)
    .set(columns)
    .where('id', '=', id)
    .where('revision', '=', was)
    .executeTakeFirst();
  if (Number(result.numUpdatedRows) !== 1) throw new RecordProblem('edit-conflict', say('records.editConflict'));
}

/** Keeps one version of a record in the trail of changes, with what it replaced. */
export async function note(
  transaction: Transaction<Tables>,
  scope: Scope,
  kind: EntryKindName,
  row: EntryRow,
  action: 'made' | 'changed' | 'deleted' | 'restored',
  before: string | null,
  after: string | null,
): Promise<void> {
  await transaction
    .insertInto('changes')
    .values({
      id: uuidv7(),
      groupId: scope.groupId,
      kind,
      recordId: row.id,
      revision: row.revision,
      action,
      byPerson: scope.personId,
      atMs: scope.nowMs,
      before,
      after,
    })
    .execute();
}

/** One text for one content: fields in the kind's order, instants in UTC, so that equal things compare equal. */
export function canonical(kind: EntryKind, thing: object): string {
  const row = { ...columnsOf(kind, thing), id: '', revision: 0 } as unknown as EntryRow;
  const { id: _, revision: __, ...body } = thingOf(kind, row) as Record<string, unknown>;
  return JSON.stringify(body);
}

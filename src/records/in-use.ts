import type { Transaction } from 'kysely';
import { dayInZone } from '../measure/zone.ts';
import { type MessageKey, say } from '../wording/say.ts';
import type { EntryKindName } from './kinds.ts';
import { RecordProblem } from './problem.ts';
import type { Scope } from './scope.ts';
import type { EntryTable, Tables } from './tables.ts';

type Use = readonly [table: EntryTable, field: string, why: MessageKey];

/** What keeps a record from being deleted: something that stands on it today. What has ended does not. */
const USES: Partial<Record<EntryKindName, readonly Use[]>> = {
  animal: [['stays', 'animalId', 'records.inUse.asleep']],
  box: [
    ['stays', 'boxId', 'records.inUse.stay'],
    ['probes', 'boxId', 'records.inUse.probe'],
  ],
  place: [
    ['boxes', 'placeId', 'records.inUse.box'],
    ['probes', 'placeId', 'records.inUse.probe'],
  ],
};

/** Throws RecordProblem `invalid` when something that is going on rests on the record. */
export async function checkUnused(
  transaction: Transaction<Tables>,
  scope: Scope,
  kind: { readonly name: EntryKindName },
  id: string,
): Promise<void> {
  const group = await transaction
    .selectFrom('groups')
    .select('zone')
    .where('id', '=', scope.groupId)
    .executeTakeFirst();
  const today = dayInZone(scope.nowMs, group?.zone ?? 'UTC');
  for (const [table, field, why] of USES[kind.name] ?? []) {
    const rows = await transaction
      .selectFrom(table)
      .selectAll()
      .where(field, '=', id)
      .where('deletedAtMs', 'is', null)
      .execute();
    const standing = rows.some((row) => table !== 'stays' || row.toDay === null || String(row.toDay) > today);
    if (standing) throw new RecordProblem('invalid', say(why), [{ where: 'id', what: say(why) }]);
  }
}

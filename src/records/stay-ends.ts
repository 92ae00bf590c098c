import type { Transaction } from 'kysely';
import type { Day } from '../measure/day.ts';
import type { Stay } from '../schema/stay.ts';
import { thingOf } from './entry-row.ts';
import { canonical, note, write } from './entry-writing.ts';
import { STAY } from './kinds.ts';
import type { Scope } from './scope.ts';
import type { EntryRow, Tables } from './tables.ts';

/** What ends stays: a waking written in the diary, or the record of an animal that died or left. */
interface Ending {
  readonly animalId: string;
  readonly day: Day;
  readonly reason: NonNullable<Stay['endReason']>;
  /** The record that ends them, so that they can be given back with it. */
  readonly by: string;
}

/** Ends every stay of the animal that was going on on the day, which is its last. */
export async function endStays(transaction: Transaction<Tables>, scope: Scope, ending: Ending): Promise<void> {
  for (const stay of await staysOf(transaction, scope, ending.animalId))
    if (String(stay.fromDay) <= ending.day && (stay.toDay === null || String(stay.toDay) > ending.day))
      await rewrite(transaction, scope, stay, { toDay: ending.day, endReason: ending.reason, endEntryId: ending.by });
}

/** Takes away stays that are still to come; they are given back like those that were ended. */
export async function dropStays(
  transaction: Transaction<Tables>,
  scope: Scope,
  stays: readonly EntryRow[],
  by: string,
): Promise<void> {
  for (const stay of stays)
    await rewrite(transaction, scope, stay, { endEntryId: by, deletedAtMs: scope.nowMs }, 'deleted');
}

/** Gives back the end that stood before the record `by` ended a stay, unless a person has changed it since; and stays it took away. */
export async function giveBackStays(transaction: Transaction<Tables>, scope: Scope, by: string): Promise<void> {
  const stays = (await transaction
    .selectFrom('stays')
    .selectAll()
    .where('groupId', '=', scope.groupId)
    .where('endEntryId', '=', by)
    .execute()) as EntryRow[];
  for (const stay of stays) {
    const trail = await transaction
      .selectFrom('changes')
      .select(['action', 'before', 'after'])
      .where('recordId', '=', stay.id)
      .orderBy('revision', 'desc')
      .execute();
    if (stay.deletedAtMs !== null) {
      const { endEntryId = null } = endOf(trail[0]?.before ?? null);
      // One that a person deleted after it had ended stays deleted.
      if (endEntryId !== by) await rewrite(transaction, scope, stay, { endEntryId, deletedAtMs: null }, 'restored');
      continue;
    }
    const ended = trail.find(
      ({ action, before, after }) =>
        action === 'changed' && endOf(after).endEntryId === by && endOf(before).endEntryId !== by,
    );
    const { toDay = null, endReason = null, endEntryId = null } = endOf(ended?.before ?? null);
    await rewrite(transaction, scope, stay, { toDay, endReason, endEntryId });
  }
}

/** Stays of an animal that are not deleted. */
export const staysOf = async (
  transaction: Transaction<Tables>,
  scope: Scope,
  animalId: string,
): Promise<readonly EntryRow[]> =>
  (await transaction
    .selectFrom('stays')
    .selectAll()
    .where('groupId', '=', scope.groupId)
    .where('animalId', '=', animalId)
    .where('deletedAtMs', 'is', null)
    .execute()) as EntryRow[];

interface End {
  readonly toDay?: string;
  readonly endReason?: string;
  readonly endEntryId?: string;
}
const endOf = (body: string | null): End => (body ? (JSON.parse(body) as End) : {});

async function rewrite(
  transaction: Transaction<Tables>,
  scope: Scope,
  stay: EntryRow,
  part: Readonly<Record<string, string | number | null>>,
  action: 'changed' | 'deleted' | 'restored' = 'changed',
): Promise<void> {
  const row: EntryRow = {
    ...stay,
    ...part,
    revision: stay.revision + 1,
    changedBy: scope.personId,
    changedAtMs: scope.nowMs,
  };
  await write(transaction, STAY.table, row, stay.revision);
  const before = canonical(STAY, thingOf(STAY, stay));
  const after = canonical(STAY, thingOf(STAY, row));
  await note(
    transaction,
    scope,
    STAY.name,
    row,
    action,
    action === 'restored' ? null : before,
    action === 'deleted' ? null : after,
  );
}

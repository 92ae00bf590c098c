import type { Transaction } from 'kysely';
import { dayInZone } from '../measure/zone.ts';
import type { DiaryEntry } from '../schema/diary.ts';
import type { Scope } from './scope.ts';
import { endStays, giveBackStays } from './stay-ends.ts';
import type { Tables } from './tables.ts';

/**
 * A waking ends the stay it falls into, and a waking that is deleted, moved or never was gives the stay back the end it had: both in the
 * transaction of the diary entry, so that the watch, the round and the papers never see one without the other. `before` and `after` are the
 * entry as it stood and as it stands now; null when it is not there.
 */
export async function followWaking(
  transaction: Transaction<Tables>,
  scope: Scope,
  before: DiaryEntry | null,
  after: DiaryEntry | null,
): Promise<void> {
  const was = before?.kind === 'woken' ? before : null;
  const is = after?.kind === 'woken' ? after : null;
  if (was && is && was.at === is.at && was.animalId === is.animalId) return;
  if (was) await giveBackStays(transaction, scope, was.id);
  if (!is) return;
  const group = await transaction
    .selectFrom('groups')
    .select('zone')
    .where('id', '=', scope.groupId)
    .executeTakeFirst();
  if (!group) return;
  const day = dayInZone(Date.parse(is.at), group.zone);
  await endStays(transaction, scope, { animalId: is.animalId, day, reason: 'woken', by: is.id });
}

import type { Transaction } from 'kysely';
import { dayInZone } from '../measure/zone.ts';
import type { DiaryEntry } from '../schema/diary.ts';
import { thingOf } from './entry-row.ts';
import { canonical, note, write } from './entry-writing.ts';
import { STAY } from './kinds.ts';
import type { Scope } from './scope.ts';
import type { EntryRow, Tables } from './tables.ts';

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
  if (was) await giveBack(transaction, scope, was);
  if (is) await end(transaction, scope, is);
}

/** Ends every stay of the animal that was going on when it woke; the day of waking is its last. */
async function end(transaction: Transaction<Tables>, scope: Scope, woken: DiaryEntry): Promise<void> {
  const group = await transaction
    .selectFrom('groups')
    .select('zone')
    .where('id', '=', scope.groupId)
    .executeTakeFirst();
  if (!group) return;
  const day = dayInZone(Date.parse(woken.at), group.zone);
  const stays = (await transaction
    .selectFrom('stays')
    .selectAll()
    .where('groupId', '=', scope.groupId)
    .where('animalId', '=', woken.animalId)
    .where('deletedAtMs', 'is', null)
    .where('fromDay', '<=', day)
    .execute()) as EntryRow[];
  for (const stay of stays)
    if (stay.toDay === null || String(stay.toDay) > day)
      await rewrite(transaction, scope, stay, { toDay: day, endReason: 'woken', endEntryId: woken.id });
}

/** Gives back the end that stood before this waking, unless a person has changed it since. */
async function giveBack(transaction: Transaction<Tables>, scope: Scope, woken: DiaryEntry): Promise<void> {
  const stays = (await transaction
    .selectFrom('stays')
    .selectAll()
    .where('groupId', '=', scope.groupId)
    .where('endEntryId', '=', woken.id)
    .where('deletedAtMs', 'is', null)
    .execute()) as EntryRow[];
  for (const stay of stays) {
    const trail = await transaction
      .selectFrom('changes')
      .select(['before', 'after'])
      .where('recordId', '=', stay.id)
      .where('action', '=', 'changed')
      .orderBy('revision', 'desc')
      .execute();
    const ended = trail.find(
      ({ before, after }) => endOf(after).endEntryId === woken.id && endOf(before).endEntryId !== woken.id,
    );
    const { toDay = null, endReason = null, endEntryId = null } = endOf(ended?.before ?? null);
    await rewrite(transaction, scope, stay, { toDay, endReason, endEntryId });
  }
}

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
  part: Record<string, string | null>,
): Promise<void> {
  const row: EntryRow = {
    ...stay,
    ...part,
    revision: stay.revision + 1,
    changedBy: scope.personId,
    changedAtMs: scope.nowMs,
  };
  await write(transaction, STAY.table, row, stay.revision);
  await note(
    transaction,
    scope,
    STAY.name,
    row,
    'changed',
    canonical(STAY, thingOf(STAY, stay)),
    canonical(STAY, thingOf(STAY, row)),
  );
}

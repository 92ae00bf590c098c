import type { Transaction } from 'kysely';
import { dayInWords } from '../measure/day-words.ts';
import { dayInZone } from '../measure/zone.ts';
import type { Animal } from '../schema/animal.ts';
import { say } from '../wording/say.ts';
import { RecordProblem } from './problem.ts';
import type { Scope } from './scope.ts';
import { dropStays, endStays, giveBackStays, staysOf } from './stay-ends.ts';
import type { Tables } from './tables.ts';

/**
 * An animal that died or left sleeps in no box from that day on: its open stay ends and stays to come are taken away, in the transaction of
 * its record; taking that back gives them back. Throws RecordProblem `invalid` when it went into a box after the day it is said to have left.
 */
export async function followLeaving(
  transaction: Transaction<Tables>,
  scope: Scope,
  before: Animal,
  after: Animal,
): Promise<void> {
  if (before.leftOn === after.leftOn && before.leftHow === after.leftHow) return;
  if (before.leftOn !== undefined) await giveBackStays(transaction, scope, before.id);
  if (after.leftOn === undefined) return;
  const day = after.leftOn;
  const group = await transaction
    .selectFrom('groups')
    .select('zone')
    .where('id', '=', scope.groupId)
    .executeTakeFirst();
  const today = dayInZone(scope.nowMs, group?.zone ?? 'UTC');
  const later = (await staysOf(transaction, scope, after.id)).filter((stay) => String(stay.fromDay) > day);
  const begun = later.find((stay) => String(stay.fromDay) <= today);
  if (begun) {
    const what = say('records.stayAfterLeaving', { day: dayInWords(String(begun.fromDay)) });
    throw new RecordProblem('invalid', what, [{ where: 'leftOn', what }]);
  }
  await dropStays(transaction, scope, later, after.id);
  const reason = after.leftHow === 'died' ? 'died' : 'left';
  await endStays(transaction, scope, { animalId: after.id, day, reason, by: after.id });
}

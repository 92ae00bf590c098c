import type { Database } from '../records/database.ts';
import type { Scope } from '../records/entries.ts';
import { RecordProblem } from '../records/problem.ts';
import type { CalendarLink } from '../schema/person.ts';
import { say } from '../wording/say.ts';
import { newToken, tokenHash } from './tokens.ts';

/** Makes an address for one calendar program. Its secret is told only here. */
export async function makeCalendarLink(
  database: Database,
  scope: Scope,
  asked: { readonly id: string; readonly forWhom: string },
): Promise<string> {
  const taken = await database.kysely
    .selectFrom('calendarLinks')
    .select('id')
    .where('id', '=', asked.id)
    .executeTakeFirst();
  // The secret is not kept, so the same request again cannot be answered: it asks for a new address.
  if (taken)
    throw new RecordProblem('id-in-use', say('records.idInUse'), [{ where: 'id', what: say('records.idInUse') }]);
  const token = newToken();
  await database.kysely
    .insertInto('calendarLinks')
    .values({
      id: asked.id,
      groupId: scope.groupId,
      tokenHash: tokenHash(token),
      forWhom: asked.forWhom,
      madeBy: scope.personId,
      madeAtMs: scope.nowMs,
      revokedAtMs: null,
    })
    .execute();
  return token;
}

/** Addresses in force: a person's own, or with `all` those of the whole group. */
export async function listCalendarLinks(database: Database, scope: Scope, all: boolean): Promise<CalendarLink[]> {
  let query = database.kysely
    .selectFrom('calendarLinks')
    .leftJoin('people', 'people.id', 'calendarLinks.madeBy')
    .select(['calendarLinks.id', 'calendarLinks.forWhom', 'calendarLinks.madeAtMs', 'people.name'])
    .where('calendarLinks.groupId', '=', scope.groupId)
    .where('calendarLinks.revokedAtMs', 'is', null);
  if (!all) query = query.where('calendarLinks.madeBy', '=', scope.personId);
  const rows = await query.orderBy('calendarLinks.madeAtMs').execute();
  return rows.map((row) => ({
    id: row.id,
    forWhom: row.forWhom,
    madeAt: new Date(row.madeAtMs).toISOString(),
    ...(row.name ? { madeBy: row.name } : {}),
  }));
}

/** Takes an address back, at once and for good: a person's own, or with `all` any of the group. Again changes nothing. */
export async function revokeCalendarLink(database: Database, scope: Scope, id: string, all: boolean): Promise<void> {
  let query = database.kysely
    .updateTable('calendarLinks')
    .set((e) => ({ revokedAtMs: e.fn.coalesce('revokedAtMs', e.val(scope.nowMs)) }))
    .where('id', '=', id)
    .where('groupId', '=', scope.groupId);
  if (!all) query = query.where('madeBy', '=', scope.personId);
  const result = await query.executeTakeFirst();
  if (Number(result.numUpdatedRows) === 0) throw new RecordProblem('not-found', say('records.notFound'));
}

/**
 * What the holder of an address may read: what the person who made it may read now. Throws RecordProblem when it was taken back or when
 * that person has left the group.
 */
export async function scopeByCalendarToken(database: Database, token: string, nowMs: number): Promise<Scope> {
  const row = await database.kysely
    .selectFrom('calendarLinks')
    .leftJoin('people', 'people.id', 'calendarLinks.madeBy')
    .select(['calendarLinks.groupId', 'calendarLinks.madeBy', 'people.role', 'people.removedAtMs'])
    .where('calendarLinks.tokenHash', '=', tokenHash(token))
    .where('calendarLinks.revokedAtMs', 'is', null)
    .executeTakeFirst();
  // Without a name: made before the first person was set up, by whoever stood at the machine.
  const gone = !row || (row.madeBy !== null && (!row.role || row.removedAtMs !== null));
  if (gone) throw new RecordProblem('not-found', say('access.calendarGone'));
  return {
    groupId: row.groupId,
    personId: row.madeBy,
    ...(row.madeBy && row.role === 'keeper' ? { keeperId: row.madeBy } : {}),
    nowMs,
  };
}

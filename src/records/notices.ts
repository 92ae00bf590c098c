import type { Acknowledgement, Notice } from '../schema/notice.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { list, type Scope } from './entries.ts';
import { ANIMAL, STAY } from './kinds.ts';
import { RecordProblem } from './problem.ts';

/** Notices of the stays this scope sees, newest first. With `open` only those that have not cleared, of animals that are here. */
export async function listNotices(database: Database, scope: Scope, open: boolean): Promise<Notice[]> {
  const left = new Set(
    (await list(database, scope, ANIMAL)).flatMap((animal) => (animal.leftOn === undefined ? [] : [animal.id])),
  );
  const stays = new Set(
    (await list(database, scope, STAY)).flatMap((stay) => (open && left.has(stay.animalId) ? [] : [stay.id])),
  );
  let query = database.kysely.selectFrom('notices').selectAll().where('groupId', '=', scope.groupId);
  if (open) query = query.where('clearedAtMs', 'is', null);
  const rows = await query.orderBy('fromAtMs', 'desc').limit(1000).execute();
  const people = await database.kysely.selectFrom('people').select(['id', 'name']).execute();
  const names = new Map(people.map((person) => [person.id, person.name]));
  return rows
    .filter((row) => stays.has(row.stayId))
    .map((row) => ({
      id: row.id,
      ruleId: row.ruleId,
      stayId: row.stayId,
      level: row.level as Notice['level'],
      fromAt: new Date(row.fromAtMs).toISOString(),
      ...(row.clearedAtMs === null ? {} : { clearedAt: new Date(row.clearedAtMs).toISOString() }),
      message: JSON.parse(row.message),
      ...(row.acknowledgedAtMs === null
        ? {}
        : {
            acknowledged: {
              by: names.get(row.acknowledgedBy ?? '') ?? say('records.somebody'),
              at: new Date(row.acknowledgedAtMs).toISOString(),
              ...(row.acknowledgedNote === null ? {} : { note: row.acknowledgedNote }),
            },
          }),
    }));
}

/** Acknowledges a notice; the first who does so stands. */
export async function acknowledge(
  database: Database,
  scope: Scope,
  said: Acknowledgement,
): Promise<'saved' | 'already-there'> {
  const row = await database.kysely
    .selectFrom('notices')
    .select(['id', 'stayId'])
    .where('id', '=', said.noticeId)
    .where('groupId', '=', scope.groupId)
    .executeTakeFirst();
  const visible = row && (await list(database, scope, STAY)).some((stay) => stay.id === row.stayId);
  if (!visible) throw new RecordProblem('not-found', say('records.notFound'));
  const result = await database.kysely
    .updateTable('notices')
    .set({ acknowledgedBy: scope.personId, acknowledgedAtMs: Date.parse(said.at), acknowledgedNote: said.note ?? null })
    .where('id', '=', row.id)
    .where('acknowledgedAtMs', 'is', null)
    .executeTakeFirst();
  return Number(result.numUpdatedRows) === 1 ? 'saved' : 'already-there';
}

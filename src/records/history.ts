import type { History } from '../schema/history.ts';
import type { Database } from './database.ts';
import { list, read, type Scope } from './entries.ts';
import { ANIMAL, BOX, DIARY, EXAMINATION, HEALTH_EVENT, MEASUREMENT, PHOTOGRAPH, PLACE, STAY } from './kinds.ts';
import { listNotices } from './notices.ts';
import { listPlans } from './plans.ts';

/** Everything recorded about one animal, with the trail of its changes. */
export async function historyOf(database: Database, scope: Scope, animalId: string): Promise<History> {
  const animal = await read(database, scope, ANIMAL, animalId);
  const of = { animalId };
  const stays = await list(database, scope, STAY, of);
  const boxIds = new Set(stays.map((stay) => stay.boxId));
  const placeIds = new Set(stays.map((stay) => stay.placeId));
  const stayIds = new Set(stays.map((stay) => stay.id));
  const parts = {
    measurements: await list(database, scope, MEASUREMENT, of),
    examinations: await list(database, scope, EXAMINATION, of),
    healthEvents: await list(database, scope, HEALTH_EVENT, of),
    diary: await list(database, scope, DIARY, of),
    photographs: await list(database, scope, PHOTOGRAPH, of),
  };
  const own = [animal, ...stays, ...Object.values(parts).flat()].map((record) => record.id);
  return {
    animal,
    ...parts,
    stays,
    boxes: (await list(database, scope, BOX)).filter((box) => boxIds.has(box.id)),
    places: (await list(database, scope, PLACE)).filter((place) => placeIds.has(place.id)),
    plans: await listPlans(database, scope, animalId),
    notices: (await listNotices(database, scope, false)).filter((notice) => stayIds.has(notice.stayId)),
    changes: await changesOf(database, scope.groupId, own),
  };
}

/** The audit trail of some records, oldest first. */
export async function changesOf(
  database: Database,
  groupId: string,
  recordIds: readonly string[],
): Promise<History['changes']> {
  const rows = await database.kysely
    .selectFrom('changes')
    .leftJoin('people', 'people.id', 'changes.byPerson')
    .selectAll('changes')
    .select('people.name as byName')
    .where('changes.groupId', '=', groupId)
    .where('recordId', 'in', [...recordIds])
    .orderBy('atMs')
    .orderBy('revision')
    .execute();
  return rows.map((row) => ({
    kind: row.kind,
    recordId: row.recordId,
    revision: row.revision,
    action: row.action,
    ...(row.byName ? { by: row.byName } : {}),
    at: new Date(row.atMs).toISOString(),
    ...(row.before ? { before: JSON.parse(row.before) } : {}),
    ...(row.after ? { after: JSON.parse(row.after) } : {}),
  }));
}

import { v7 as uuidv7 } from 'uuid';
import { type Group, groupSchema } from '../schema/group.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { RecordProblem } from './problem.ts';

type Row = Awaited<ReturnType<typeof rows>>[number];
const rows = (database: Database) => database.kysely.selectFrom('groups').selectAll().orderBy('recordedAtMs').execute();

/**
 * The group of somebody who has not signed in, or undefined in an empty database: the keeper's own group once there is one, the
 * demonstration group before that.
 */
export async function presentGroup(database: Database): Promise<Group | undefined> {
  const all = await rows(database);
  const row = all.findLast((group) => group.demonstration === 0) ?? all.at(-1);
  return row && groupOf(row);
}

export async function groupById(database: Database, id: string): Promise<Group> {
  const row = await database.kysely.selectFrom('groups').selectAll().where('id', '=', id).executeTakeFirst();
  if (!row) throw new RecordProblem('not-found', say('records.notFound'));
  return groupOf(row);
}

/** Makes a group, or changes it when it is there already; of an edit made from an older revision nothing is taken. */
export async function saveGroup(database: Database, group: Group, by: string | null, nowMs: number): Promise<Group> {
  const { revision: base, ...body } = groupSchema.parse(group);
  return database.kysely.transaction().execute(async (transaction) => {
    const existing = await transaction.selectFrom('groups').selectAll().where('id', '=', body.id).executeTakeFirst();
    const columns = {
      name: body.name,
      zone: body.zone,
      latitudeDeg: body.latitudeDeg,
      longitudeDeg: body.longitudeDeg,
      temperatureUnit: body.temperatureUnit,
      massUnit: body.massUnit,
      lengthUnit: body.lengthUnit,
      lengthAdvice: body.lengthAdvice,
      climateNormals: body.climateNormals ? JSON.stringify(body.climateNormals) : null,
      climateNote: body.climateNote ?? null,
      demonstration: body.demonstration ? 1 : 0,
      changedBy: by,
      changedAtMs: nowMs,
    };
    const before = existing ? groupOf(existing) : null;
    const revision = (existing?.revision ?? 0) + 1;
    const row = { ...columns, id: body.id, revision, recordedAtMs: existing?.recordedAtMs ?? nowMs };
    if (before) {
      if (JSON.stringify({ ...body, revision: 0 }) === JSON.stringify({ ...before, revision: 0 })) return before;
      if (base !== undefined && base !== before.revision)
        throw new RecordProblem('edit-conflict', say('records.editConflict'), [], before);
      await transaction.updateTable('groups').set(row).where('id', '=', body.id).execute();
    } else await transaction.insertInto('groups').values(row).execute();
    await transaction
      .insertInto('changes')
      .values({
        id: uuidv7(),
        groupId: body.id,
        kind: 'group',
        recordId: body.id,
        revision,
        action: before ? 'changed' : 'made',
        byPerson: by,
        atMs: nowMs,
        before: before && JSON.stringify(before),
        after: JSON.stringify(body),
      })
      .execute();
    return groupOf(row);
  });
}

function groupOf(row: Omit<Row, 'changedBy' | 'changedAtMs' | 'recordedAtMs'>): Group {
  return {
    id: row.id,
    name: row.name,
    zone: row.zone,
    latitudeDeg: row.latitudeDeg,
    longitudeDeg: row.longitudeDeg,
    temperatureUnit: row.temperatureUnit as Group['temperatureUnit'],
    massUnit: row.massUnit as Group['massUnit'],
    lengthUnit: row.lengthUnit as Group['lengthUnit'],
    lengthAdvice: row.lengthAdvice as Group['lengthAdvice'],
    ...(row.climateNormals ? { climateNormals: JSON.parse(row.climateNormals) } : {}),
    ...(row.climateNote ? { climateNote: row.climateNote } : {}),
    ...(row.demonstration === 1 ? { demonstration: true } : {}),
    revision: row.revision,
  };
}

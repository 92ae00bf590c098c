import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { read, remove } from '../../src/records/entries.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { DIARY, STAY } from '../../src/records/kinds.ts';
import { migrate } from '../../src/records/migrate.ts';
import { migrations } from '../../src/records/migrations/index.ts';
import { FISH_BOX, GROUP, id, SCOPE, SEDGE, SHED } from './given.ts';
import { olderDatabase, STORES } from './stores.ts';

/** Steps of the schema before a waking ended a stay, and before those stays were ended. */
const [BEFORE, BETWEEN] = [6, 11];
const WRITTEN_MS = Date.parse('2026-03-20T12:00:00Z');
const ENTRY = {
  groupId: GROUP.id,
  revision: 1,
  recordedBy: null,
  recordedAtMs: WRITTEN_MS,
  changedBy: null,
  changedAtMs: WRITTEN_MS,
  deletedAtMs: null,
};

describe.each(STORES)('a stay whose animal was woken under an older version, on %s', (store) => {
  let database: Database;
  const insert = (table: string, row: object) =>
    database.kysely
      .insertInto(table as 'stays')
      .values(row as never)
      .execute();
  const animal = (number: number) =>
    insert('animals', { ...ENTRY, id: id(number), name: `${number}`, species: SEDGE.species, sex: 'female' });
  const stay = (number: number, animalNumber: number, fromDay: string, more: object = {}) => {
    const where = { animalId: id(animalNumber), boxId: FISH_BOX.id, placeId: SHED.id };
    return insert('stays', { ...ENTRY, id: id(number), ...where, fromDay, toDay: null, note: null, ...more });
  };
  const turn = (number: number, animalNumber: number, kind: 'woken' | 'went-down', at: string, more: object = {}) => {
    const entry = { animalId: id(animalNumber), kind, atMs: Date.parse(at), note: null };
    return insert('diaryEntries', { ...ENTRY, id: id(number), ...entry, ...more });
  };
  const endOf = async (number: number) => {
    const { toDay, endReason, endEntryId, revision } = await read(database, SCOPE, STAY, id(number));
    return { toDay, endReason, endEntryId, revision };
  };
  const open = { toDay: undefined, endReason: undefined, endEntryId: undefined, revision: 1 };

  beforeAll(async () => {
    database = await olderDatabase(store, BEFORE);
    await saveGroup(database, { ...GROUP, zone: 'Europe/Berlin' }, null, WRITTEN_MS);
    const words = (what: object) => JSON.stringify(what);
    await insert('places', { ...ENTRY, id: SHED.id, name: 'Shed', description: words(SHED.description) });
    const box = { name: 'Box', placeId: SHED.id, description: words(FISH_BOX.description) };
    await insert('boxes', { ...ENTRY, id: FISH_BOX.id, ...box });
    for (const number of [100, 200, 300, 400, 500, 600, 700]) await animal(number);

    await stay(101, 100, '2025-11-20');
    await turn(102, 100, 'went-down', '2025-11-20T10:00:00Z');
    await turn(103, 100, 'woken', '2026-03-01T23:30:00Z');

    await stay(201, 200, '2024-11-20');
    await turn(202, 200, 'woken', '2025-03-01T08:00:00Z');
    await stay(203, 200, '2025-11-18');
    await turn(204, 200, 'went-down', '2025-11-18T08:00:00Z');
    await turn(205, 200, 'woken', '2026-03-05T08:00:00Z');

    await stay(301, 300, '2025-11-20');
    await turn(302, 300, 'woken', '2026-03-01T08:00:00Z');
    await turn(303, 300, 'went-down', '2026-03-03T08:00:00Z');

    await stay(401, 400, '2025-11-20');
    await turn(402, 400, 'woken', '2026-03-01T08:00:00Z', { deletedAtMs: WRITTEN_MS });

    await stay(501, 500, '2025-11-20');
    await turn(502, 500, 'woken', '2025-11-19T08:00:00Z');

    await stay(601, 600, '2025-11-20', { toDay: '2026-02-01' });
    await turn(602, 600, 'woken', '2026-03-01T08:00:00Z');

    // A person has opened it again after wakings had begun to end stays.
    await turn(702, 700, 'woken', '2026-03-01T08:00:00Z');
    await migrate(database.kysely, store, migrations.slice(0, BETWEEN));
    await stay(701, 700, '2025-11-20', { changedAtMs: Date.now() + 1000 });
    await migrate(database.kysely, store);
  });
  afterAll(() => database.close());

  it('ends on the day of the waking by the group’s own clock, with a line in its trail, and is given back with the waking', async () => {
    expect(await endOf(101)).toEqual({ toDay: '2026-03-02', endReason: 'woken', endEntryId: id(103), revision: 2 });
    const trail = await database.kysely.selectFrom('changes').selectAll().where('recordId', '=', id(101)).execute();
    expect(trail).toMatchObject([{ action: 'changed', revision: 2, byPerson: null, kind: 'stay' }]);
    await remove(database, SCOPE, DIARY, id(103));
    expect(await endOf(101)).toEqual({ ...open, revision: 3 });
  });

  it('ends with the waking of its own winter, not with that of the next', async () => {
    expect(await endOf(201)).toMatchObject({ toDay: '2025-03-01', endEntryId: id(202) });
    expect(await endOf(203)).toMatchObject({ toDay: '2026-03-05', endEntryId: id(205) });
  });

  it.each([
    ['the animal went down again', 301, {}],
    ['the waking was deleted', 401, {}],
    ['the waking was before it', 501, {}],
    ['it has an end already', 601, { toDay: '2026-02-01' }],
    ['it was written since', 701, {}],
  ])('stays as it is where %s', async (_, number, own) => {
    expect(await endOf(number)).toEqual({ ...open, ...own });
  });
});

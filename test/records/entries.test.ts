import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { change, list, make, read, remove, restore, type Scope, UNDO_MS } from '../../src/records/entries.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { ANIMAL, BOX, DIARY, EXAMINATION, MEASUREMENT, PLACE, STAY } from '../../src/records/kinds.ts';
import { FISH_BOX, GROUP, id, NOW_MS, SCOPE, SEDGE, SHED, smallGroup } from './given.ts';
import { freshDatabase, STORES } from './stores.ts';

const problem = (type: string) => expect.objectContaining({ type });

describe.each(STORES)('entered records on %s', (store) => {
  let database: Database;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
  });
  afterAll(() => database.close());

  const weighing = {
    id: id(10),
    animalId: SEDGE.id,
    at: '2026-12-01T09:00:00.000Z',
    massG: 1240.5,
    kind: 'asleep',
  } as const;

  it('come back as they went in', async () => {
    const examination = {
      id: id(11),
      animalId: SEDGE.id,
      at: '2026-10-02T10:00:00.000Z',
      moment: 'before' as const,
      findings: { eyes: 'clear', limbs: ['swollen-joint', 'wound'] },
      answers: { appetiteNormal: true },
      vet: { seen: true, name: 'Dr “Öz” O’Hara; drop table animals' },
    };
    await make(database, SCOPE, EXAMINATION, examination);
    expect(await read(database, SCOPE, EXAMINATION, id(11))).toEqual({ ...examination, revision: 1 });
  });

  it('are made once, however often they are sent, also with another spelling of the instant', async () => {
    expect((await make(database, SCOPE, MEASUREMENT, weighing)).state).toBe('saved');
    const again = { ...weighing, at: '2026-12-01T10:00:00+01:00' };
    expect((await make(database, SCOPE, MEASUREMENT, again)).state).toBe('already-there');
    expect(await list(database, SCOPE, MEASUREMENT)).toHaveLength(1);
  });

  it('refuse another record under the same identifier', async () => {
    await expect(make(database, SCOPE, MEASUREMENT, { ...weighing, massG: 1 })).rejects.toEqual(problem('id-in-use'));
  });

  it('keep who, when and what each edit replaced', async () => {
    const by = { ...SCOPE, personId: id(77), nowMs: NOW_MS + 1000 };
    const edited = await change(database, by, MEASUREMENT, { ...weighing, massG: 1238, revision: 1 });
    expect(edited).toMatchObject({ massG: 1238, revision: 2 });
    const trail = await database.kysely
      .selectFrom('changes')
      .selectAll()
      .where('recordId', '=', id(10))
      .orderBy('revision')
      .execute();
    expect(trail.map((row) => [row.action, row.byPerson, row.atMs])).toEqual([
      ['made', null, NOW_MS],
      ['changed', id(77), NOW_MS + 1000],
    ]);
    expect(JSON.parse(trail[1]!.before!)).toMatchObject({ massG: 1240.5 });
    expect((await make(database, SCOPE, MEASUREMENT, weighing)).state).toBe('already-there');
  });

  it('keep both versions when two people edit the same one, and settle when one is chosen', async () => {
    const late = { ...weighing, massG: 1236, revision: 1 };
    await expect(change(database, SCOPE, MEASUREMENT, late)).rejects.toMatchObject({
      type: 'edit-conflict',
      current: { massG: 1238, revision: 2 },
    });
    const open = () =>
      database.kysely.selectFrom('editConflicts').selectAll().where('settledAtMs', 'is', null).execute();
    expect(JSON.parse((await open())[0]!.body)).toMatchObject({ massG: 1236 });
    expect((await read(database, SCOPE, MEASUREMENT, id(10))).massG).toBe(1238);
    await change(database, SCOPE, MEASUREMENT, { ...late, revision: 2 });
    expect(await open()).toEqual([]);
  });

  it('can be brought back for 30 days after deleting, and not a moment longer', async () => {
    await make(database, SCOPE, DIARY, { id: id(12), animalId: SEDGE.id, at: '2026-12-02T09:00:00Z', kind: 'moved' });
    await remove(database, SCOPE, DIARY, id(12));
    await remove(database, SCOPE, DIARY, id(12));
    expect(await list(database, SCOPE, DIARY)).toEqual([]);
    await expect(read(database, SCOPE, DIARY, id(12))).rejects.toEqual(problem('deleted'));
    await restore(database, { ...SCOPE, nowMs: NOW_MS + UNDO_MS }, DIARY, id(12));
    expect(await list(database, SCOPE, DIARY)).toHaveLength(1);
    await remove(database, SCOPE, DIARY, id(12));
    const tooLate = { ...SCOPE, nowMs: NOW_MS + UNDO_MS + 1 };
    await expect(restore(database, tooLate, DIARY, id(12))).rejects.toEqual(problem('too-late'));
  });

  it('refuse an animal that does not exist, and a date in the future, and keep nothing of it', async () => {
    const nobody = { ...weighing, id: id(13), animalId: id(99) };
    await expect(make(database, SCOPE, MEASUREMENT, nobody)).rejects.toMatchObject({
      problems: [{ where: 'animalId' }],
    });
    const tomorrow = { ...weighing, id: id(13), at: '2026-12-12T00:00:00Z' };
    await expect(make(database, SCOPE, MEASUREMENT, tomorrow)).rejects.toMatchObject({ problems: [{ where: 'at' }] });
    await expect(read(database, SCOPE, MEASUREMENT, id(13))).rejects.toEqual(problem('not-found'));
  });

  it('of a box say what does not fit into its place', async () => {
    await make(database, SCOPE, PLACE, {
      ...SHED,
      id: id(90),
      description: { ...SHED.description, lengthM: 2, widthM: 1.5, heightM: 2 },
    });
    const shells = [{ ...FISH_BOX.description.shells[0]!, insideLengthMm: 3000, insideWidthMm: 1600 }];
    const container = { ...FISH_BOX, id: id(91), placeId: id(90), description: { shells } };
    await expect(make(database, SCOPE, BOX, container)).rejects.toEqual(problem('invalid'));
  });

  it('of another group do not exist', async () => {
    await saveGroup(database, { ...GROUP, id: id(200), name: 'Elsewhere' }, null, NOW_MS);
    const elsewhere = { ...SCOPE, groupId: id(200) };
    expect(await list(database, elsewhere, ANIMAL)).toEqual([]);
    await expect(read(database, elsewhere, ANIMAL, SEDGE.id)).rejects.toEqual(problem('not-found'));
    await expect(change(database, elsewhere, ANIMAL, { ...SEDGE, name: 'Mine' })).rejects.toEqual(problem('not-found'));
    await expect(remove(database, elsewhere, ANIMAL, SEDGE.id)).rejects.toEqual(problem('not-found'));
    await expect(make(database, elsewhere, ANIMAL, SEDGE)).rejects.toEqual(problem('id-in-use'));
    const theirs = { ...weighing, id: id(201) };
    await expect(make(database, elsewhere, MEASUREMENT, theirs)).rejects.toEqual(problem('invalid'));
  });

  it('of other keepers do not exist for a keeper, nor the boxes these sleep in', async () => {
    const fern: Scope = { ...SCOPE, personId: id(30), keeperId: id(30) };
    await make(database, fern, ANIMAL, { ...SEDGE, id: id(31), name: 'Bramble', keeperId: id(40) });
    expect((await list(database, fern, ANIMAL)).map((animal) => [animal.name, animal.keeperId])).toEqual([
      ['Bramble', id(30)],
    ]);
    for (const [place, box, stay, animalId] of [
      [50, 51, 52, SEDGE.id],
      [60, 61, 62, id(31)],
    ] as const) {
      await make(database, SCOPE, PLACE, { ...SHED, id: id(place) });
      await make(database, SCOPE, BOX, { ...FISH_BOX, id: id(box), placeId: id(place) });
      const housed = { id: id(stay), animalId, boxId: id(box), placeId: id(place), fromDay: '2026-11-20' };
      await make(database, SCOPE, STAY, housed);
    }
    expect((await list(database, fern, BOX)).map((box) => box.id)).toEqual([id(61)]);
    expect((await list(database, fern, PLACE)).map((place) => place.id)).toEqual([id(60)]);
    expect((await list(database, fern, STAY)).map((stay) => stay.id)).toEqual([id(62)]);
    expect(await list(database, fern, MEASUREMENT)).toEqual([]);
    const theirs = { ...weighing, id: id(63) };
    await expect(make(database, fern, MEASUREMENT, theirs)).rejects.toEqual(problem('invalid'));
  });
});

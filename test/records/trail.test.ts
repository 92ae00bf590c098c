import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { change, make, read, remove, restore, type Scope, UNDO_MS } from '../../src/records/entries.ts';
import { ANIMAL, BOX, DIARY, MEASUREMENT, PLACE, PROBE, STAY } from '../../src/records/kinds.ts';
import { deletedEntries, trailOf } from '../../src/records/trail.ts';
import { FISH_BOX, id, NOW_MS, SCOPE, SEDGE, SHED, smallGroup } from './given.ts';
import { freshDatabase, STORES } from './stores.ts';

describe.each(STORES)('what was changed and deleted, on %s', (store) => {
  let database: Database;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
    await make(database, SCOPE, PLACE, SHED);
    await make(database, SCOPE, BOX, FISH_BOX);
  });
  afterAll(() => database.close());
  const weighing = {
    id: id(10),
    animalId: SEDGE.id,
    at: '2026-12-01T09:00:00.000Z',
    massG: 1240,
    kind: 'asleep' as const,
  };

  it('is told with who, when and what before, and two edits stand beside each other until one is saved', async () => {
    await make(database, SCOPE, MEASUREMENT, weighing);
    await change(database, SCOPE, MEASUREMENT, { ...weighing, massG: 1200, revision: 1 });
    const late = change(database, SCOPE, MEASUREMENT, { ...weighing, massG: 1100, revision: 1 });
    await expect(late).rejects.toMatchObject({ type: 'edit-conflict' });
    const trail = await trailOf(database, SCOPE, weighing.id);
    expect(trail.kind).toBe('measurement');
    expect(trail.record).toMatchObject({ massG: 1200, revision: 2 });
    expect(trail.changes.map(({ action }) => action)).toEqual(['made', 'changed']);
    expect(trail.changes[1]).toMatchObject({ before: { massG: 1240 }, after: { massG: 1200 } });
    expect(trail.beside.map(({ edit }) => edit.massG)).toEqual([1100]);

    // Sent again from the old version it decides nothing; saved by somebody who saw what stands there, it does.
    await change(database, SCOPE, MEASUREMENT, { ...weighing, massG: 1200, revision: 1 });
    expect((await trailOf(database, SCOPE, weighing.id)).beside).toHaveLength(1);
    await change(database, SCOPE, MEASUREMENT, { ...weighing, massG: 1200, revision: 2 });
    expect((await trailOf(database, SCOPE, weighing.id)).beside).toEqual([]);
    expect(await read(database, SCOPE, MEASUREMENT, weighing.id)).toMatchObject({ massG: 1200, revision: 2 });
  });

  it('can be brought back to the last moment of 30 days, and is no longer listed after', async () => {
    await remove(database, SCOPE, MEASUREMENT, weighing.id);
    const at = (nowMs: number): Scope => ({ ...SCOPE, nowMs });
    expect(await deletedEntries(database, at(NOW_MS + UNDO_MS))).toMatchObject([
      { kind: 'measurement', record: { id: weighing.id, massG: 1200 } },
    ]);
    expect(await deletedEntries(database, at(NOW_MS + UNDO_MS + 1))).toEqual([]);
    await restore(database, at(NOW_MS + UNDO_MS), MEASUREMENT, weighing.id);
    expect(await deletedEntries(database, SCOPE)).toEqual([]);
  });

  it('is seen by a keeper for their own animals only', async () => {
    await make(database, SCOPE, ANIMAL, { ...SEDGE, id: id(20), name: 'Mine', keeperId: id(77) });
    const mine = { ...weighing, id: id(21), animalId: id(20) };
    await make(database, SCOPE, MEASUREMENT, mine);
    await remove(database, SCOPE, MEASUREMENT, mine.id);
    await remove(database, SCOPE, MEASUREMENT, weighing.id);
    const keeper: Scope = { ...SCOPE, personId: id(77), keeperId: id(77) };
    expect((await deletedEntries(database, keeper)).map(({ record }) => record.id)).toEqual([mine.id]);
    await expect(trailOf(database, keeper, weighing.id)).rejects.toMatchObject({ type: 'not-found' });
    expect((await trailOf(database, keeper, mine.id)).changes).toHaveLength(2);
    await expect(trailOf(database, SCOPE, id(99))).rejects.toMatchObject({ type: 'not-found' });
  });

  it('is not possible while something that goes on rests on it, and is once that has ended', async () => {
    const stay = { id: id(30), animalId: SEDGE.id, boxId: FISH_BOX.id, placeId: SHED.id, fromDay: '2026-11-20' };
    await make(database, SCOPE, STAY, stay);
    const { outdoors: _, ...probe } = await read(database, SCOPE, PROBE, id(3));
    await change(database, SCOPE, PROBE, {
      ...probe,
      boxId: FISH_BOX.id,
    });
    for (const [kind, recordId] of [
      [ANIMAL, SEDGE.id],
      [BOX, FISH_BOX.id],
      [PLACE, SHED.id],
    ] as const)
      await expect(remove(database, SCOPE, kind, recordId)).rejects.toMatchObject({ type: 'invalid' });
    await make(database, SCOPE, DIARY, {
      id: id(31),
      animalId: SEDGE.id,
      at: '2026-12-10T09:00:00.000Z',
      kind: 'woken',
    });
    await expect(remove(database, SCOPE, BOX, FISH_BOX.id)).rejects.toThrow('thermometer');
    await remove(database, SCOPE, PROBE, id(3));
    await remove(database, SCOPE, BOX, FISH_BOX.id);
    await remove(database, SCOPE, PLACE, SHED.id);
    await remove(database, SCOPE, ANIMAL, SEDGE.id);
    expect((await deletedEntries(database, SCOPE)).map(({ kind }) => kind).sort()).toEqual(
      ['animal', 'box', 'measurement', 'measurement', 'place', 'probe'].sort(),
    );
  });
});

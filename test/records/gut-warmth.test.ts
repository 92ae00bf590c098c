import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assessAnimal } from '../../src/records/assessing.ts';
import type { Database } from '../../src/records/database.ts';
import { make, remove } from '../../src/records/entries.ts';
import { DIARY, GUT_WARMTH, MEASUREMENT } from '../../src/records/kinds.ts';
import { testApp } from '../server/given.ts';
import { GROUP, id, SCOPE, SEDGE, smallGroup } from './given.ts';
import { freshDatabase, STORES } from './stores.ts';

const TODAY = '2026-12-10';

describe.each(STORES)('the warmth after the last meal, on %s', (store) => {
  let database: Database;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
    const weighed = { id: id(10), animalId: SEDGE.id, at: '2026-12-01T09:00:00.000Z', massG: 1000, sclMm: 170 };
    await make(database, SCOPE, MEASUREMENT, { ...weighed, kind: 'routine' });
  });
  afterAll(() => database.close());

  let next = 100;
  const written = (more: object = {}) => ({
    id: id(next++),
    animalId: SEDGE.id,
    at: '2026-12-09T18:00:00.000Z',
    mealDay: '2026-11-29',
    lampHours: 10,
    lampBodyTempC: 28,
    nightTempC: 14,
    ...more,
  });
  const gate = async () => {
    const { assessment } = await assessAnimal(database, SCOPE, GROUP, SEDGE.id, 'going-down', TODAY);
    return assessment.gates.find((one) => one.name === 'gut-cleared')?.state;
  };

  it('written on one phone, without network, reaches the gate of the day it goes down', async () => {
    const { ask } = testApp(database);
    expect(await gate()).toBe('not-yet-known');
    const cold = written({ lampHours: 0, nightTempC: 8 });
    const batch = [{ id: cold.id, kind: 'gut-warmth', body: cold }];
    expect((await ask('POST', 'batch', batch)).body[0].state).toBe('saved');
    expect((await ask('POST', 'batch', batch)).body[0].state).toBe('already-there');
    expect((await ask('GET', `animals/${SEDGE.id}/gut-warmth`)).body).toMatchObject([{ nightTempC: 8 }]);
    expect(await gate()).toBe('borderline');
    await remove(database, SCOPE, GUT_WARMTH, cold.id);
    expect(await gate()).toBe('not-yet-known');
  });

  it('never lets an animal pass by figures alone, and does not undo what was seen, until there is another meal', async () => {
    const passed = written({ at: '2026-12-09T18:30:00.000Z', mealDay: '2026-10-15', lampHours: 12, nightTempC: 22 });
    await make(database, SCOPE, GUT_WARMTH, passed);
    expect(await gate()).toBe('not-yet-known');
    await make(database, SCOPE, GUT_WARMTH, written({ at: '2026-12-09T19:00:00.000Z' }));
    expect(await gate()).toBe('borderline');
    const seen = { id: id(next++), animalId: SEDGE.id, at: '2026-12-08T09:00:00.000Z', kind: 'gut-cleared' as const };
    await make(database, SCOPE, DIARY, seen);
    expect(await gate()).toBe('passes');
    const onTheDay = written({ at: '2026-12-09T20:00:00.000Z', mealDay: '2026-12-08' });
    await make(database, SCOPE, GUT_WARMTH, onTheDay);
    expect(await gate()).toBe('borderline');
    await remove(database, SCOPE, GUT_WARMTH, onTheDay.id);
    await make(database, SCOPE, GUT_WARMTH, written({ at: '2026-12-09T20:01:00.000Z', mealDay: '2026-12-07' }));
    expect(await gate()).toBe('passes');
  });

  it('is refused where no animal can live, and for a meal that is still to come', async () => {
    const { ask } = testApp(database);
    const send = async (more: object) => (await ask('POST', `animals/${SEDGE.id}/gut-warmth`, written(more))).status;
    expect(await send({ lampHours: 18 })).toBe(200);
    expect(await send({ lampHours: 18.1 })).toBe(422);
    expect(await send({ nightTempC: -5.1 })).toBe(422);
    expect(await send({ lampBodyTempC: 40.1 })).toBe(422);
    expect(await send({ mealDay: '2026-12-13' })).toBe(422);
    expect(await send({ probeId: id(999) })).toBe(422);
  });
});

import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { WatchService } from '../../src/notices/watch-service.ts';
import { keepBatteries } from '../../src/records/batteries.ts';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { DIARY, MEASUREMENT } from '../../src/records/kinds.ts';
import { GROUP, id, SEDGE } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';
import { BOX_PROBE, emptied, readBox, SLEEP_FROM_MS, scopeAt, sleepingSedge } from './given.ts';

const HOUR = 3_600_000;
/** Notices of the rules; a clock that a test moves on in one leap is a server asleep, which has a test of its own. */
const rows = (database: Database) =>
  database.kysely
    .selectFrom('notices')
    .selectAll()
    .where('ruleId', '!=', 'no-watch')
    .orderBy('fromAtMs')
    .orderBy('ruleId')
    .execute();
const unwatched = (database: Database) =>
  database.kysely.selectFrom('notices').selectAll().where('ruleId', '=', 'no-watch').execute();
const steady = (count: number, tempC = 5) => Array.from({ length: count }, () => tempC);

describe.each(STORES)('the watch over sleeping animals on %s', (store) => {
  let database: Database;
  let now = 0;
  const service = () => new WatchService(database, () => now);
  beforeAll(async () => {
    database = await freshDatabase(store);
  });
  beforeEach(async () => {
    await emptied(database);
    await sleepingSedge(database);
    now = SLEEP_FROM_MS + HOUR;
  });
  afterAll(() => database.close());

  it('says nothing while the box is in its band', async () => {
    const watch = service();
    await watch.start();
    now = await readBox(database, SLEEP_FROM_MS + 600_000, steady(48));
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS + 600_000 });
    expect(await rows(database)).toEqual([]);
  });

  it.each([
    [20, []],
    [19, [['battery', 'look-today']]],
  ])('a battery at %d %% speaks as it should, and only once after a restart', async (percent, said) => {
    const watch = service();
    await watch.start();
    now = await readBox(database, SLEEP_FROM_MS + 600_000, steady(12));
    await keepBatteries(database, GROUP.id, [
      { probeId: BOX_PROBE, atMs: SLEEP_FROM_MS + 600_000, percent: 90 },
      { probeId: BOX_PROBE, atMs: SLEEP_FROM_MS + 2 * HOUR, percent },
    ]);
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: 0 });
    await service().start();
    expect((await rows(database)).map((row) => [row.ruleId, row.level])).toEqual(said);
  });

  it('says act now when the box has been under 2 °C for half an hour, and ends it when it is back', async () => {
    const watch = service();
    await watch.start();
    const from = SLEEP_FROM_MS + 24 * HOUR;
    now = await readBox(database, SLEEP_FROM_MS + 600_000, [...steady(142), 3.2, 2.4, 1.8, 1.7, 1.6, 1.5, 1.5]);
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS + 600_000 });
    const [notice] = (await rows(database)).filter((row) => row.ruleId === 'under-2');
    expect(notice).toMatchObject({ level: 'act-now', clearedAtMs: null, stayId: id(12) });
    expect(notice!.fromAtMs).toBeGreaterThan(from);
    const back = now + 600_000;
    now = await readBox(database, back, [2.6, 3.5, 4, 4.5, 5, 5, 5, 5, 5, 5]);
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: back });
    expect((await rows(database)).find((row) => row.ruleId === 'under-2')?.clearedAtMs).toBeGreaterThan(back);
  });

  it('comes to the same notices after a restart in the middle, without repeating one', async () => {
    const first = service();
    await first.start();
    now = await readBox(database, SLEEP_FROM_MS + 600_000, [...steady(142), 1.8, 1.7, 1.6, 1.5, 1.5]);
    await first.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS + 600_000 });
    const before = await rows(database);
    const second = service();
    await second.start();
    expect((await rows(database)).map((row) => row.id)).toEqual(before.map((row) => row.id));
    expect(before.filter((row) => row.ruleId === 'under-2')).toHaveLength(1);
  });

  it('replays a batch that came late: the notice bears the time of the readings, not of their arrival', async () => {
    const watch = service();
    await watch.start();
    // Readings of the second day arrive first; the cold hours of the first day only afterwards.
    now = await readBox(database, SLEEP_FROM_MS + 30 * HOUR, steady(40));
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS + 30 * HOUR });
    await readBox(database, SLEEP_FROM_MS + 20 * HOUR, [...steady(3), 1.8, 1.7, 1.6, 1.5, 1.5, ...steady(12)]);
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS + 20 * HOUR });
    const notice = (await rows(database)).find((row) => row.ruleId === 'under-2');
    expect(notice?.fromAtMs).toBe(SLEEP_FROM_MS + 20 * HOUR + 3 * 600_000 + 30 * 60_000);
    expect(notice?.clearedAtMs).not.toBeNull();
  });

  it('takes the silence of a probe for a fault', async () => {
    const watch = service();
    await watch.start();
    now = await readBox(database, SLEEP_FROM_MS + 600_000, steady(30));
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS + 600_000 });
    now += 2 * HOUR - 60_000;
    await watch.tick();
    expect(await rows(database)).toEqual([]);
    now += 180_000;
    await watch.tick();
    expect((await rows(database)).map((row) => row.ruleId)).toContain('silence');
  });

  it('says of each stay between when and when nobody watched', async () => {
    await service().start();
    now += 5 * HOUR;
    await service().start();
    const said = await unwatched(database);
    expect(said).toHaveLength(1);
    expect(JSON.parse(said[0]!.message)).toMatchObject({
      key: 'notices.no-watch',
      values: { from: '1 December at 13:00', to: '1 December at 18:00' },
    });
    now += 60_000;
    await service().start();
    expect(await unwatched(database)).toHaveLength(1);
  });

  it('holds a weigh-in against the mass at the start, and hears of urine from the diary', async () => {
    const watch = service();
    await watch.start();
    now = SLEEP_FROM_MS + 10 * 24 * HOUR;
    await make(database, scopeAt(now), MEASUREMENT, {
      id: id(41),
      animalId: SEDGE.id,
      at: new Date(now).toISOString(),
      massG: 730,
      kind: 'asleep',
    });
    await make(database, scopeAt(now), DIARY, {
      id: id(42),
      animalId: SEDGE.id,
      at: new Date(now).toISOString(),
      kind: 'urine',
    });
    await watch.arrived({ animalIds: [SEDGE.id], fromMs: now });
    const found = await rows(database);
    expect(found.find((row) => row.ruleId === 'mass-10')).toMatchObject({ level: 'act-now' });
    expect(found.find((row) => row.ruleId === 'urine')).toMatchObject({ level: 'act-now' });
  });

  it('ends its notices when the animal is woken', async () => {
    const watch = service();
    await watch.start();
    now = await readBox(database, SLEEP_FROM_MS + 600_000, [...steady(142), 1.8, 1.7, 1.6, 1.5, 1.5]);
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS });
    await make(database, scopeAt(now + 60_000), DIARY, {
      id: id(43),
      animalId: SEDGE.id,
      at: new Date(now + 60_000).toISOString(),
      kind: 'woken',
    });
    now += 120_000;
    await watch.arrived({ fromMs: now, structure: true });
    expect((await rows(database)).filter((row) => row.clearedAtMs === null)).toEqual([]);
  });
});

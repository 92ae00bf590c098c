import { sql } from 'kysely';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type Arrival, Arrivals } from '../../src/intake/arrivals.ts';
import { listQuarantine } from '../../src/intake/quarantine.ts';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { PROBE } from '../../src/records/kinds.ts';
import { readingsBetween } from '../../src/records/readings.ts';
import { GROUP, id, NOW_MS, SCOPE, smallGroup } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';

const YEAR = 365 * 86_400_000;
const OTHER = { ...GROUP, id: id(90), name: 'Mill Lane' };

async function sceneOn(
  store: (typeof STORES)[number],
): Promise<{ database: Database; arrivals: Arrivals; clock: { nowMs: number } }> {
  const database = await freshDatabase(store);
  onTestFinished(() => database.close());
  await smallGroup(database);
  await make(database, SCOPE, PROBE, { id: id(4), name: 'Fish box, lid', offsetC: 0, expectedIntervalS: 600 });
  await saveGroup(database, OTHER, null, NOW_MS);
  await make(database, { ...SCOPE, groupId: OTHER.id }, PROBE, {
    id: id(91),
    name: 'Cellar',
    offsetC: 0,
    expectedIntervalS: 600,
  });
  const clock = { nowMs: NOW_MS };
  const arrivals = new Arrivals({ database, groupId: GROUP.id, source: 'mqtt', nowMs: () => clock.nowMs });
  return { database, arrivals, clock };
}

const stored = (database: Database, probeId: string) => readingsBetween(database, probeId, 0, NOW_MS + YEAR);
const told = async (database: Database, groupId = GROUP.id) =>
  (await listQuarantine(database, groupId)).map(({ sender, why, count }) => ({ sender, why, count }));

describe.each(STORES)('readings from senders that nobody sits at on %s', (store) => {
  const scene = () => sceneOn(store);

  it('a probe that sends 1,000 a second is cut to 120 a minute and told; the other probes of that minute are stored, and the next minute goes on', async () => {
    const { database, arrivals, clock } = await scene();
    let refused = 0;
    for (let second = 0; second < 5; second += 1) {
      clock.nowMs = NOW_MS + second * 1000;
      const flood = Array.from({ length: 1000 }, (_, i) => ({ probe: 'outdoors', atMs: clock.nowMs + i, tempC: 1 }));
      const taken = await arrivals.store([...flood, { probe: 'fish-box-lid', atMs: clock.nowMs, tempC: 4.8 }]);
      refused += taken.refused;
    }
    expect((await stored(database, id(3))).length).toBe(120);
    expect((await stored(database, id(4))).length).toBe(5);
    expect(refused).toBe(4880);
    const [row, ...more] = await told(database);
    expect(more).toEqual([]);
    expect(row).toMatchObject({ sender: 'outdoors', why: expect.stringContaining('more than 120') });
    expect(row!.count).toBeGreaterThan(4000);
    clock.nowMs = NOW_MS + 60_000;
    expect(await arrivals.store([{ probe: 'outdoors', atMs: clock.nowMs, tempC: 1.2 }])).toMatchObject({ stored: 1 });
    expect((await told(database))[0]!.count).toBe(4880);
  });

  it('what a broker kept while the server was away is no flood: two days of readings a minute all come in at once', async () => {
    const { database, arrivals } = await scene();
    const kept = Array.from({ length: 2880 }, (_, i) => ({ probe: 'Outdoors', atMs: NOW_MS - i * 60_000, tempC: 2 }));
    expect(await arrivals.store(kept)).toEqual({ stored: 2880, alreadyThere: 0, refused: 0 });
    expect(await told(database)).toEqual([]);
  });

  it('made-up times do not get past the limit', async () => {
    const { database, arrivals } = await scene();
    const flood = Array.from({ length: 9000 }, (_, i) => ({ probe: 'Outdoors', atMs: NOW_MS - i * 61_000, tempC: 2 }));
    expect(await arrivals.store(flood)).toEqual({ stored: 6000, alreadyThere: 0, refused: 3000 });
    expect((await told(database)).map((one) => one.sender)).toEqual(['Outdoors']);
  });

  const odd: readonly (readonly [string, Arrival, RegExp])[] = [
    ['a clock ten years ahead', { probe: 'outdoors', atMs: NOW_MS + 10 * YEAR, tempC: 4 }, /future/],
    ['a clock ten years behind', { probe: 'outdoors', atMs: NOW_MS - 10 * YEAR, tempC: 4 }, /more than a year back/],
    ['a clock that gives no number', { probe: 'outdoors', atMs: Number.NaN, tempC: 4 }, /future/],
    ['a time beyond all time', { probe: 'outdoors', atMs: 1e300, tempC: 4 }, /future/],
    ['the fault value −127 °C', { probe: 'outdoors', atMs: NOW_MS, tempC: -127 }, /cannot be true/],
    ['a temperature of 1e300 °C', { probe: 'outdoors', atMs: NOW_MS, tempC: 1e300 }, /cannot be true/],
    ['a temperature that is no number', { probe: 'outdoors', atMs: NOW_MS, tempC: Number.NaN }, /cannot be true/],
    ['the name of another group’s probe', { probe: 'cellar', atMs: NOW_MS, tempC: 4 }, /no probe of this name/],
    ['the identifier of another group’s probe', { probe: id(91), atMs: NOW_MS, tempC: 4 }, /no probe of this name/],
    ['a name with control characters', { probe: 'x\u0000\r\nSubject: y', atMs: NOW_MS, tempC: 4 }, /no probe/],
    ['a name of 10,000 letters', { probe: 'x'.repeat(10_000), atMs: NOW_MS, tempC: 4 }, /no probe/],
  ];
  it.each(odd)(
    '%s goes into quarantine with its reason, and the good reading beside it is stored',
    async (_, one, why) => {
      const { database, arrivals } = await scene();
      const taken = await arrivals.store([one, { probe: 'fish-box-lid', atMs: NOW_MS, tempC: 4.8 }]);
      expect(taken).toEqual({ stored: 1, alreadyThere: 0, refused: 1 });
      expect(await stored(database, id(3))).toEqual([]);
      expect(await stored(database, id(91))).toEqual([]);
      const [row, ...more] = await told(database);
      expect(more).toEqual([]);
      expect(row).toMatchObject({ why: expect.stringMatching(why), count: 1 });
      expect(row!.sender).toMatch(/^[^\p{Cc}]{1,120}$/u);
      expect(await told(database, OTHER.id)).toEqual([]);
    },
  );

  it('readings that could not be stored are no flood when they come again', async () => {
    const { database, arrivals } = await scene();
    const some = Array.from({ length: 100 }, (_, i) => ({ probe: 'outdoors', atMs: NOW_MS + i, tempC: 4 }));
    await sql`alter table readings rename to readings_away`.execute(database.kysely);
    for (let tries = 0; tries < 5; tries += 1) await expect(arrivals.store(some)).rejects.toThrow('readings');
    await sql`alter table readings_away rename to readings`.execute(database.kysely);
    expect(await arrivals.store(some)).toEqual({ stored: 100, alreadyThere: 0, refused: 0 });
    expect(await told(database)).toEqual([]);
  });

  it('a flood of made-up names stays bounded, and those beyond the first thousand are counted together', async () => {
    const { database, arrivals } = await scene();
    for (let batch = 0; batch < 5; batch += 1)
      await arrivals.store(
        Array.from({ length: 1000 }, (_, i) => ({ probe: `nobody-${batch}-${i}`, atMs: NOW_MS, tempC: 4 })),
      );
    const rows = await database.kysely.selectFrom('quarantine').select(['sender', 'count']).execute();
    expect(rows).toHaveLength(1001);
    expect(rows.find((row) => row.sender === '(others)')?.count).toBe(4000);
    expect(await arrivals.store([{ probe: 'outdoors', atMs: NOW_MS, tempC: 4 }])).toMatchObject({ stored: 1 });
  });

  it('the limit on temperatures from both sides, and a lone 85 °C kept but not trusted', async () => {
    const { database, arrivals } = await scene();
    const at = (number: number, tempC: number) => ({ probe: 'outdoors', atMs: NOW_MS - number * 60_000, tempC });
    await arrivals.store([at(0, -55.1), at(1, -55), at(2, 60), at(3, 85), at(4, 60.1), at(5, 84.9), at(6, 85.1)]);
    expect((await stored(database, id(3))).map((one) => [one.tempC, one.quality])).toEqual([
      [85, 'suspect'],
      [60, 'good'],
      [-55, 'good'],
    ]);
  });
});

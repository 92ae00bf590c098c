import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bucketLength, MOST_BUCKETS, readingChart } from '../../src/records/charts.ts';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { PROBE } from '../../src/records/kinds.ts';
import {
  appendMaxMin,
  appendReadings,
  correctReading,
  maxMinBetween,
  readingsBetween,
} from '../../src/records/readings.ts';
import type { Reading } from '../../src/schema/reading.ts';
import { GROUP, id, NOW_MS, SCOPE, smallGroup } from './given.ts';
import { freshDatabase, STORES } from './stores.ts';

const HOUR_MS = 3_600_000;
const at = (ms: number) => new Date(ms).toISOString();
const reading = (ms: number, tempC: number, probe = 3): Reading => ({
  probeId: id(probe),
  at: at(ms),
  tempC,
  quality: 'good',
  source: 'http',
});
const START = Date.parse('2026-10-20T00:00:00Z');
/** Ten days of ten-minute readings over a change of month and of clocks. */
const series = Array.from({ length: 1440 }, (_, i) =>
  reading(START + i * 600_000, 5 + 3 * Math.sin((i / 144) * 2 * Math.PI)),
);

describe.each(STORES)('readings on %s', (store) => {
  let database: Database;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
  });
  afterAll(() => database.close());

  it('are stored once, however often they are sent and in whatever order', async () => {
    expect(await appendReadings(database, SCOPE, series)).toEqual({ stored: 1440, alreadyThere: 0 });
    expect(await appendReadings(database, SCOPE, [...series].reverse())).toEqual({ stored: 0, alreadyThere: 1440 });
    expect(await readingsBetween(database, id(3), START, START + HOUR_MS)).toEqual(series.slice(0, 6));
  });

  it('are charted alike from single readings and from the hourly sums', async () => {
    const end = START + 10 * 24 * HOUR_MS;
    const fine = await readingChart(database, id(3), START, end, 4000);
    expect(fine.bucketMs).toBe(300_000);
    expect(fine.count).toBe(1440);
    const coarse = await readingChart(database, id(3), START, end, 50);
    expect(coarse.bucketMs).toBe(5 * HOUR_MS);
    expect(coarse.count).toBe(1440);
    expect(coarse.atMs.length).toBeLessThanOrEqual(50);
    for (const [i, from] of coarse.atMs.entries()) {
      const inside = series.filter((r) => Date.parse(r.at) >= from && Date.parse(r.at) < from + coarse.bucketMs);
      const temps = inside.map((r) => r.tempC);
      expect(coarse.minC[i]).toBe(Math.min(...temps));
      expect(coarse.maxC[i]).toBe(Math.max(...temps));
      expect(coarse.meanC[i]).toBeCloseTo(temps.reduce((a, b) => a + b) / temps.length, 9);
    }
  });

  it('can be corrected: the correction counts, the reading stays', async () => {
    const wrong = series[7]!;
    await correctReading(database, SCOPE, { ...wrong, tempC: 40 }, 'decimal point');
    await correctReading(database, SCOPE, { ...wrong, tempC: 4 }, 'looked again');
    const hour = [START + HOUR_MS, START + 2 * HOUR_MS] as const;
    expect((await readingsBetween(database, id(3), ...hour))[1]!.tempC).toBe(4);
    const fine = await readingChart(database, id(3), ...hour, 4000);
    expect(fine.minC[1]).toBe(4);
    const coarse = await readingChart(database, id(3), ...hour, 1);
    expect([coarse.minC[0], coarse.count]).toEqual([4, 6]);
    const first = await database.kysely
      .selectFrom('readings')
      .select('tempC')
      .where('atMs', '=', Date.parse(wrong.at))
      .execute();
    expect(first[0]!.tempC).toBe(wrong.tempC);
  });

  it('set aside by a person count nowhere', async () => {
    await correctReading(database, SCOPE, { ...series[8]!, quality: 'excluded' }, 'probe was in my hand');
    const hour = [START + HOUR_MS, START + 2 * HOUR_MS] as const;
    expect(await readingsBetween(database, id(3), ...hour)).toHaveLength(5);
    expect((await readingChart(database, id(3), ...hour, 1)).count).toBe(5);
    expect((await readingChart(database, id(3), ...hour, 4000)).count).toBe(5);
  });

  it.each([
    ['an unknown probe', reading(START, 5, 99), '[1].probeId'],
    ['a clock never set', reading(0, 5), '[1].at'],
    ['the year 2099', reading(Date.parse('2099-01-01T00:00:00Z'), 5), '[1].at'],
  ])('are refused as a whole when one of them has %s', async (_, bad, where) => {
    const good = reading(NOW_MS - 1000, 5);
    await expect(appendReadings(database, SCOPE, [good, bad])).rejects.toMatchObject({ problems: [{ where }] });
    expect(await readingsBetween(database, id(3), NOW_MS - 2000, NOW_MS)).toEqual([]);
  });

  it('are stored in bulk as they are one by one', async () => {
    const many = Array.from({ length: 2500 }, (_, i) => ({
      ...reading(START + i * 60_000, (i % 90) / 10),
      humidity: 0.85,
    }));
    await make(database, SCOPE, PROBE, { id: id(4), name: 'Shed', offsetC: 0, expectedIntervalS: 60 });
    const mine = many.map((r) => ({ ...r, probeId: id(4) }));
    expect((await appendReadings(database, SCOPE, mine)).stored).toBe(2500);
    expect((await appendReadings(database, SCOPE, mine)).stored).toBe(0);
    const days = await readingChart(database, id(4), START, START + 2500 * 60_000, 3);
    expect(days.count).toBe(2500);
    expect(days.humidity[0]).toBeCloseTo(0.85, 12);
    expect(await readingsBetween(database, id(4), START, START + 300_000)).toEqual(mine.slice(0, 5));
  });

  it('of a maximum-minimum thermometer are kept as spans and superseded, not changed', async () => {
    const span = { probeId: id(3), fromAt: at(START), toAt: at(START + 24 * HOUR_MS), maxC: 7, minC: 2 };
    expect(await appendMaxMin(database, SCOPE, [span, span])).toEqual({ stored: 1, alreadyThere: 1 });
    await appendMaxMin(database, SCOPE, [{ ...span, minC: 2.5 }]);
    expect(await maxMinBetween(database, id(3), START, START + HOUR_MS)).toEqual([{ ...span, minC: 2.5 }]);
    expect(await maxMinBetween(database, id(3), START + 25 * HOUR_MS, START + 26 * HOUR_MS)).toEqual([]);
    const kept = await database.kysely.selectFrom('maxMinReadings').select('minC').orderBy('part').execute();
    expect(kept.map((row) => row.minC)).toEqual([2, 2.5]);
  });

  it('cannot be put under a probe of another group', async () => {
    await saveGroup(database, { ...GROUP, id: id(200), name: 'Elsewhere' }, null, NOW_MS);
    const elsewhere = { ...SCOPE, groupId: id(200) };
    await expect(appendReadings(database, elsewhere, [reading(START, 1)])).rejects.toMatchObject({ type: 'invalid' });
  });
});

describe('the stretches of a chart', () => {
  it('are never more than asked for, nor more than 4,000', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5e11 }),
        fc.integer({ min: 2, max: 9000 }),
        fc.nat(1e12),
        (spanMs, buckets, fromMs) => {
          const step = bucketLength(fromMs, fromMs + spanMs, buckets);
          const count = Math.floor((fromMs + spanMs - 1) / step) - Math.floor(fromMs / step) + 1;
          expect(count).toBeLessThanOrEqual(Math.min(buckets, MOST_BUCKETS));
        },
      ),
    );
  });
});

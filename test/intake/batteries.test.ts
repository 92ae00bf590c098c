import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Arrivals } from '../../src/intake/arrivals.ts';
import { readMessage } from '../../src/intake/mqtt/topics.ts';
import { onRecorded } from '../../src/records/announce.ts';
import { batteryLevels } from '../../src/records/batteries.ts';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { PROBE } from '../../src/records/kinds.ts';
import { readingsBetween } from '../../src/records/readings.ts';
import { GROUP, id, NOW_MS, SCOPE, smallGroup } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const START = NOW_MS - 10 * 24 * HOUR;

describe.each(STORES)('what a thermometer says of its battery on %s', (store) => {
  let database: Database;
  let next = 100;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
  });
  afterAll(() => database.close());

  /** Sends these levels to a probe of its own, at hours after the start. */
  async function sent(levels: readonly (readonly [number, number])[]) {
    const probeId = id(next++);
    await make(database, SCOPE, PROBE, { id: probeId, name: `Probe ${next}`, offsetC: 0, expectedIntervalS: 600 });
    const heard: unknown[] = [];
    const off = onRecorded(database, (one) => heard.push(one.kind));
    const arrivals = () => new Arrivals({ database, groupId: GROUP.id, source: 'mqtt', nowMs: () => NOW_MS });
    for (const [hours, batteryPercent] of levels)
      await arrivals().store([{ probe: probeId, atMs: START + hours * HOUR, tempC: 5, batteryPercent }]);
    off();
    const kept = (await batteryLevels(database, probeId)).map((one) => [
      (Date.parse(one.at) - START) / HOUR,
      one.percent,
    ]);
    return { probeId, kept, heard };
  }

  it('is kept when it changes, at most once an hour, and again after a day without a change; newest first', async () => {
    const { kept, heard } = await sent([
      [0, 93],
      [0.1, 93],
      [0.5, 92],
      [0.99, 93],
      [1, 92.4],
      [2, 92],
      [24.9, 92],
      [25, 92],
      [26, 91],
    ]);
    expect(kept).toEqual([
      [26, 91],
      [25, 92],
      [1, 92],
      [0, 93],
    ]);
    expect(heard.filter((kind) => kind === 'batteries')).toHaveLength(3);
  });

  it('in a word of its own and in per cent by turns: each stands until it is said again, and no reading is made of it', async () => {
    const probeId = id(next++);
    await make(database, SCOPE, PROBE, { id: probeId, name: `Probe ${next}`, offsetC: 0, expectedIntervalS: 600 });
    const arrivals = new Arrivals({ database, groupId: GROUP.id, source: 'mqtt', nowMs: () => NOW_MS });
    for (const [hours, said] of [
      [0, { batteryLow: false }],
      [2, { batteryPercent: 60 }],
      [4, { batteryLow: true }],
      [6, { batteryPercent: 60 }],
      [8, { batteryLow: false }],
    ] as const)
      expect(await arrivals.store([{ probe: probeId, atMs: START + hours * HOUR, ...said }])).toEqual({
        stored: 0,
        alreadyThere: 0,
        refused: 0,
      });
    expect(
      (await batteryLevels(database, probeId)).map(({ at, ...said }) => [(Date.parse(at) - START) / HOUR, said]),
    ).toEqual([
      [8, { percent: 60, low: false }],
      [4, { percent: 60, low: true }],
      [2, { percent: 60, low: false }],
      [0, { low: false }],
    ]);
    expect(await readingsBetween(database, probeId, START, NOW_MS)).toEqual([]);
  });

  it('is left when it is older than what is known, and when it is no per cent, while the temperature is taken', async () => {
    const { probeId, kept } = await sent([
      [5, 80],
      [1, 99],
      [7, 101],
      [8, -1],
      [9, Number.NaN],
      [10, 100],
      [12, 0],
    ]);
    expect(kept).toEqual([
      [12, 0],
      [10, 100],
      [5, 80],
    ]);
    expect(await readingsBetween(database, probeId, START, NOW_MS)).toHaveLength(7);
  });
});

describe('the battery in a message', () => {
  const shape = { topic: 'shed/{probe}', payload: '$.c', batteryPath: '$.more.bat' };
  const read = (body: object) => {
    const outcome = readMessage(shape, 'shed/box', Buffer.from(JSON.stringify(body)), NOW_MS);
    return outcome.kind === 'reading' ? outcome.reading : outcome;
  };
  it.each([
    [1, 1],
    [0, 0],
    [100, 100],
    [100.1, undefined],
    [-0.1, undefined],
    ['93', undefined],
    [null, undefined],
  ])('%s in JSON is read as %s %%', (bat, percent) => {
    expect(read({ c: 4.2, more: { bat } })).toEqual({
      probe: 'box',
      atMs: NOW_MS,
      tempC: 4.2,
      ...(percent === undefined ? {} : { batteryPercent: percent }),
    });
  });
  it('is read from a BTHome frame', () => {
    const outcome = readMessage(
      { topic: 'shed/{probe}', payload: 'bthome' },
      'shed/box',
      Buffer.from('40015D02A401'),
      NOW_MS,
    );
    expect(outcome).toMatchObject({ kind: 'reading', reading: { tempC: 4.2, batteryPercent: 93 } });
  });

  it.each([
    ['a charge alone', '40015d', { batteryPercent: 93 }],
    ['its own judgement alone', '401501', { batteryLow: true }],
    ['its own judgement beside a temperature', '4002a4011500', { tempC: 4.2, batteryLow: false }],
  ])('is read from a BTHome frame that says %s', (_, frame, said) => {
    const outcome = readMessage({ topic: 'shed/{probe}', payload: 'bthome' }, 'shed/box', Buffer.from(frame), NOW_MS);
    expect(outcome).toEqual({ kind: 'reading', reading: { probe: 'box', atMs: NOW_MS, ...said } });
  });

  it('is read from JSON without a temperature, and a message with neither is refused', () => {
    expect(read({ more: { bat: 55 } })).toEqual({ probe: 'box', atMs: NOW_MS, batteryPercent: 55 });
    expect(read({ more: { bat: 155 } })).toEqual({ kind: 'refused', why: 'the message has no value at $.c' });
    expect(read({ c: null, more: { bat: 55 } })).toMatchObject({ kind: 'refused' });
  });
});

import { describe, expect, it, onTestFinished } from 'vitest';
import { importFile } from '../../src/intake/csv/import.ts';
import { saveImported } from '../../src/intake/csv/save.ts';
import { type Announcement, onRecorded } from '../../src/records/announce.ts';
import { readingChart } from '../../src/records/charts.ts';
import { list, make } from '../../src/records/entries.ts';
import { PROBE } from '../../src/records/kinds.ts';
import { maxMinBetween, readingsBetween } from '../../src/records/readings.ts';
import type { ImportChoices } from '../../src/schema/import.ts';
import { id, NOW_MS, SCOPE, smallGroup } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';

const readAs = (text: string, choices: ImportChoices = {}, probeName = 'probe') =>
  importFile(
    async function* () {
      yield new TextEncoder().encode(text);
    },
    { zone: 'Europe/London', nowMs: NOW_MS, probeName, choices },
  );
const two = [
  'Time;Box °C;Outdoors °C',
  '2026-12-01 00:00;4,8;1,2',
  '2026-12-01 01:00;4,7;1,0',
  '2026-12-01 02:00;85,0;0,8',
  '2026-12-01 03:00;4,6;0,7',
].join('\n');

describe.each(STORES)('saving a logger’s file on %s', (store) => {
  const fresh = async () => {
    const database = await freshDatabase(store);
    onTestFinished(() => database.close());
    await smallGroup(database);
    return database;
  };

  it('stores every reading once, at the probe of that name or a new one, and tells the watch', async () => {
    const database = await fresh();
    const heard: Announcement[] = [];
    onRecorded(database, (one) => heard.push(one));
    const saved = await saveImported(database, SCOPE, await readAs(two));
    expect(saved).toMatchObject({ stored: 8, alreadyThere: 0, rejected: 0 });
    const outdoors = saved.probes.find((one) => one.name === 'Outdoors')!;
    expect(outdoors).toMatchObject({ probeId: id(3), made: false });
    const box = saved.probes.find((one) => one.name === 'Box')!;
    expect(box.made).toBe(true);
    const probes = await list(database, SCOPE, PROBE);
    expect(probes.find((one) => one.id === box.probeId)).toMatchObject({ name: 'Box', expectedIntervalS: 3600 });
    const readings = await readingsBetween(database, box.probeId, 0, NOW_MS);
    expect(readings.map((one) => [one.at, one.tempC, one.quality, one.source])).toEqual([
      ['2026-12-01T00:00:00.000Z', 4.8, 'good', 'csv'],
      ['2026-12-01T01:00:00.000Z', 4.7, 'good', 'csv'],
      ['2026-12-01T02:00:00.000Z', 85, 'suspect', 'csv'],
      ['2026-12-01T03:00:00.000Z', 4.6, 'good', 'csv'],
    ]);
    expect(heard.filter((one) => one.kind === 'readings')).toHaveLength(1);
    expect(heard.some((one) => one.kind === 'probe')).toBe(true);
    const chart = await readingChart(database, id(3), Date.parse('2026-12-01'), NOW_MS, 4);
    expect(chart.count).toBe(4);
  });

  it('the same file again stores nothing; a longer export of the same logger stores what is new and changes nothing', async () => {
    const database = await fresh();
    await saveImported(database, SCOPE, await readAs(two));
    expect(await saveImported(database, SCOPE, await readAs(two))).toMatchObject({ stored: 0, alreadyThere: 8 });
    const longer = await readAs(`${two.replace('4,8;1,2', '9,9;1,2')}\n2026-12-01 04:00;4,5;0,5`);
    expect(await saveImported(database, SCOPE, longer)).toMatchObject({ stored: 2, alreadyThere: 8 });
    const box = (await list(database, SCOPE, PROBE)).find((one) => one.name === 'Box')!;
    expect((await readingsBetween(database, box.id, 0, NOW_MS)).map((one) => one.tempC)).toEqual([
      4.8, 4.7, 85, 4.6, 4.5,
    ]);
  });

  it('adds the offset of the probe a column is sent to, and refuses one that is not there', async () => {
    const database = await fresh();
    await make(database, SCOPE, PROBE, { id: id(4), name: 'Lid', offsetC: -0.3, expectedIntervalS: 600 });
    const file = await readAs(two);
    await expect(saveImported(database, SCOPE, file, { probes: { Box: id(77) } })).rejects.toMatchObject({
      problems: [{ where: 'probes.Box' }],
    });
    await saveImported(database, SCOPE, file, { probes: { Box: id(4) } });
    expect((await readingsBetween(database, id(4), 0, NOW_MS))[0]?.tempC).toBe(4.5);
  });

  it('keeps the extremes of a maximum-minimum table as spans, once', async () => {
    const database = await fresh();
    const spans = 'Date;Max °C;Min °C\n2026-11-30;6,1;3,8\n2026-12-01;5,9;3,1\n';
    const saved = await saveImported(database, SCOPE, await readAs(spans, {}, 'Shed'));
    expect(saved).toMatchObject({ stored: 0, spansStored: 2 });
    expect(await saveImported(database, SCOPE, await readAs(spans, {}, 'Shed'))).toMatchObject({
      spansStored: 0,
      spansAlreadyThere: 2,
    });
    const kept = await maxMinBetween(database, saved.probes[0]!.probeId, 0, NOW_MS);
    expect(kept.map((one) => [one.fromAt, one.maxC, one.minC])).toEqual([
      ['2026-11-30T00:00:00.000Z', 6.1, 3.8],
      ['2026-12-01T00:00:00.000Z', 5.9, 3.1],
    ]);
  });

  it('saves nothing, not even the probe, while a question is open or when the storage fails half way', async () => {
    const database = await fresh();
    const open = await readAs('Date,Temp C\n03/04/2026 01:00,5.1\n03/04/2026 02:00,5.0\n', {}, 'Lid');
    await expect(saveImported(database, SCOPE, open)).rejects.toMatchObject({ problems: [{ where: 'dateOrder' }] });
    const broken = await readAs(two);
    const failing = {
      ...broken,
      // The second probe's readings cannot be written: a temperature that is none.
      probes: broken.probes.map((one, at) => (at === 1 ? { ...one, tempC: one.tempC.map(() => Number.NaN) } : one)),
    };
    if (store === 'sqlite') await expect(saveImported(database, SCOPE, failing)).rejects.toThrow();
    expect((await list(database, SCOPE, PROBE)).map((one) => one.name)).toEqual(['Outdoors']);
  });
});

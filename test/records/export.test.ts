import fc from 'fast-check';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cellText, csvCell } from '../../src/records/csv-cells.ts';
import type { Database } from '../../src/records/database.ts';
import { demoId } from '../../src/records/demo/group.ts';
import { loadDemonstration } from '../../src/records/demo/story.ts';
import { DUMPED, sumsOf } from '../../src/records/dump.ts';
import { make } from '../../src/records/entries.ts';
import { exportGroup } from '../../src/records/export.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { historyOf } from '../../src/records/history.ts';
import { importExport } from '../../src/records/import.ts';
import { DIARY } from '../../src/records/kinds.ts';
import { moveDatabase } from '../../src/records/move.ts';
import { correctReading, readingsBetween } from '../../src/records/readings.ts';
import { GROUP, id, NOW_MS } from './given.ts';
import { freshDatabase, STORES } from './stores.ts';

const scope = { groupId: demoId(1), personId: null, nowMs: NOW_MS };

async function exported(database: Database, animalId?: string): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  const asked = { groupId: demoId(1), nowMs: NOW_MS, ...(animalId ? { animalId } : {}) };
  await exportGroup(database, asked, (chunk) => chunks.push(chunk));
  return Buffer.concat(chunks);
}
/** What long charts are drawn from, by the probe's own identifier; sums only as far as rounding in another order leaves them. */
async function hoursOf(database: Database): Promise<string[]> {
  const rows = await database.kysely
    .selectFrom('readingHours')
    .innerJoin('probeNumbers', 'probeNumbers.number', 'readingHours.probe')
    .selectAll('readingHours')
    .select('probeId')
    .execute();
  return rows
    .map((row) => `${row.probeId} ${row.hour} ${row.count} ${row.minC} ${row.maxC} ${row.sumC.toFixed(6)}`)
    .sort();
}
const formatOf = (archive: Uint8Array) => JSON.parse(Buffer.from(unzipSync(archive)['format.json']!).toString());

describe('an export', () => {
  let database: Database;
  let archive: Uint8Array;
  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await loadDemonstration(database, NOW_MS);
    const at = '2026-12-01T08:00:00.000Z';
    const note = '=HYPERLINK("http://elsewhere.example") “Ö”\n-2 °C; \'quoted\'';
    await make(database, scope, DIARY, { id: id(1), animalId: demoId(11), at, kind: 'note', note });
    const [reading] = await readingsBetween(database, demoId(52), NOW_MS - 86_400_000, NOW_MS);
    // A reading that was left out must stay out of the hours that long charts are drawn from.
    await correctReading(database, scope, { ...reading!, tempC: 60, quality: 'excluded' }, 'the probe lay in the sun');
    archive = await exported(database);
  });
  afterAll(() => database.close());

  it.each(STORES)('goes into an empty %s without loss, and again without effect', async (store) => {
    const other = await freshDatabase(store);
    const first = await importExport(other, archive, { nowMs: NOW_MS });
    for (const part of first) expect(part.taken).toBe(part.rows);
    const again = await importExport(other, archive, { nowMs: NOW_MS });
    expect(again.reduce((sum, part) => sum + part.taken, 0)).toBe(0);
    expect(await historyOf(other, scope, demoId(11))).toEqual(await historyOf(database, scope, demoId(11)));
    const parts = (format: { parts: { name: string; rows: number; sha256: string }[] }) =>
      format.parts.map((part) => [part.name, part.rows]);
    expect(parts(formatOf(await exported(other)))).toEqual(parts(formatOf(archive)));
    const sums = [await sumsOf(database), await sumsOf(other)];
    for (const table of [
      'animals',
      'measurements',
      'plans',
      'changes',
      'readings',
      'readingCorrections',
      'photographs',
    ])
      expect(sums[1]!.get(table)).toEqual(sums[0]!.get(table));
    expect(await hoursOf(other)).toEqual(await hoursOf(database));
    await other.close();
  });

  it('of one animal can be handed to another group and holds nothing of the others', async () => {
    const other = await freshDatabase('sqlite');
    await saveGroup(other, GROUP, null, NOW_MS);
    await importExport(other, await exported(database, demoId(12)), { intoGroupId: GROUP.id, nowMs: NOW_MS });
    const history = await historyOf(other, { ...scope, groupId: GROUP.id }, demoId(12));
    const before = await historyOf(database, scope, demoId(12));
    expect(history.measurements).toEqual(before.measurements);
    expect(history.plans).toEqual(before.plans);
    expect(history.changes).toEqual(before.changes);
    const animals = await other.kysely.selectFrom('animals').select('name').execute();
    expect(animals).toEqual([{ name: 'Bramble' }]);
    await other.close();
  });

  it('holds CSV that no spreadsheet takes for a formula', () => {
    const csv = Buffer.from(unzipSync(archive)['csv/diaryEntries.csv']!).toString();
    expect(csv).toContain(`"'=HYPERLINK(""http`);
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const cell = csvCell(text);
        const inside = cell.slice(1, -1).replaceAll('""', '"');
        expect(inside).not.toMatch(/^[=+\-@\t\r]/);
        expect(cellText(inside)).toBe(text);
      }),
    );
    expect(csvCell(-4.5)).toBe('-4.5');
  });

  const changed = (change: (files: Record<string, Uint8Array>) => void) => {
    const files = unzipSync(archive);
    change(files);
    return zipSync(files, { level: 1 });
  };
  it.each([
    ['that is no zip', () => strToU8('hello'), 'no export'],
    ['of something else', () => zipSync({ 'a.txt': strToU8('x') }), 'no export'],
    ['cut off', () => archive.slice(0, archive.length / 2), 'no export'],
    [
      'changed by hand',
      () =>
        changed((files) => {
          files['json/animals.json'] = strToU8('[]');
        }),
      'checksum',
    ],
    [
      'from a newer version',
      () =>
        changed((files) => {
          files['format.json'] = strToU8(JSON.stringify({ ...formatOf(archive), version: 99 }));
        }),
      'newer',
    ],
    ['that unpacks to gigabytes', () => bomb(), 'unpacks'],
  ])('%s is refused and leaves nothing behind', async (_, made, sentence) => {
    const other = await freshDatabase('sqlite');
    await expect(importExport(other, made(), { nowMs: NOW_MS })).rejects.toThrow(sentence);
    expect(await other.kysely.selectFrom('groups').selectAll().execute()).toEqual([]);
    await other.close();
  });
});

/** Claims, in its directory, to unpack to 4 GB. */
function bomb(): Uint8Array {
  const zip = Buffer.from(zipSync({ 'format.json': strToU8('{}') }));
  const directory = zip.indexOf(Buffer.from([0x50, 0x4b, 1, 2]));
  zip.writeUInt32LE(0xf0000000, directory + 24);
  return zip;
}

describe('moving a database', () => {
  it('carries everything to the other kind and back, with equal counts and checksums', async () => {
    const [first, second, third] = [
      await freshDatabase('sqlite'),
      await freshDatabase('postgres'),
      await freshDatabase('sqlite'),
    ];
    await loadDemonstration(first, NOW_MS);
    const [reading] = await readingsBetween(first, demoId(52), NOW_MS - 86_400_000, NOW_MS);
    await correctReading(first, scope, { ...reading!, quality: 'excluded' }, 'the probe lay in the sun');
    const moved = await moveDatabase(first, second);
    expect(moved.find((part) => part.table === 'readings')!.rows).toBeGreaterThan(5000);
    await moveDatabase(second, third);
    expect(await sumsOf(third)).toEqual(await sumsOf(first));
    for (const copy of [second, third]) expect(await hoursOf(copy)).toEqual(await hoursOf(first));
    await expect(moveDatabase(first, third)).rejects.toThrow('not empty');
    for (const database of [first, second, third]) await database.close();
  });

  it('forgets no table', async () => {
    const database = await freshDatabase('sqlite');
    const tables = database
      .sqlite!.prepare(
        "select name from pragma_table_list where type = 'table' and schema = 'main' and name not like 'sqlite_%'",
      )
      .pluck()
      .all() as string[];
    const moved = DUMPED.map((table) => table.name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`));
    const madeAnew = ['migrations_done', 'reading_hours'];
    expect([...moved, ...madeAnew].sort()).toEqual(tables.sort());
    await database.close();
  });
});

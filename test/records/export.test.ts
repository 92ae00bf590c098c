import fc from 'fast-check';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cellText, csvCell } from '../../src/records/csv-cells.ts';
import type { Database } from '../../src/records/database.ts';
import { demoId } from '../../src/records/demo/group.ts';
import { loadDemonstration } from '../../src/records/demo/story.ts';
import { DUMPED, sumsOf } from '../../src/records/dump.ts';
import { list, make } from '../../src/records/entries.ts';
import { exportGroup, sha256 } from '../../src/records/export.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { historyOf } from '../../src/records/history.ts';
import { importExport } from '../../src/records/import.ts';
import { DIARY, PROBE, STAY } from '../../src/records/kinds.ts';
import { limitsOf, setLimit } from '../../src/records/limits.ts';
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

describe('limits of stays in an export', () => {
  const KEY = 'a-key-that-stays-here';
  const tutor = { role: 'tutor', name: 'Ada' } as const;
  const stayOf = async (database: Database, animalId: string) =>
    (await list(database, scope, STAY)).find((stay) => stay.animalId === animalId)!.id;
  const filesOf = (archive: Uint8Array) =>
    Object.entries(unzipSync(archive)).map(([name, bytes]) => [name, Buffer.from(bytes).toString()] as const);
  let database: Database;
  let [first, second] = ['', ''];
  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await loadDemonstration(database, NOW_MS);
    [first, second] = [await stayOf(database, demoId(11)), await stayOf(database, demoId(12))];
    await setLimit(database, scope, tutor, first, { ruleId: 'over-8', limit: 7.5 });
    await setLimit(database, scope, tutor, first, { ruleId: 'under-2', limit: 1.5 });
    await setLimit(database, scope, tutor, second, { ruleId: 'under-3', limit: 3.5 });
    const secrets = ['push-keys', `limits of ${first}`].map((name) => ({ groupId: scope.groupId, name, value: KEY }));
    await database.kysely
      .insertInto('settings')
      .values([...secrets, { groupId: GROUP.id, name: `limits:${first}`, value: KEY }])
      .execute();
  });
  afterAll(() => database.close());

  it.each(STORES)('go into an empty %s without loss, once, and no other setting goes along', async (store) => {
    const archive = await exported(database);
    for (const [, text] of filesOf(archive)) expect(text).not.toContain(KEY);
    const other = await freshDatabase(store);
    const counts = await importExport(other, archive, { nowMs: NOW_MS });
    expect(counts).toContainEqual({ part: 'stayLimits', rows: 2, taken: 2, differing: 0 });
    for (const stay of [first, second])
      expect(await limitsOf(other, scope, stay)).toEqual(await limitsOf(database, scope, stay));
    const names = (await other.kysely.selectFrom('settings').select('name').execute()).map((row) => row.name);
    expect(names.sort()).toEqual([first, second].sort().map((stay) => `limits:${stay}`));
    const again = await importExport(other, archive, { nowMs: NOW_MS });
    expect(again).toContainEqual({ part: 'stayLimits', rows: 2, taken: 0, differing: 0 });
    // What was set here meanwhile stays, and is counted.
    const mine = await setLimit(other, scope, tutor, second, { ruleId: 'under-3', limit: 4 });
    const third = await importExport(other, archive, { nowMs: NOW_MS });
    expect(third).toContainEqual({ part: 'stayLimits', rows: 2, taken: 0, differing: 1 });
    expect(await limitsOf(other, scope, second)).toEqual(mine);
    await other.close();
  });

  it.each(STORES)('of one animal go along into another group on %s, and those of no other animal', async (store) => {
    const archive = await exported(database, demoId(12));
    for (const [, text] of filesOf(archive)) for (const not of [KEY, first]) expect(text).not.toContain(not);
    const other = await freshDatabase(store);
    await saveGroup(other, GROUP, null, NOW_MS);
    await importExport(other, archive, { intoGroupId: GROUP.id, nowMs: NOW_MS });
    const there = await limitsOf(other, { ...scope, groupId: GROUP.id }, second);
    expect(there).toEqual(await limitsOf(database, scope, second));
    expect(there.limits).toEqual([{ ruleId: 'under-3', limit: 3.5 }]);
    // Who set it goes along by name: the people themselves stay.
    expect(there.changes.map((one) => [one.by, one.direction])).toEqual([['Ada', 'tighter']]);
    expect(await other.kysely.selectFrom('people').select('id').execute()).toEqual([]);
    await other.close();
  });

  const limit = (change: object) => ({ stayId: '', limits: [], changes: [], ...change });
  it.each([
    ['a setting of another name', () => limit({ stayId: first, keys: 'x' }), '.keys'],
    ['a limit beyond the schema', () => limit({ stayId: first, limits: [{ ruleId: 'over-8', limit: 401 }] }), '.limit'],
    [
      'a limit that nobody may set',
      () => limit({ stayId: first, limits: [{ ruleId: 'frost', limit: -1 }] }),
      '.limits[0]',
    ],
    ['a rule that is none', () => limit({ stayId: first, limits: [{ ruleId: 'no-rule', limit: 1 }] }), '.limits[0]'],
    ['a stay that does not come along', () => limit({ stayId: id(77) }), '.stayId'],
  ])('refuse %s and leave nothing behind', async (_, made, where) => {
    const archive = rewritten(await exported(database), 'json/stayLimits.json', () => JSON.stringify([made()]));
    const other = await freshDatabase('sqlite');
    const refused = importExport(other, archive, { nowMs: NOW_MS });
    await expect(refused).rejects.toMatchObject({
      problems: [{ where: expect.stringMatching(new RegExp(`^stayLimits\\[0\\].*${RegExp.escape(where)}$`)) }],
    });
    for (const table of ['groups', 'settings'] as const)
      expect(await other.kysely.selectFrom(table).selectAll().execute()).toEqual([]);
    await other.close();
  });

  it('are missing from an older archive, which goes in all the same', async () => {
    const files = unzipSync(await exported(database));
    const format = JSON.parse(Buffer.from(files['format.json']!).toString());
    format.parts = format.parts.filter((part: { name: string }) => part.name !== 'json/stayLimits.json');
    files['format.json'] = strToU8(JSON.stringify(format));
    const other = await freshDatabase('sqlite');
    await importExport(other, zipSync(files, { level: 1 }), { nowMs: NOW_MS });
    expect((await limitsOf(other, scope, first)).limits).toEqual([]);
    await other.close();
  });
});

describe('readings in an export', () => {
  let database: Database;
  let whole: Uint8Array;
  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await loadDemonstration(database, NOW_MS);
    whole = await exported(database);
  });
  afterAll(() => database.close());
  const ahead = (hours: number) => new Date(NOW_MS + hours * 3_600_000).toISOString();
  const lastPart = (archive: Uint8Array): string =>
    formatOf(archive).parts.findLast(
      (part: { name: string; rows: number }) => part.name.startsWith('readings/') && part.rows > 0,
    ).name;

  it.each([
    ['no temperature', () => `${ahead(0)},,,good,http`],
    ['a word for a temperature', () => `${ahead(0)},cold,,good,http`],
    ['a cell too many', () => `${ahead(0)},5,,good,http,5`],
    ['too few cells', () => `${ahead(0)},5`],
    ['a quality that is none', () => `${ahead(0)},5,,fine,http`],
    ['an instant that is none', () => '2026-13-01T00:00:00Z,5,,good,http'],
    ['an instant before 2000', () => '1999-12-31T23:59:59Z,5,,good,http'],
    ['an instant in the future', () => `${ahead(24.1)},5,,good,http`],
  ])('with %s in the last line of the last part are refused with the line, and nothing stays', async (_, line) => {
    const name = lastPart(whole);
    let lines = 0;
    for (const end of ['\r\n', '']) {
      const bad = rewritten(whole, name, (text) => {
        lines = text.split('\r\n').length;
        return `${text}${line()}${end}`;
      });
      const other = await freshDatabase('sqlite');
      const problem = await importExport(other, bad, { nowMs: NOW_MS }).catch((error) => error);
      expect(JSON.stringify(problem.problems)).toContain(`${name}, ${lines}`);
      for (const table of ['groups', 'animals', 'probes', 'readings'] as const)
        expect(await other.kysely.selectFrom(table).selectAll().execute()).toEqual([]);
      await other.close();
    }
  });

  it.each([
    ['say in the directory that they are smaller', (zip: Buffer, entry: number) => zip.writeUInt32LE(40, entry + 24)],
    [
      'say in the directory that they are larger',
      (zip: Buffer, entry: number) => zip.writeUInt32LE(19_000_000, entry + 24),
    ],
    ['are packed in another way', (zip: Buffer, entry: number) => zip.writeUInt16LE(12, entry + 10)],
    ['lie elsewhere', (zip: Buffer, entry: number) => zip.writeUInt32LE(4, entry + 42)],
  ])('that %s are refused, and nothing stays', async (_, harm) => {
    const archive = Buffer.from(whole);
    // In the directory at the end; before it the name stands at the file itself.
    const entry = archive.lastIndexOf(lastPart(whole)) - 46;
    harm(archive, entry);
    const other = await freshDatabase('sqlite');
    await expect(importExport(other, archive, { nowMs: NOW_MS })).rejects.toThrow('no export');
    for (const table of ['groups', 'readings'] as const)
      expect(await other.kysely.selectFrom(table).selectAll().execute()).toEqual([]);
    await other.close();
  });

  it('with a line that never ends are refused', async () => {
    const endless = rewritten(whole, lastPart(whole), (text) => text + '5'.repeat(1_000_000));
    const other = await freshDatabase('sqlite');
    await expect(importExport(other, endless, { nowMs: NOW_MS })).rejects.toThrow('no export');
    await other.close();
  });

  it('with a last line in order go in with it, ended or not', async () => {
    const name = lastPart(whole);
    for (const end of ['\r\n', '']) {
      const more = rewritten(whole, name, (text) => `${text}${ahead(23.9)},5.25,0.8,suspect,mqtt${end}`);
      const other = await freshDatabase('sqlite');
      await importExport(other, more, { nowMs: NOW_MS });
      const row = await other.kysely.selectFrom('readings').selectAll().orderBy('atMs', 'desc').executeTakeFirst();
      expect(row).toMatchObject({ atMs: NOW_MS + 23.9 * 3_600_000, tempC: 5.25, humidity: 0.8, quality: 1, source: 3 });
      await other.close();
    }
  });

  it('of a probe that another group keeps here are refused before any record goes in', async () => {
    const archive = await exported(database, demoId(12));
    await saveGroup(database, GROUP, null, NOW_MS);
    const before = await sumsOf(database);
    await expect(importExport(database, archive, { intoGroupId: GROUP.id, nowMs: NOW_MS })).rejects.toThrow('probe');
    expect(await sumsOf(database)).toEqual(before);
  });

  it.each(STORES)('go into %s in blocks, those of a deleted probe with them', async (store) => {
    const probe = (await list(database, scope, PROBE)).find((one) => one.id === demoId(52))!;
    const archive = rewritten(whole, `readings/${probe.id}.csv`, (text) => {
      const early = Date.parse('2020-01-01T00:00:00Z');
      const lines = Array.from(
        { length: 25_000 },
        (_, index) => `${new Date(early + index * 60_000).toISOString()},${(index % 97) / 10},,good,csv\r\n`,
      );
      return text + lines.join('');
    });
    const deleted = rewritten(archive, 'json/probes.json', (text) =>
      JSON.stringify(
        JSON.parse(text).map((row: { id: string }) => (row.id === probe.id ? { ...row, deletedAtMs: NOW_MS } : row)),
      ),
    );
    const other = await freshDatabase(store);
    const counts = await importExport(other, deleted, { nowMs: NOW_MS });
    const held = (await sumsOf(database)).get('readings')!.rows;
    expect((await sumsOf(other)).get('readings')!.rows).toBe(held + 25_000);
    const taken = counts.filter((part) => part.part.startsWith('readings/')).reduce((sum, part) => sum + part.taken, 0);
    expect(taken).toBe(held + 25_000);
    const early = Date.parse('2020-01-01T00:00:00Z');
    const read = await readingsBetween(other, probe.id, early, early + 25_000 * 60_000);
    expect(read.map((one) => one.tempC)).toEqual(Array.from({ length: 25_000 }, (_, index) => (index % 97) / 10));
    const again = await importExport(other, deleted, { nowMs: NOW_MS });
    expect(again.reduce((sum, part) => sum + part.taken, 0)).toBe(0);
    await other.close();
  });
});

/** The archive with one part changed, its checksum with it. */
function rewritten(archive: Uint8Array, name: string, change: (text: string) => string): Uint8Array {
  const files = unzipSync(archive);
  const format = formatOf(archive);
  const text = change(Buffer.from(files[name]!).toString());
  files[name] = strToU8(text);
  format.parts.find((part: { name: string }) => part.name === name).sha256 = sha256(text);
  files['format.json'] = strToU8(JSON.stringify(format));
  return zipSync(files, { level: 1 });
}

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

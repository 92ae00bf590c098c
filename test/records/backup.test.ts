import { existsSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backupFolder, listBackups, makeBackup, newestGoodBackup, restoreBackup } from '../../src/records/backup.ts';
import { databaseFile, openDatabase } from '../../src/records/database.ts';
import { change, list, make } from '../../src/records/entries.ts';
import { faultsOf } from '../../src/records/file-check.ts';
import { ANIMAL, DIARY } from '../../src/records/kinds.ts';
import { id, NOW_MS, SCOPE, SEDGE, smallGroup } from './given.ts';

const DAY_MS = 86_400_000;

describe('backups', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it('bring back what stood there when they were made, and keep what they replace', async () => {
    const database = await openDatabase({ dataFolder: folder });
    await smallGroup(database);
    const backup = await makeBackup(database, backupFolder(folder), NOW_MS);
    await change(database, SCOPE, ANIMAL, { ...SEDGE, name: 'Renamed since' });
    await database.close();
    const old = restoreBackup(folder, backup.file, NOW_MS)!;
    expect(existsSync(old)).toBe(true);
    const again = await openDatabase({ dataFolder: folder });
    expect((await list(again, SCOPE, ANIMAL)).map((animal) => animal.name)).toEqual(['Sedge']);
    await again.close();
  });

  it('are whole also when writes go on while they are made', async () => {
    const database = await openDatabase({ dataFolder: folder });
    await smallGroup(database);
    const copying = makeBackup(database, backupFolder(folder), NOW_MS);
    for (let i = 0; i < 50; i++)
      await make(database, SCOPE, DIARY, {
        id: id(1000 + i),
        animalId: SEDGE.id,
        at: '2026-12-01T08:00:00Z',
        kind: 'moved',
      });
    const backup = await copying;
    expect(faultsOf(backup.file)).toEqual([]);
    await database.close();
  });

  it('thin out with age: days, then weeks, then months, and never the ones of a clock that was ahead', async () => {
    const database = await openDatabase({ dataFolder: folder });
    await smallGroup(database);
    const to = backupFolder(folder);
    await makeBackup(database, to, NOW_MS + 400 * DAY_MS);
    for (let day = 0; day < 100; day++) await makeBackup(database, to, NOW_MS + day * DAY_MS);
    const ages = listBackups(to).map((backup) => Math.round((NOW_MS + 99 * DAY_MS - backup.madeAtMs) / DAY_MS));
    expect(ages[0]).toBe(-301);
    expect(ages.slice(1, 8)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(ages.length).toBeLessThan(7 + 5 + 12 + 1);
    expect(Math.max(...ages)).toBeGreaterThan(60);
    await database.close();
  });

  it('that are damaged are passed over, and refused by name when asked for', async () => {
    const database = await openDatabase({ dataFolder: folder });
    await smallGroup(database);
    const to = backupFolder(folder);
    const sound = await makeBackup(database, to, NOW_MS);
    const cut = await makeBackup(database, to, NOW_MS + DAY_MS);
    await database.close();
    truncateSync(cut.file, cut.bytes / 2);
    expect(newestGoodBackup(to)!.file).toBe(sound.file);
    const before = readFileSync(databaseFile(folder));
    expect(() => restoreBackup(folder, cut.file, NOW_MS)).toThrow('not sound');
    writeFileSync(join(folder, 'letter.sqlite'), 'not a database at all, only a long enough letter'.repeat(40));
    expect(() => restoreBackup(folder, join(folder, 'letter.sqlite'), NOW_MS)).toThrow('not sound');
    expect(readFileSync(databaseFile(folder)).equals(before)).toBe(true);
  });
});

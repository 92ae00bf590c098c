import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backupFolder, makeBackup } from '../../src/records/backup.ts';
import { databaseFile, openDatabase } from '../../src/records/database.ts';
import { change, list, make, read } from '../../src/records/entries.ts';
import { ANIMAL, DIARY } from '../../src/records/kinds.ts';
import { createApp } from '../../src/server/app.ts';
import { startServer } from '../../src/server/start.ts';
import { id, NOW_MS, SCOPE, SEDGE, smallGroup } from '../records/given.ts';
import { testApp } from '../server/given.ts';
import { counted, MORE } from './counted.ts';
import { kill, killRounds, serverProcess } from './harness.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'stillwinter-fault-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A repeatable stream of numbers from 0 to 1. */
function randomOf(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
    return state / 4_294_967_296;
  };
}

const entry = (number: number) => ({
  id: id(number),
  animalId: SEDGE.id,
  at: '2026-12-01T08:00:00Z',
  kind: 'moved' as const,
});

describe('a server killed in the middle of its writes', () => {
  it('has everything it acknowledged after the next start, in a sound file', async () => {
    const count = await killRounds(folder, 6, randomOf(7));
    expect(count).toMatchObject({ rounds: 6, lost: 0, unsound: 0 });
    expect(count.acknowledged).toBeGreaterThan(50);
    counted('killed', count.rounds, {
      'records acknowledged': count.acknowledged,
      'of them lost': count.lost,
      'unsound files': count.unsound,
    });
  });
});

describe('two servers', MORE, () => {
  it('cannot use one folder: the second says so and touches nothing; when the first is killed the next may', async () => {
    const first = await serverProcess(folder);
    await expect(startServer({ dataFolder: folder, port: 0 })).rejects.toThrow('already using this data folder');
    expect((await fetch(`${first.address}/health`)).status).toBe(200);
    await kill(first);
    const next = await startServer({ dataFolder: folder, port: 0 });
    await next.stop();
    counted('one-folder', 1, { 'second servers refused': 1, 'starts after the first was killed': 1 });
  });

  it('cannot use one port: the second says so and lets its folder go', async () => {
    const first = await startServer({ dataFolder: folder, port: 0 });
    const other = join(folder, 'other');
    await expect(startServer({ dataFolder: other, port: first.port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
    const next = await startServer({ dataFolder: other, port: 0 });
    await next.stop();
    await first.stop();
  });
});

describe('a damaged file', MORE, () => {
  async function furnished(): Promise<string> {
    const database = await openDatabase({ dataFolder: folder });
    await smallGroup(database);
    for (let i = 0; i < 400; i++) await make(database, SCOPE, DIARY, entry(1000 + i));
    const backup = await makeBackup(database, backupFolder(folder), NOW_MS);
    await database.close();
    return backup.file;
  }

  it('is refused at the start with the newest good backup by name, and stays as it is', async () => {
    const backup = await furnished();
    const file = databaseFile(folder);
    writeFileSync(file, Buffer.alloc(statSync(file).size, 'x'));
    const before = readFileSync(file);
    await expect(startServer({ dataFolder: folder, port: 0 })).rejects.toThrow(backup);
    expect(readFileSync(file).equals(before)).toBe(true);
    counted('damaged-whole', 1, { 'starts refused, naming the newest good backup': 1, 'files changed by it': 0 });
  });

  it('that still opens is found by the check after the start: reading goes on, writing is refused', async () => {
    const backup = await furnished();
    const file = databaseFile(folder);
    const handle = openSync(file, 'r+');
    // The last pages hold rows written late; the first ones, which opening needs, stay whole.
    const page = 4096;
    const late = Math.floor((statSync(file).size / page) * 0.85);
    for (let i = 0; i < 8; i++) writeSync(handle, Buffer.alloc(page, 0x5a), 0, page, (late + i) * page);
    closeSync(handle);
    const faults: unknown[] = [];
    const server = await startServer({ dataFolder: folder, port: 0, onFault: (fault) => faults.push(fault) });
    const health = async () => (await (await fetch(`${server.address}/health`)).json()) as { integrity: string };
    await expect.poll(async () => (await health()).integrity, { timeout: 10_000 }).toBe('damaged');
    expect(String(faults[0])).toContain(backup);
    const refused = await fetch(`${server.address}/api/v1/animals`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ ...SEDGE, id: id(5000) }),
    });
    expect(refused.status).toBe(503);
    expect(await refused.json()).toMatchObject({
      type: '/problems/database-damaged',
      detail: expect.stringContaining(backup),
    });
    expect((await fetch(`${server.address}/api/v1/group`)).status).toBe(200);
    await server.stop();
    counted('damaged-pages', 1, {
      'found by the check after the start': 1,
      'writes refused, naming the newest good backup': 1,
      'reads answered': 1,
    });
  });
});

describe('a disk that takes nothing more', MORE, () => {
  const cases = [
    ['full', 'disk-full', 'max_page_count = 1', 'max_page_count = 1000000'],
    ['read-only', 'read-only-disk', 'query_only = ON', 'query_only = OFF'],
  ] as const;
  it.each(cases)(
    '(%s) is told in plain words, nothing is half saved, and it goes on when it can',
    async (_, type, trouble, cure) => {
      const database = await openDatabase({ dataFolder: folder });
      await smallGroup(database);
      const context = { database, nowMs: () => NOW_MS, dataFolder: folder };
      const heard: unknown[] = [];
      const app = createApp({ context, webFolder: '/nowhere', onFault: (error) => heard.push(error) });
      const note = 'x'.repeat(3900);
      const post = (number: number) =>
        app.request(`/api/v1/animals/${SEDGE.id}/diary`, {
          method: 'POST',
          headers: { host: 'localhost', 'content-type': 'application/json' },
          body: JSON.stringify({ ...entry(number), note }),
        });
      database.sqlite!.pragma(trouble);
      let refused: Response | undefined;
      let kept = 0;
      for (let i = 0; i < 300 && !refused; i++) {
        const answer = await post(2000 + i);
        if (answer.status === 200) kept += 1;
        else refused = answer;
      }
      expect(await refused!.json()).toMatchObject({ status: 507, type: `/problems/${type}` });
      expect(heard).toHaveLength(1);
      const there = (await list(database, SCOPE, DIARY)).length;
      expect(there).toBe(kept);
      const trail = await database.kysely.selectFrom('changes').select('id').where('kind', '=', 'diary').execute();
      expect(trail).toHaveLength(kept);
      database.sqlite!.pragma(cure);
      expect((await post(2999)).status).toBe(200);
      await database.close();
      counted(type, 1, {
        'writes kept before it': kept,
        'of them lost': kept - there,
        'half saved': trail.length - there,
        'refused in plain words': 1,
        'writes once it can again': 1,
      });
    },
  );
});

describe('a clock set back by a year', MORE, () => {
  it('loses no edit, no order of edits and nobody’s way in', async () => {
    const database = await openDatabase({ dataFolder: folder });
    await smallGroup(database);
    const { ask } = testApp(database, () => NOW_MS - 366 * 86_400_000);
    const path = `animals/${SEDGE.id}`;
    expect((await ask('PUT', path, { ...SEDGE, notes: 'with the clock back', revision: 1 })).body.revision).toBe(2);
    await change(database, SCOPE, ANIMAL, { ...SEDGE, notes: 'with the clock right again', revision: 2 });
    expect(await read(database, SCOPE, ANIMAL, SEDGE.id)).toMatchObject({
      revision: 3,
      notes: 'with the clock right again',
    });
    const trail = await database.kysely
      .selectFrom('changes')
      .select(['revision'])
      .where('recordId', '=', SEDGE.id)
      .orderBy('revision')
      .execute();
    expect(trail.map((row) => row.revision)).toEqual([1, 2, 3]);
    const person = { id: id(900), name: 'Ada', signInName: 'ada', passphrase: 'plain copper kettle' };
    const made = await ask('POST', 'session/set-up', person);
    const cookie = { cookie: made.headers.get('set-cookie')!.split(';')[0]! };
    expect((await ask('GET', 'animals', undefined, cookie)).status).toBe(200);
    await database.close();
    counted('clock-back', 1, { 'edits made': 2, 'of them lost or out of order': 0, 'sign-ins that hold': 1 });
  });
});

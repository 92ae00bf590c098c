import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, statSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSession } from '../../src/access/sessions.ts';
import { backupFolder, makeBackup } from '../../src/records/backup.ts';
import { databaseFile, openDatabase } from '../../src/records/database.ts';
import { change, list, make, read } from '../../src/records/entries.ts';
import { ANIMAL, DIARY } from '../../src/records/kinds.ts';
import { createApp } from '../../src/server/app.ts';
import { startServer } from '../../src/server/start.ts';
import { id, NOW_MS, SCOPE, SEDGE, smallGroup } from '../records/given.ts';
import { testApp } from '../server/given.ts';
import { counted, MORE } from './counted.ts';
import { kill, killRounds, send, serverProcess } from './harness.ts';

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

/** Tries something so many times, and says with which words it was refused; what is not refused is missing from the answer. */
async function refusals(times: number, tried: () => Promise<unknown>): Promise<string[]> {
  const words: string[] = [];
  for (let i = 0; i < times; i++)
    await tried().catch((error: Error) => {
      words.push(error.message);
    });
  return words;
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
    const second = await refusals(3, () => startServer({ dataFolder: folder, port: 0 }));
    expect(second).toEqual(Array(3).fill(expect.stringContaining('already using this data folder')));
    expect((await fetch(`${first.address}/health`)).status).toBe(200);
    await kill(first);
    const next = await startServer({ dataFolder: folder, port: 0 });
    const started = [(await fetch(`${next.address}/health`)).status];
    expect(started).toEqual([200]);
    await next.stop();
    counted('one-folder', 1, {
      'second servers started': 3,
      'of them refused': second.length,
      'starts after the first was killed': started.length,
    });
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
    const refused = await refusals(3, () => startServer({ dataFolder: folder, port: 0 }));
    expect(refused).toEqual(Array(3).fill(expect.stringContaining(backup)));
    const changed = [file].filter((one) => !readFileSync(one).equals(before));
    expect(changed).toEqual([]);
    counted('damaged-whole', 1, {
      'starts tried': 3,
      'of them refused, naming the newest good backup': refused.length,
      'files changed by it': changed.length,
    });
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
    expect(faults.map(String)).toEqual([expect.stringContaining(backup)]);
    const refused: unknown[] = [];
    const read: number[] = [];
    for (let i = 0; i < 5; i++) {
      const answer = await send(server.address, 'POST', 'animals', { ...SEDGE, id: id(5000 + i) });
      if (answer.status === 503) refused.push(await answer.json());
      read.push((await fetch(`${server.address}/api/v1/group`)).status);
    }
    const told = { type: '/problems/database-damaged', detail: expect.stringContaining(backup) };
    expect(refused).toEqual(Array(5).fill(expect.objectContaining(told)));
    expect(read).toEqual(Array(5).fill(200));
    await server.stop();
    counted('damaged-pages', 1, {
      'found by the check after the start': faults.length,
      'writes tried': 5,
      'of them refused, naming the newest good backup': refused.length,
      'reads answered': read.length,
    });
  });
});

describe('a disk that takes nothing more', MORE, () => {
  const cases = [
    ['full', 'disk-full', (pages: number) => `max_page_count = ${pages + 20}`, 'max_page_count = 1000000'],
    ['read-only', 'read-only-disk', () => 'query_only = ON', 'query_only = OFF'],
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
      const acknowledged = new Set<string>();
      const refused: { number: number; told: unknown }[] = [];
      const write = async (number: number) => {
        const answer = await post(number);
        if (answer.status === 200) acknowledged.add(id(number));
        else refused.push({ number, told: await answer.json() });
      };
      for (let i = 0; i < 10; i++) await write(2000 + i);
      expect(refused).toEqual([]);
      database.sqlite!.pragma(trouble(Number(database.sqlite!.pragma('page_count', { simple: true }))));
      for (let i = 10; i < 300 && refused.length < 5; i++) await write(2000 + i);
      const told = { status: 507, type: `/problems/${type}` };
      expect(refused.map((one) => one.told)).toEqual(Array(5).fill(expect.objectContaining(told)));
      expect(heard).toHaveLength(refused.length);
      const found = async () => {
        const there = new Set((await list(database, SCOPE, DIARY)).map((one) => one.id));
        const trail = await database.kysely.selectFrom('changes').select('id').where('kind', '=', 'diary').execute();
        return {
          lost: [...acknowledged].filter((one) => !there.has(one)).length,
          halfSaved: [...there].filter((one) => !acknowledged.has(one)).length + Math.abs(trail.length - there.size),
        };
      };
      const [before, during] = [acknowledged.size, await found()];
      expect(during).toEqual({ lost: 0, halfSaved: 0 });
      database.sqlite!.pragma(cure);
      for (const { number } of [...refused]) await write(number);
      const after = await found();
      expect(after).toEqual({ lost: 0, halfSaved: 0 });
      expect(acknowledged.size).toBe(before + 5);
      await database.close();
      counted(type, 1, {
        'writes acknowledged': acknowledged.size,
        'of them lost': during.lost + after.lost,
        'writes refused in plain words': refused.length,
        'of them half saved': during.halfSaved + after.halfSaved,
        'of them taken once it could again': acknowledged.size - before,
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
    const edits: string[] = [];
    for (let revision = 1; revision <= 10; revision++) {
      const notes = `edit ${revision}`;
      if (revision % 2 === 1) expect((await ask('PUT', path, { ...SEDGE, notes, revision })).status).toBe(200);
      else await change(database, SCOPE, ANIMAL, { ...SEDGE, notes, revision });
      edits.push(notes);
    }
    expect(await read(database, SCOPE, ANIMAL, SEDGE.id)).toMatchObject({ revision: 11, notes: 'edit 10' });
    const trail = await database.kysely
      .selectFrom('changes')
      .select(['revision', 'after'])
      .where('recordId', '=', SEDGE.id)
      .where('revision', '>', 1)
      .orderBy('revision')
      .execute();
    const wrong = edits.filter((notes, index) => JSON.parse(String(trail[index]?.after)).notes !== notes);
    expect(wrong).toEqual([]);
    const person = { id: id(900), name: 'Ada', signInName: 'ada', passphrase: 'plain copper kettle' };
    const made = await ask('POST', 'session/set-up', person);
    const cookie = { cookie: made.headers.get('set-cookie')!.split(';')[0]! };
    const before = { cookie: `stillwinter_session=${await openSession(database, person.id, undefined, NOW_MS)}` };
    const right = testApp(database).ask;
    const seen = [
      await ask('GET', 'animals', undefined, cookie),
      await ask('GET', 'animals', undefined, before),
      await right('GET', 'animals', undefined, before),
    ];
    expect(seen.map((answer) => answer.status)).toEqual([200, 200, 200]);
    await database.close();
    counted('clock-back', 1, {
      'edits made': edits.length,
      'of them lost or out of order': wrong.length,
      'questions of people signed in before and since': seen.length,
      'of them answered': seen.filter((answer) => answer.status === 200).length,
    });
  });
});

import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statfsSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it, onTestFinished } from 'vitest';
import { databaseFile } from '../../src/records/database.ts';
import { faultsOf } from '../../src/records/file-check.ts';
import { id, SEDGE } from '../records/given.ts';
import { type SmallDisk, smallDisk } from '../support/small-disk.ts';
import { counted, MORE } from './counted.ts';
import { BIN, furnish, kill, type ServerProcess, send, serverProcess } from './harness.ts';

const START_MS = Date.parse('2026-01-01T00:00:00Z');
const at = (second: number) => new Date(START_MS + second * 1000).toISOString();

/** Why a kind of disk cannot be mounted here; undefined where it can. */
async function missing(kind: 'memory' | 'ext4'): Promise<string | undefined> {
  const disk = await smallDisk(kind, 8192);
  if (typeof disk === 'string') return disk;
  await disk.stop();
  return undefined;
}
const noMemory = await missing('memory');
const noExt4 = await missing('ext4');
const named = (name: string, why: string | undefined) => (why === undefined ? name : `${name} (not here: ${why})`);

async function mounted(kind: 'memory' | 'ext4', sizeKb: number): Promise<SmallDisk> {
  const disk = await smallDisk(kind, sizeKb);
  if (typeof disk === 'string') throw new Error(disk);
  onTestFinished(() => disk.stop());
  return disk;
}

/** A server on the disk that ends before the disk does. */
async function serving(disk: SmallDisk): Promise<ServerProcess> {
  const server = await serverProcess(disk.folder, disk.enter);
  onTestFinished(async () => void (await ended(server, 'SIGKILL')));
  return server;
}

async function ended(server: ServerProcess, signal: NodeJS.Signals = 'SIGTERM'): Promise<number | null> {
  if (server.process.exitCode === null && server.process.signalCode === null) {
    const gone = once(server.process, 'exit');
    server.process.kill(signal);
    await gone;
  }
  return server.process.exitCode;
}

const freeBytes = (disk: SmallDisk) => {
  const { bavail, bsize } = statfsSync(disk.seen());
  return bavail * bsize;
};

/** Diary entries (the even numbers) and batches of readings (the odd ones), and what became of each. */
class Writer {
  readonly entries = new Set<string>();
  readonly refusedEntries: string[] = [];
  readings = 0;
  refused = 0;
  readonly answers = new Set<string>();
  private next = 10_000;
  private second = 0;

  async write(address: string): Promise<boolean> {
    const number = this.next++;
    const entryId = id(number);
    const isEntry = number % 2 === 0;
    const answer = isEntry ? await this.entry(address, entryId) : await this.batch(address);
    const { type, title, detail } = (await answer.json()) as Record<string, string>;
    if (answer.ok) {
      if (isEntry) this.entries.add(entryId);
      else this.readings += 200;
      return true;
    }
    this.refused += 1;
    if (isEntry) this.refusedEntries.push(entryId);
    this.answers.add(`${answer.status} ${answer.headers.get('content-type')} ${type} ${title}: ${detail}`);
    return false;
  }

  entry(address: string, entryId: string): Promise<Response> {
    const entry = { id: entryId, animalId: SEDGE.id, at: at(60), kind: 'moved', note: 'x'.repeat(2000) };
    return send(address, 'POST', `animals/${SEDGE.id}/diary`, entry);
  }

  private batch(address: string): Promise<Response> {
    const one = () => ({ probeId: id(3), at: at(this.second++), tempC: 4.5, quality: 'good', source: 'http' });
    return send(address, 'POST', 'readings', Array.from({ length: 200 }, one));
  }

  /** What the server has: acknowledged and not there, and refused but there all the same. */
  async compare(address: string): Promise<{ lost: number; halfSaved: number }> {
    const get = async (path: string) => (await fetch(`${address}/api/v1/${path}`)).json();
    const diary = new Set(((await get(`animals/${SEDGE.id}/diary`)) as { id: string }[]).map((entry) => entry.id));
    const path = `readings?probeId=${id(3)}&from=${at(0)}&to=${at(this.second)}&buckets=4000`;
    const { count } = (await get(path)) as { count: number };
    return {
      lost: [...this.entries].filter((one) => !diary.has(one)).length + Math.max(0, this.readings - count),
      halfSaved: this.refusedEntries.filter((one) => diary.has(one)).length + Math.max(0, count - this.readings),
    };
  }
}

const integrity = async (address: string) =>
  ((await (await fetch(`${address}/health`)).json()) as { integrity: string }).integrity;

describe('a real disk that is full', MORE, () => {
  const picture = sharp({ create: { width: 64, height: 48, channels: 3, background: '#7a8b6f' } })
    .jpeg()
    .toBuffer();
  // SQLite carries its log over once it holds 4 MB.
  const cases = [
    ['before the log of the database is carried over', 2_500_000],
    ['while the log of the database is carried over', 6_500_000],
  ] as const;
  it.skipIf(noMemory).each(cases)(
    named('%s: says so, keeps what it acknowledged, lives, and goes on when there is room', noMemory),
    async (_, room) => {
      const disk = await mounted('memory', 24_576);
      let server = await serving(disk);
      await furnish(server.address);
      const filler = disk.seen('filler');
      writeFileSync(filler, Buffer.alloc(freeBytes(disk) - room));
      const writer = new Writer();
      for (let i = 0; i < 2000 && writer.refused < 20; i++) await writer.write(server.address);
      expect(writer.entries.size).toBeGreaterThan(20);
      expect(writer.refusedEntries.length).toBeGreaterThan(5);
      expect([...writer.answers]).toEqual([
        '507 application/problem+json /problems/disk-full The disk is full: The disk of the server is full. Nothing was saved. Make room, then try again.',
      ]);
      const full = await writer.compare(server.address);
      expect(full).toEqual({ lost: 0, halfSaved: 0 });

      // Whatever makes a file of its own takes it away again: a little room is left for each to begin with.
      truncateSync(filler, statSync(filler).size - 200_000);
      const free = freeBytes(disk);
      expect(free).toBeGreaterThan(0);
      const api = `${server.address}/api/v1`;
      const post = async (path: string, type: string, body: Uint8Array | string) => {
        const headers = { 'content-type': type, connection: 'close' };
        return fetch(`${api}/${path}`, { method: 'POST', headers, body: body as BodyInit });
      };
      const big = 'time,temperature\n'.padEnd(1_000_000, '2026-01-01 00:00,4.5\n');
      const leftovers = [
        await post('backups', 'application/json', '{}'),
        await post(`imports?id=${id(900)}`, 'text/csv', big),
        await post(`archives?id=${id(901)}`, 'application/zip', big),
      ];
      for (const answer of leftovers)
        expect([answer.status, ((await answer.json()) as { type: string }).type]).toEqual([507, '/problems/disk-full']);
      const left = ['backups', 'archives', 'uploads', 'imports'].flatMap((folder) =>
        existsSync(disk.seen(folder)) ? readdirSync(disk.seen(folder)) : [],
      );
      expect(left).toEqual([]);
      expect(freeBytes(disk)).toBeGreaterThan(free - 20_000);

      writeFileSync(disk.seen('rest'), Buffer.alloc(Math.max(0, freeBytes(disk))));
      const photographs = `animals/${SEDGE.id}/photographs`;
      const sent = await post(`${photographs}?id=${id(902)}`, 'image/jpeg', new Uint8Array(await picture));
      expect(sent.status).toBe(507);
      expect((await fetch(`${api}/archive`)).status).toBe(507);
      expect(readdirSync(disk.seen('archives'))).toEqual([]);
      expect(await (await fetch(`${api}/${photographs}`)).json()).toEqual([]);

      await kill(server);
      server = await serving(disk);
      const again = await writer.compare(server.address);
      expect(again).toEqual({ lost: 0, halfSaved: 0 });
      expect(await writer.write(server.address)).toBe(false);
      await expect.poll(() => integrity(server.address), { timeout: 20_000 }).toBe('good');

      rmSync(filler);
      rmSync(disk.seen('rest'));
      let afterwards = 0;
      for (let i = 0; i < 20; i++) if (await writer.write(server.address)) afterwards += 1;
      expect(afterwards).toBe(20);
      const resent = writer.refusedEntries.splice(0, 5);
      for (const entryId of resent) {
        expect((await writer.entry(server.address, entryId)).status).toBe(200);
        writer.entries.add(entryId);
      }
      const [made] = ((await (await send(server.address, 'POST', 'backups', {})).json()) as { backups: object[] })
        .backups;
      expect(made).toBeDefined();
      const last = await writer.compare(server.address);
      expect(last).toEqual({ lost: 0, halfSaved: 0 });
      expect(await ended(server)).toBe(0);
      // Looked at in a copy: SQLite does not open a file behind the mount of another.
      const copy = mkdtempSync(join(tmpdir(), 'stillwinter-copy-'));
      onTestFinished(() => rmSync(copy, { recursive: true }));
      cpSync(disk.seen(), copy, { recursive: true });
      const unsound = [
        databaseFile(copy),
        ...readdirSync(join(copy, 'backups')).map((name) => join(copy, 'backups', name)),
      ]
        .map((file) => faultsOf(file))
        .filter((faults) => faults.length > 0);
      expect(unsound).toEqual([]);
      counted('disk-full-real', 1, {
        'writes acknowledged': writer.entries.size + writer.readings / 200,
        'of them lost': full.lost + again.lost + last.lost,
        'writes refused in plain words': writer.refused,
        'of them half saved': full.halfSaved + again.halfSaved + last.halfSaved,
        'half-made backups, archives and uploads left': left.length,
        'writes taken after room was made': afterwards + resent.length,
        'unsound files': unsound.length,
      });
    },
  );
});

describe('a real disk that takes no write', MORE, () => {
  const sentence = (folder: string) => `Nothing can be written in the data folder ${folder}`;

  it.skipIf(noMemory)(
    named('at the start: is told with what to do, nothing is changed, and a copy elsewhere has everything', noMemory),
    async () => {
      const disk = await mounted('memory', 16_384);
      let [refused, lost] = [0, 0];
      const refusedToStart = async (folder: string) => {
        disk.remount('ro');
        await expect(serverProcess(folder, disk.enter)).rejects.toThrow(sentence(folder));
        refused += 1;
      };
      await refusedToStart(disk.folder);
      await refusedToStart(join(disk.folder, 'below'));
      disk.remount('rw');
      const writer = new Writer();
      for (const stop of ['SIGKILL', 'SIGTERM'] as const) {
        const server = await serving(disk);
        await furnish(server.address);
        for (let i = 0; i < 20; i++) expect(await writer.write(server.address)).toBe(true);
        await ended(server, stop);
        await refusedToStart(disk.folder);
        const [command, ...rest] = [...disk.enter, process.execPath, BIN, 'backup', '--data', disk.folder, '--json'];
        const said = spawnSync(command!, rest, {
          encoding: 'utf8',
          env: { ...process.env, STILLWINTER_DATABASE_URL: '' },
        });
        expect(said.status).toBe(1);
        expect(said.stderr).toMatch(/Nothing can be written in the data folder|The disk cannot be written/);
        const copy = mkdtempSync(join(tmpdir(), 'stillwinter-copy-'));
        onTestFinished(() => rmSync(copy, { recursive: true }));
        cpSync(disk.seen(), copy, { recursive: true });
        const elsewhere = await serverProcess(copy);
        onTestFinished(async () => void (await ended(elsewhere, 'SIGKILL')));
        const copied = await writer.compare(elsewhere.address);
        expect(copied).toEqual({ lost: 0, halfSaved: 0 });
        lost += copied.lost;
        await ended(elsewhere);
        disk.remount('rw');
      }
      const server = await serving(disk);
      const there = await writer.compare(server.address);
      expect(there).toEqual({ lost: 0, halfSaved: 0 });
      counted('read-only-at-start', refused, {
        'starts refused in plain words': refused,
        'writes acknowledged before': writer.entries.size + writer.readings / 200,
        'of them lost, there or in a copy elsewhere': lost + there.lost,
      });
    },
  );

  it.skipIf(noExt4)(
    named('while the server runs (ext4 after a fault of its own): writes are refused, reading goes on', noExt4),
    async () => {
      const disk = await mounted('ext4', 65_536);
      const server = await serving(disk);
      await furnish(server.address);
      const writer = new Writer();
      for (let i = 0; i < 20; i++) expect(await writer.write(server.address)).toBe(true);
      disk.remount('abort');
      for (let i = 0; i < 20; i++) expect(await writer.write(server.address)).toBe(false);
      const backup = await send(server.address, 'POST', 'backups', {});
      expect(await backup.json()).toMatchObject({ status: 507, type: '/problems/read-only-disk' });
      expect([...writer.answers]).toEqual([
        '507 application/problem+json /problems/read-only-disk The disk cannot be written: The disk of the server cannot be written. Nothing was saved. Check the disk and who may write in the data folder.',
      ]);
      const found = await writer.compare(server.address);
      expect(found).toEqual({ lost: 0, halfSaved: 0 });
      expect(await ended(server)).toBe(0);
      await expect(serverProcess(disk.folder, disk.enter)).rejects.toThrow(sentence(disk.folder));
      counted('read-only-real', 1, {
        'writes acknowledged': writer.entries.size + writer.readings / 200,
        'of them lost': found.lost,
        'writes refused in plain words': writer.refused,
        'of them half saved': found.halfSaved,
      });
    },
  );
});

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { databaseFile } from '../../src/records/database.ts';
import { faultsOf } from '../../src/records/file-check.ts';
import { GROUP, id, SEDGE } from '../records/given.ts';

export const BIN = join(import.meta.dirname, '..', '..', 'bin', 'stillwinter.mjs');

export interface ServerProcess {
  readonly address: string;
  readonly process: ChildProcess;
}

/**
 * Starts `stillwinter serve` as a command, behind `enter` where that is given, and resolves when it answers. Rejects with what it said when
 * it ends before that.
 */
export async function serverProcess(folder: string, enter: readonly string[] = []): Promise<ServerProcess> {
  const [command, ...rest] = [...enter, process.execPath, BIN, 'serve', '--data', folder, '--port', '0', '--json'];
  const child = spawn(command!, rest, {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, STILLWINTER_DATABASE_URL: '' },
  });
  let said = '';
  child.stderr.on('data', (chunk) => {
    said += chunk;
  });
  const address = await new Promise<string>((done, failed) => {
    child.stdout.once('data', (chunk) => {
      const { address } = JSON.parse(String(chunk)) as { address?: string };
      if (address !== undefined) done(address);
    });
    child.once('close', () => failed(new Error(said)));
  });
  return { address, process: child };
}

export async function kill(server: ServerProcess): Promise<void> {
  const gone = once(server.process, 'exit');
  server.process.kill('SIGKILL');
  await gone;
}

export const send = (address: string, method: string, path: string, body: unknown): Promise<Response> =>
  fetch(`${address}/api/v1/${path}`, {
    method,
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

/** A group with Sedge and an outdoor probe `id(3)`. */
export async function furnish(address: string): Promise<void> {
  await send(address, 'PUT', 'group', GROUP);
  await send(address, 'POST', 'animals', SEDGE);
  await send(address, 'POST', 'probes', {
    id: id(3),
    name: 'Outdoors',
    outdoors: true,
    offsetC: 0,
    expectedIntervalS: 60,
  });
}

export interface KillCount {
  readonly rounds: number;
  readonly acknowledged: number;
  readonly lost: number;
  readonly unsound: number;
}

/**
 * Kills a server with signal 9 in the middle of its writes, again and again, and starts it anew each time. Counts what was
 * acknowledged and is gone afterwards, and files that fail their integrity check; both must stay 0.
 */
export async function killRounds(folder: string, rounds: number, random: () => number): Promise<KillCount> {
  let next = 10_000;
  let acknowledged = 0;
  let lost = 0;
  let unsound = 0;
  let made = 0;
  const START_MS = Date.parse('2026-01-01T00:00:00Z');
  let server = await serverProcess(folder);
  await furnish(server.address);
  for (let round = 0; round < rounds; round++) {
    const entries: string[] = [];
    const readings: string[] = [];
    const { address } = server;
    let dead = false;
    const writer = async (write: () => Promise<void>) => {
      while (!dead) await write().catch(() => undefined);
    };
    const at = (number: number) => new Date(START_MS + number * 1000).toISOString();
    const writers = [
      writer(async () => {
        const entryId = id(next++);
        const entry = { id: entryId, animalId: SEDGE.id, at: at(next), kind: 'moved' };
        if ((await send(address, 'POST', `animals/${SEDGE.id}/diary`, entry)).ok) entries.push(entryId);
      }),
      writer(async () => {
        const instants = Array.from({ length: 20 }, () => at(next++));
        const batch = instants.map((instant) => ({
          probeId: id(3),
          at: instant,
          tempC: 4.5,
          quality: 'good',
          source: 'http',
        }));
        if ((await send(address, 'POST', 'readings', batch)).ok) readings.push(...instants);
      }),
    ];
    // On a busy machine the first answer takes long: most rounds wait for one of each kind, some die before any.
    while (round % 4 !== 3 && (entries.length === 0 || readings.length === 0))
      await new Promise((later) => setTimeout(later, 5));
    await new Promise((later) => setTimeout(later, 30 + random() * 150));
    await kill(server);
    dead = true;
    await Promise.all(writers);
    if (faultsOf(databaseFile(folder)).length > 0) unsound += 1;
    server = await serverProcess(folder);
    acknowledged += entries.length + readings.length;
    lost += await missing(server.address, entries, readings);
    made += 1;
  }
  await kill(server);
  return { rounds: made, acknowledged, lost, unsound };
}

async function missing(address: string, entries: readonly string[], readings: readonly string[]): Promise<number> {
  const diary = (await (await fetch(`${address}/api/v1/animals/${SEDGE.id}/diary`)).json()) as { id: string }[];
  const kept = new Set(diary.map((entry) => entry.id));
  let gone = entries.filter((entry) => !kept.has(entry)).length;
  if (readings.length > 0) {
    const [from, to] = [readings[0]!, new Date(Date.parse(readings.at(-1)!) + 1).toISOString()];
    const path = `readings?probeId=${id(3)}&from=${from}&to=${to}&buckets=4000`;
    const chart = (await (await fetch(`${address}/api/v1/${path}`)).json()) as { count: number };
    gone += Math.max(0, readings.length - chart.count);
  }
  return gone;
}

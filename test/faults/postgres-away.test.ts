import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openSession } from '../../src/access/sessions.ts';
import { newToken, tokenHash } from '../../src/access/tokens.ts';
import { addChannel } from '../../src/notices/channels.ts';
import { type Database, openDatabase } from '../../src/records/database.ts';
import { numberProbes } from '../../src/records/readings.ts';
import { createApp } from '../../src/server/app.ts';
import { startServer } from '../../src/server/start.ts';
import { BOX_PROBE, KEEPER, sleepingSedge, TUTOR } from '../notices/given.ts';
import { GROUP, id, NOW_MS, smallGroup } from '../records/given.ts';
import { wireTo } from '../support/wire.ts';
import { counted, MORE } from './counted.ts';

const url = process.env.STILLWINTER_TEST_POSTGRES_URL;
const DAY = 86_400_000;
const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));
let made = 0;

/** A database of its own behind a wire. */
async function behindAWire() {
  made += 1;
  const name = `stillwinter_away_${process.pid}_${made}`;
  const admin = new pg.Client({ connectionString: url! });
  await admin.connect();
  await admin.query(`create database ${name}`);
  const straight = new URL(url!);
  straight.pathname = `/${name}`;
  const wire = await wireTo(straight.hostname, Number(straight.port || 5432));
  const wired = new URL(straight);
  wired.hostname = '127.0.0.1';
  wired.port = String(wire.port);
  onTestFinished(async () => {
    await wire.cut();
    await admin.query(`drop database ${name} with (force)`);
    await admin.end();
  });
  return { name, admin, wire, straight: straight.href, wired: wired.href };
}

// Needs a real server: the one inside the process cannot go away. CI hands its address over.
describe.runIf(url)('a PostgreSQL that goes away and comes back', () => {
  it('for a moment: is told in plain words, and the server goes on by itself afterwards', MORE, async () => {
    const { wire, wired } = await behindAWire();
    const database = await openDatabase({ dataFolder: '', databaseUrl: wired });
    await smallGroup(database);
    const context = { database, nowMs: () => NOW_MS, dataFolder: '/nowhere' };
    const app = createApp({ context, webFolder: '/nowhere', onFault: () => {} });
    const animals = () => app.request('/api/v1/animals', { headers: { host: 'localhost' } });
    expect((await animals()).status).toBe(200);
    await wire.cut();
    const told: unknown[] = [];
    for (let i = 0; i < 5; i++) {
      const away = await animals();
      told.push({ retryAfter: away.headers.get('retry-after'), ...((await away.json()) as object) });
    }
    const away = { retryAfter: '10', status: 503, type: '/problems/database-away' };
    expect(told).toEqual(Array(5).fill(expect.objectContaining(away)));
    await wire.mend();
    await expect.poll(async () => (await animals()).status, { timeout: 10_000 }).toBe(200);
    const again: number[] = [];
    for (let i = 0; i < 5; i++) again.push((await animals()).status);
    expect(again).toEqual(Array(5).fill(200));
    await database.close();
    counted('database-away', 1, {
      'questions while it was away, told in plain words': told.length,
      'questions answered afterwards': again.length,
    });
  });

  it('for a minute, silent, refusing and closed: every question is answered, nothing acknowledged is lost, each notice is sent once', async () => {
    const { name, admin, wire, straight, wired } = await behindAWire();
    const letters: string[] = [];
    const receiver = createServer((request, response) => {
      let text = '';
      request.on('data', (chunk) => {
        text += chunk;
      });
      request.on('end', () => {
        // The database goes away while the first letter is on its way: it has left, but that cannot be noted.
        if (letters.push((JSON.parse(text) as { id: string }).id) === 1) wire.stall();
        response.end();
      });
    }).listen(0, '127.0.0.1');
    onTestFinished(() => void receiver.close());
    await once(receiver, 'listening');
    const dataFolder = mkdtempSync(join(tmpdir(), 'stillwinter-away-'));
    onTestFinished(() => rmSync(dataFolder, { recursive: true }));

    const token = newToken();
    const cookie = await furnished(straight, token, `http://127.0.0.1:${(receiver.address() as AddressInfo).port}/`);
    const faults: unknown[] = [];
    const server = await startServer({
      dataFolder,
      port: 0,
      databaseUrl: wired,
      outside: { webhooksToThisMachine: true, tickMs: 500 },
      onFault: (fault) => faults.push(fault),
    });
    onTestFinished(() => server.stop());
    const ask = () => fetch(`${server.address}/api/v1/group`, { headers: { cookie: `stillwinter_session=${cookie}` } });
    const acknowledged = new Set<number>();
    const send = async (atMs: number, tempC: number) => {
      const answer = await fetch(`${server.address}/api/v1/ingest`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
        body: JSON.stringify({ at: new Date(atMs).toISOString(), tempC }),
      });
      if (answer.ok) acknowledged.add(atMs);
      return answer;
    };
    expect((await ask()).status).toBe(200);
    // The box falls through 2 °C and stays under it for more than half an hour.
    const now = Date.now();
    const fall = [5, 4.6, 4.1, 3.6, 3.1, 2.6, 2.2, 1.9, 1.8, 1.7, 1.6];
    for (const [number, tempC] of fall.entries())
      expect((await send(now - (fall.length - number) * 600_000, tempC)).status).toBe(200);
    await expect.poll(() => letters.length, { timeout: 30_000 }).toBe(1);

    const away = performance.now();
    const waiting: number[] = [];
    const answers: Promise<{ status: number; type: string; retryAfter: string | null; tookMs: number }>[] = [];
    const noted = async (question: Promise<Response>) => {
      const from = performance.now();
      const answer = await question;
      const { type } = (await answer.json()) as { type: string };
      return {
        status: answer.status,
        type,
        retryAfter: answer.headers.get('retry-after'),
        tookMs: performance.now() - from,
      };
    };
    for (let second = 0; second < 60; second += 1) {
      if (second === 25) await wire.cut();
      if (second === 40) {
        await admin.query(`alter database ${name} allow_connections false`);
        await admin.query('select pg_terminate_backend(pid) from pg_stat_activity where datname = $1', [name]);
        await wire.mend();
      }
      const atMs = now - 60_000 + second * 1000;
      waiting.push(atMs);
      answers.push(noted(ask()), noted(send(atMs, 1.5)));
      await pause(Math.max(0, away + (second + 1) * 1000 - performance.now()));
    }
    const told = await Promise.all(answers);
    await admin.query(`alter database ${name} allow_connections true`);
    expect(new Set(told.map((one) => `${one.status} ${one.type} ${one.retryAfter}`))).toEqual(
      new Set(['503 /problems/database-away 10']),
    );
    const longestMs = Math.max(...told.map((one) => one.tookMs));
    expect(longestMs).toBeLessThan(20_000);
    expect(faults.length).toBeGreaterThan(0);

    await expect.poll(async () => (await ask()).status, { timeout: 30_000 }).toBe(200);
    // The thermometer sends what it kept, and goes on; the box falls to freezing.
    for (const atMs of waiting) expect((await send(atMs, 1.5)).status).toBe(200);
    expect((await send(now, -0.2)).status).toBe(200);
    const database = await openDatabase({ dataFolder: '', databaseUrl: straight });
    onTestFinished(() => database.close());
    const sentLetters = async () =>
      (await database.kysely.selectFrom('deliveries').select('id').where('sentAtMs', 'is not', null).execute()).map(
        (row) => row.id,
      );
    const raised = async () =>
      (await database.kysely.selectFrom('notices').select('ruleId').where('level', '=', 'act-now').execute()).map(
        (row) => row.ruleId,
      );
    await expect.poll(raised, { timeout: 30_000 }).toContain('frost');
    await expect.poll(() => new Set(letters).size, { timeout: 30_000 }).toBeGreaterThan(1);
    // Longer than several turns of the queue: what would go out twice has gone by then.
    await pause(5000);
    expect([...letters].sort()).toEqual((await sentLetters()).sort());
    const kept = new Set(
      (await database.kysely.selectFrom('readings').select('atMs').execute()).map((row) => Number(row.atMs)),
    );
    const lost = [...acknowledged].filter((atMs) => !kept.has(atMs)).length;
    expect(lost).toBe(0);
    counted('database-away-a-minute', 1, {
      'questions and readings while it was away': told.length,
      'of them told in plain words': told.filter((one) => one.status === 503).length,
      'longest wait for an answer, s': Math.round(longestMs / 1000),
      'readings acknowledged': acknowledged.size,
      'of them lost': lost,
      'letters sent': letters.length,
      'of them twice': letters.length - new Set(letters).size,
    });
  }, 240_000);
});

/** Sedge asleep for two days, a thermometer with a token, and the keeper's address. Returns the session of the tutor. */
async function furnished(databaseUrl: string, token: string, hook: string): Promise<string> {
  const database: Database = await openDatabase({ dataFolder: '', databaseUrl });
  await sleepingSedge(database);
  const { kysely } = database;
  const now = Date.now();
  const fromDay = new Date(now - 2 * DAY).toISOString().slice(0, 10);
  await kysely.updateTable('stays').set({ fromDay }).execute();
  await kysely
    .updateTable('measurements')
    .set({ atMs: now - 2 * DAY })
    .execute();
  await kysely.transaction().execute((transaction) => numberProbes(transaction, GROUP.id));
  await kysely
    .updateTable('probeNumbers')
    .set({ tokenHash: tokenHash(token) })
    .where('probeId', '=', BOX_PROBE)
    .execute();
  await addChannel(database, { id: KEEPER, groupId: GROUP.id }, { id: id(60), kind: 'webhook', url: hook }, now - DAY);
  const cookie = await openSession(database, TUTOR, undefined, now);
  await database.close();
  return cookie;
}

import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addChannel } from '../../src/notices/channels.ts';
import { type Database, openDatabase } from '../../src/records/database.ts';
import { list } from '../../src/records/entries.ts';
import { DIARY } from '../../src/records/kinds.ts';
import { readingsBetween } from '../../src/records/readings.ts';
import { type RunningServer, startServer } from '../../src/server/start.ts';
import { BOX_PROBE, KEEPER, scopeAt, sleepingSedge } from '../notices/given.ts';
import { GROUP, id, SEDGE } from '../records/given.ts';

const url = process.env.STILLWINTER_TEST_POSTGRES_URL;
const DAY = 86_400_000;
const WATCH_LOCK = 7_325_121;

// Needs a real server, which several processes may share. CI hands its address over.
describe.runIf(url)('two servers on one PostgreSQL', () => {
  const name = `stillwinter_two_${process.pid}`;
  const calls: { id: string; title: string }[] = [];
  let admin: pg.Client;
  let receiver: Server;
  let database: Database;
  const servers: RunningServer[] = [];
  let address: URL;

  const start = async () => {
    const outside = { webhooksToThisMachine: true, tickMs: 300 };
    const server = await startServer({ dataFolder: '/nowhere', port: 0, databaseUrl: address.href, outside });
    servers.push(server);
    return server;
  };
  /** Connections to this database that hold the lock of the watch. */
  const watchers = async (): Promise<number[]> => {
    const found = await admin.query<{ pid: number }>(
      `select l.pid from pg_locks l join pg_database d on d.oid = l.database
       where l.locktype = 'advisory' and l.granted and l.objid = $1 and d.datname = $2`,
      [WATCH_LOCK, name],
    );
    return found.rows.map((row) => row.pid);
  };

  beforeAll(async () => {
    admin = new pg.Client({ connectionString: url! });
    await admin.connect();
    await admin.query(`create database ${name}`);
    address = new URL(url!);
    address.pathname = `/${name}`;
    receiver = createServer((request, response) => {
      let text = '';
      request.on('data', (chunk) => {
        text += chunk;
      });
      request.on('end', () => {
        calls.push(JSON.parse(text));
        // Slow, so that a second server would have time to send the same again.
        setTimeout(() => response.end(), 200);
      });
    }).listen(0, '127.0.0.1');
    database = await openDatabase({ dataFolder: '', databaseUrl: address.href });
    await sleepingSedge(database);
    const now = Date.now();
    const fromDay = new Date(now - 2 * DAY).toISOString().slice(0, 10);
    await database.kysely.updateTable('stays').set({ fromDay }).execute();
    await database.kysely
      .updateTable('measurements')
      .set({ atMs: now - 2 * DAY })
      .execute();
    // People would have to sign in; the notices need only the keeper's address.
    const hook = `http://127.0.0.1:${(receiver.address() as AddressInfo).port}/`;
    await addChannel(
      database,
      { id: KEEPER, groupId: GROUP.id },
      { id: id(60), kind: 'webhook', url: hook },
      now - DAY,
    );
  });
  afterAll(async () => {
    await Promise.all(servers.map((server) => server.stop().catch(() => undefined)));
    await database.close();
    receiver.close();
    await admin.query(`drop database ${name} with (force)`);
    await admin.end();
  });

  it('start at the same time, keep one watch between them, and send each notice once', async () => {
    await Promise.all([start(), start()]);
    await expect.poll(async () => (await watchers()).length, { timeout: 15_000 }).toBe(1);
    const now = Date.now();
    const readings = Array.from({ length: 12 }, (_, i) => ({
      probe: BOX_PROBE,
      atMs: now - (12 - i) * 600_000 - 60_000,
      tempC: 4 - i * 0.5,
    }));
    const { appendReadings } = await import('../../src/records/readings.ts');
    await appendReadings(
      database,
      scopeAt(now),
      readings.map((one) => ({
        probeId: one.probe,
        at: new Date(one.atMs).toISOString(),
        tempC: one.tempC,
        quality: 'good' as const,
        source: 'mqtt' as const,
      })),
    );
    await expect.poll(() => calls.length, { timeout: 60_000 }).toBeGreaterThan(0);
    await new Promise((later) => setTimeout(later, 2500));
    const sent = calls.map((call) => call.id);
    expect(new Set(sent).size).toBe(sent.length);
    const notices = await database.kysely.selectFrom('notices').select('id').execute();
    expect(new Set(notices.map((row) => row.id)).size).toBe(notices.length);
    expect(notices.length).toBeGreaterThan(0);
  });

  it('hand the watch over when the connection that held it dies, and still send nothing twice', async () => {
    const [pid] = await watchers();
    await admin.query('select pg_terminate_backend($1)', [pid]);
    await expect.poll(async () => (await watchers()).filter((one) => one !== pid).length, { timeout: 15_000 }).toBe(1);
    await new Promise((later) => setTimeout(later, 1500));
    expect(await watchers()).toHaveLength(1);
    const sent = calls.map((call) => call.id);
    expect(new Set(sent).size).toBe(sent.length);
  });

  it('take writes at the same time: every one is kept, each once, and of two edits one is told of the other', async () => {
    await database.kysely.updateTable('people').set({ removedAtMs: 1 }).execute();
    const send = (server: RunningServer, method: string, path: string, body: unknown) =>
      fetch(`${server.address}/api/v1/${path}`, {
        method,
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
    const at = '2026-10-01T08:00:00Z';
    const entries = Array.from({ length: 60 }, (_, i) => ({ id: id(5000 + i), animalId: SEDGE.id, at, kind: 'moved' }));
    // Each entry goes to both servers, as from a phone that lost its answer.
    const answers = await Promise.all(
      entries.flatMap((entry) =>
        servers.map(async (server) => (await send(server, 'POST', `animals/${SEDGE.id}/diary`, entry)).status),
      ),
    );
    expect(new Set(answers)).toEqual(new Set([200]));
    expect(await list(database, scopeAt(Date.now()), DIARY)).toHaveLength(60);
    const trail = await database.kysely.selectFrom('changes').select('id').where('kind', '=', 'diary').execute();
    expect(trail).toHaveLength(60);

    const START = Date.parse('2026-09-01T00:00:00Z');
    const batch = Array.from({ length: 500 }, (_, i) => ({
      probeId: BOX_PROBE,
      at: new Date(START + i * 60_000).toISOString(),
      tempC: 5,
      quality: 'good',
      source: 'http',
    }));
    const stored = await Promise.all(
      servers.map(
        async (server) => (await (await send(server, 'POST', 'readings', batch)).json()) as { stored: number },
      ),
    );
    expect(stored.reduce((sum, one) => sum + one.stored, 0)).toBe(500);
    expect(await readingsBetween(database, BOX_PROBE, START, START + 500 * 60_000)).toHaveLength(500);

    const animal = (await (await fetch(`${servers[0]!.address}/api/v1/animals/${SEDGE.id}`)).json()) as object;
    const edits = await Promise.all(
      servers.map(
        async (server, i) =>
          (await send(server, 'PUT', `animals/${SEDGE.id}`, { ...animal, notes: `edit ${i}` })).status,
      ),
    );
    expect([...edits].sort()).toEqual([200, 409]);
    // The edit that came second is kept beside the record.
    expect(await database.kysely.selectFrom('editConflicts').select('id').execute()).toHaveLength(1);
  });
});

import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';
import pg from 'pg';
import { describe, expect, it } from 'vitest';
import { openDatabase } from '../../src/records/database.ts';
import { createApp } from '../../src/server/app.ts';
import { NOW_MS, smallGroup } from '../records/given.ts';
import { counted, MORE } from './counted.ts';

const url = process.env.STILLWINTER_TEST_POSTGRES_URL;

/** A wire to the database that can be cut and mended. */
async function wireTo(host: string, port: number) {
  const sockets = new Set<Socket>();
  let server: Server | undefined;
  let own = 0;
  const mend = async () => {
    server = createServer((client) => {
      const far = connect(port, host);
      for (const socket of [client, far]) {
        sockets.add(socket);
        socket.on('error', () => {});
        socket.on('close', () => sockets.delete(socket));
      }
      client.pipe(far).pipe(client);
    }).listen(own, '127.0.0.1');
    await once(server, 'listening');
    own = (server.address() as { port: number }).port;
    return own;
  };
  const cut = async () => {
    server!.close();
    for (const socket of sockets) socket.destroy();
    await once(server!, 'close');
  };
  return { mend, cut };
}

// Needs a real server: the one inside the process cannot go away. CI hands its address over.
describe.runIf(url)('a PostgreSQL that goes away and comes back', MORE, () => {
  it('is told in plain words meanwhile, and the server goes on by itself afterwards', async () => {
    const name = `stillwinter_away_${process.pid}`;
    const admin = new pg.Client({ connectionString: url! });
    await admin.connect();
    await admin.query(`create database ${name}`);
    const address = new URL(url!);
    const wire = await wireTo(address.hostname, Number(address.port || 5432));
    address.hostname = '127.0.0.1';
    address.port = String(await wire.mend());
    address.pathname = `/${name}`;
    const database = await openDatabase({ dataFolder: '', databaseUrl: address.href });
    await smallGroup(database);
    const context = { database, nowMs: () => NOW_MS, dataFolder: '/nowhere' };
    const app = createApp({ context, webFolder: '/nowhere', onFault: () => {} });
    const animals = () => app.request('/api/v1/animals', { headers: { host: 'localhost' } });
    expect((await animals()).status).toBe(200);
    await wire.cut();
    const away = await animals();
    expect(await away.json()).toMatchObject({ status: 503, type: '/problems/database-away' });
    await wire.mend();
    await expect.poll(async () => (await animals()).status, { timeout: 10_000 }).toBe(200);
    await database.close();
    await wire.cut();
    await admin.query(`drop database ${name}`);
    await admin.end();
    counted('database-away', 1, { 'told in plain words': 1, 'answers again by itself': 1 });
  });
});

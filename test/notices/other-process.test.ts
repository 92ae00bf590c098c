import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { type Database, openDatabase } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { DIARY } from '../../src/records/kinds.ts';
import { startServer } from '../../src/server/start.ts';
import { stillwinter } from '../cli/stillwinter.ts';
import { id, SEDGE } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';
import { readBox, scopeAt, sleepingSedge } from './given.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const url = process.env.STILLWINTER_TEST_POSTGRES_URL;
// Several processes can share a real PostgreSQL only; CI hands its address over.
const stores = url ? (['sqlite', 'postgres'] as const) : (['sqlite'] as const);

/** A database of the kind asked for, and what a second process needs to open it too. */
async function shared(store: (typeof stores)[number]) {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const database = store === 'sqlite' ? await openDatabase({ dataFolder: folder }) : await freshDatabase(store);
  onTestFinished(() => database.close());
  if (store === 'sqlite') return { folder, database, databaseUrl: '' };
  const address = new URL(url!);
  address.pathname = `/${database.pool!.options.connectionString!.split('/').at(-1)}`;
  return { folder, database, databaseUrl: address.href };
}

const cold = (database: Database) =>
  database.kysely
    .selectFrom('notices')
    .select(['id', 'level', 'fromAtMs', 'clearedAtMs'])
    .where('ruleId', '=', 'under-2')
    .orderBy('fromAtMs')
    .execute();

it.each(stores)(
  'a running server sees within a tick what a command beside it imports, late and new, and says each once (%s)',
  async (store) => {
    const { folder, database, databaseUrl } = await shared(store);
    const now = Math.floor(Date.now() / MINUTE) * MINUTE;
    await sleepingSedge(database);
    const fromDay = new Date(now - 48 * HOUR).toISOString().slice(0, 10);
    await database.kysely.updateTable('stays').set({ fromDay }).execute();
    await database.kysely
      .updateTable('measurements')
      .set({ atMs: now - 48 * HOUR })
      .execute();
    const steady = (count: number) => Array.from({ length: count }, () => 5);
    // A gap of six hours, which the logger in the box has kept; then readings until an hour ago.
    await readBox(database, now - 24 * HOUR, steady(72));
    await readBox(database, now - 6 * HOUR, steady(31));
    const server = await startServer({
      dataFolder: folder,
      port: 0,
      databaseUrl,
      outside: { webhooksToThisMachine: true, tickMs: 300 },
    });
    onTestFinished(() => server.stop());
    const watched = async () =>
      (await database.kysely.selectFrom('settings').select('name').where('name', '=', 'watch-pulse').execute()).length;
    await expect.poll(watched, { timeout: 10_000 }).toBe(1);
    expect(await cold(database)).toEqual([]);

    const bring = async (fromMs: number, tempC: number) => {
      const rows = Array.from(
        { length: 9 },
        (_, i) => `${new Date(fromMs + i * 5 * MINUTE).toISOString()},${(tempC - i * 0.01).toFixed(2)}`,
      );
      const file = ['Time,In the fish box (°C)', ...rows].join('\n');
      const ran = await stillwinter(['import', '-', '--data', folder, '--probe', 'In the fish box'], file, {
        STILLWINTER_DATABASE_URL: databaseUrl,
      });
      expect(ran).toMatchObject({ code: 0, stderr: '' });
      return ran.stdout;
    };
    const SEEN = { timeout: 2000, interval: 50 };

    expect(await bring(now - 9 * HOUR, 1.5)).toMatch(/^9 readings saved/);
    await expect.poll(async () => (await cold(database)).length, SEEN).toBe(1);
    const [late] = await cold(database);
    expect(late!.fromAtMs).toBeGreaterThan(now - 9 * HOUR);
    expect(late!.fromAtMs).toBeLessThan(now - 8 * HOUR);
    expect(late!.clearedAtMs).not.toBeNull();

    expect(await bring(now - 45 * MINUTE, 1.4)).toMatch(/^9 readings saved/);
    await expect.poll(async () => (await cold(database)).length, SEEN).toBe(2);
    const both = await cold(database);
    expect(both[0]).toEqual(late);
    expect(both[1]).toMatchObject({ level: 'act-now', clearedAtMs: null });

    // Nothing new: nothing is said again.
    expect(await bring(now - 45 * MINUTE, 1.4)).toMatch(/^0 readings saved/);
    await new Promise((later) => setTimeout(later, 1000));
    expect(await cold(database)).toEqual(both);

    // Somebody else's diary counts too: once she is awake, her sleep is over and so is its notice.
    const at = new Date(now - MINUTE).toISOString();
    await make(database, scopeAt(now), DIARY, { id: id(700), animalId: SEDGE.id, at, kind: 'woken' });
    await expect.poll(async () => (await cold(database))[1]?.clearedAtMs, SEEN).toBeGreaterThan(0);
  },
);

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PGlite } from '@electric-sql/pglite';
import { PGliteDialect } from 'kysely';
import pg from 'pg';
import { type Database, kyselyOn, openDatabase } from '../../src/records/database.ts';
import { migrate } from '../../src/records/migrate.ts';
import { migrations } from '../../src/records/migrations/index.ts';
import { ImmediateSqliteDialect, openSqlite } from '../../src/records/sqlite.ts';

/** Where the same tests run: SQLite in a file, and PostgreSQL: the server named by STILLWINTER_TEST_POSTGRES_URL, else one inside the process. */
export const STORES = ['sqlite', 'postgres'] as const;
type Store = (typeof STORES)[number];

/** A fresh, migrated database of the kind asked for; `close` removes it. */
export async function freshDatabase(store: Store): Promise<Database> {
  if (store === 'sqlite') return onSqlite();
  const url = process.env.STILLWINTER_TEST_POSTGRES_URL;
  return url ? onServer(url) : inProcess();
}

/** A database as an older version made it, with the first so many steps of the schema; migrate() brings it up to date. */
export async function olderDatabase(store: Store, steps: number): Promise<Database> {
  const sqlite = store === 'sqlite' ? openSqlite(':memory:') : undefined;
  const kysely = kyselyOn(
    sqlite ? new ImmediateSqliteDialect(sqlite) : new PGliteDialect({ pglite: await PGlite.create() }),
  );
  await migrate(kysely, store, migrations.slice(0, steps));
  return { kind: store, kysely, ...(sqlite ? { sqlite } : {}), close: () => kysely.destroy() };
}

async function onSqlite(): Promise<Database> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
  const database = await openDatabase({ dataFolder: folder });
  return {
    ...database,
    close: async () => {
      await database.close();
      rmSync(folder, { recursive: true });
    },
  };
}

let migrated: Promise<Blob> | undefined;

/** A PostgreSQL inside the process: the first is made and migrated, the others are copies of it, in a quarter of the time. */
async function inProcess(): Promise<Database> {
  migrated ??= migratedFiles();
  const pglite = await PGlite.create({ loadDataDir: await migrated });
  const kysely = kyselyOn(new PGliteDialect({ pglite }));
  await migrate(kysely, 'postgres');
  return { kind: 'postgres', kysely, close: () => kysely.destroy() };
}

async function migratedFiles(): Promise<Blob> {
  const pglite = await PGlite.create();
  await migrate(kyselyOn(new PGliteDialect({ pglite })), 'postgres');
  const files = await pglite.dumpDataDir('none');
  await pglite.close();
  return files;
}

let made = 0;

async function onServer(url: string): Promise<Database> {
  made += 1;
  const name = `stillwinter_test_${process.pid}_${made}`;
  const admin = async (statement: string) => {
    const client = new pg.Client({ connectionString: url });
    await client.connect();
    await client.query(statement);
    await client.end();
  };
  await admin(`create database ${name}`);
  const own = new URL(url);
  own.pathname = `/${name}`;
  const database = await openDatabase({ dataFolder: '', databaseUrl: own.href });
  return {
    ...database,
    close: async () => {
      await database.close();
      await admin(`drop database ${name}`);
    },
  };
}

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Database, databaseFile, openDatabase } from '../../src/records/database.ts';
import { migrate } from '../../src/records/migrate.ts';
import { migrations } from '../../src/records/migrations/index.ts';
import { openSqlite } from '../../src/records/sqlite.ts';
import { freshDatabase, STORES } from './stores.ts';

describe.each(STORES)('migrations on %s', (store) => {
  let database: Database;
  beforeAll(async () => {
    database = await freshDatabase(store);
  });
  afterAll(() => database.close());

  it('run once and never again', async () => {
    expect(await migrate(database.kysely, database.kind)).toEqual([]);
  });

  it('leave nothing behind when a step fails half-way', async () => {
    const broken = {
      name: '9999-broken',
      up: async (kysely: Database['kysely']) => {
        await sql`create table half_made (id text)`.execute(kysely);
        throw new Error('no');
      },
    };
    await expect(migrate(database.kysely, database.kind, [...migrations, broken])).rejects.toThrow('no');
    await expect(sql`select * from half_made`.execute(database.kysely)).rejects.toThrow();
    expect(await migrate(database.kysely, database.kind)).toEqual([]);
  });

  it('refuse a database made by a newer version', async () => {
    await expect(migrate(database.kysely, database.kind, migrations.slice(0, 1))).rejects.toThrow('newer version');
  });

  it('count as numbers and keep 5.1 as 5.1', async () => {
    const answer = await sql<{ n: number; x: number; big: number }>`
      select count(*) as n, cast(5.1 as double precision) as x, cast(1893456000000 as bigint) as big`.execute(
      database.kysely,
    );
    expect(answer.rows[0]).toEqual({ n: 1, x: 5.1, big: 1_893_456_000_000 });
  });
});

describe('a SQLite file', () => {
  it('is durable at every opening, also when it exists already', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
    const first = await openDatabase({ dataFolder: folder });
    await first.close();
    const again = openSqlite(databaseFile(folder));
    expect(again.pragma('synchronous', { simple: true })).toBe(2);
    expect(again.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(again.pragma('foreign_keys', { simple: true })).toBe(1);
    again.close();
    rmSync(folder, { recursive: true });
  });

  it('has only strict tables', async () => {
    const database = await freshDatabase('sqlite');
    const loose = database
      .sqlite!.prepare(
        "select name from pragma_table_list where type = 'table' and strict = 0 and name not like 'sqlite_%'",
      )
      .all();
    expect(loose).toEqual([]);
    await database.close();
  });

  it('that is no database is refused in words, untouched', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
    writeFileSync(
      databaseFile(folder),
      'this is a letter, not a database, and it is long enough to be looked at'.repeat(20),
    );
    await expect(openDatabase({ dataFolder: folder })).rejects.toThrow('The database file is damaged');
    rmSync(folder, { recursive: true });
  });
});

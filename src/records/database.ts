import { existsSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Database as SqliteFile } from 'better-sqlite3';
import { CamelCasePlugin, type Dialect, Kysely, PostgresDialect } from 'kysely';
import type { Pool } from 'pg';
import { say } from '../wording/say.ts';
import { withFolder } from './disk.ts';
import { migrate } from './migrate.ts';
import { RecordProblem } from './problem.ts';
import { ImmediateSqliteDialect, openSqlite } from './sqlite.ts';
import type { DatabaseKind, Tables } from './tables.ts';

/** An open database of either kind. `kysely` serves both; the hot paths of readings also know the kind. */
export interface Database {
  readonly kind: DatabaseKind;
  readonly kysely: Kysely<Tables>;
  /** The connection behind `kysely`; touch it only inside `kysely.connection()`, whose lock keeps transactions apart. */
  readonly sqlite?: SqliteFile;
  /** Absent on a PostgreSQL that lives inside the process. */
  readonly pool?: Pool;
  close(): Promise<void>;
}

export const databaseFile = (dataFolder: string): string => join(dataFolder, 'stillwinter.sqlite');

export interface DatabaseAddress {
  readonly dataFolder: string;
  readonly databaseUrl?: string | undefined;
}

/** Opens the database of a data folder, or the PostgreSQL at the address, and brings its tables up to date. */
export async function openDatabase(address: DatabaseAddress): Promise<Database> {
  const database = address.databaseUrl
    ? // The client for it is loaded only where it is used.
      openPostgres((await import('./postgres.ts')).openPool(address.databaseUrl))
    : openSqliteFile(databaseFile(address.dataFolder));
  try {
    await migrate(database.kysely, database.kind);
    return database;
  } catch (error) {
    await database.close();
    throw database.kind === 'sqlite' ? explained(error, address.dataFolder) : error;
  }
}

function openSqliteFile(path: string): Database {
  let sqlite: SqliteFile;
  try {
    if (path !== ':memory:' && !existsSync(dirname(path))) mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
    sqlite = openSqlite(path);
  } catch (error) {
    throw explained(error, dirname(path));
  }
  const kysely = kyselyOn(new ImmediateSqliteDialect(sqlite));
  return { kind: 'sqlite', kysely, sqlite, close: () => closed(kysely, sqlite) };
}

async function closed(kysely: Kysely<Tables>, sqlite: SqliteFile): Promise<void> {
  await kysely.destroy();
  // A database that was never asked anything is not known to Kysely's driver.
  if (sqlite.open) sqlite.close();
}

function openPostgres(pool: Pool): Database {
  const kysely = kyselyOn(new PostgresDialect({ pool }));
  let ended: Promise<void> | undefined;
  return {
    kind: 'postgres',
    kysely,
    pool,
    close: () => {
      ended ??= kysely.destroy().then(() => (pool.ended ? undefined : pool.end()));
      return ended;
    },
  };
}

/** Kysely with the names of this project: camelCase in code, snake_case in the database. */
export function kyselyOn(dialect: Dialect): Kysely<Tables> {
  return new Kysely<Tables>({ dialect, plugins: [new CamelCasePlugin({ maintainNestedObjectKeys: true })] });
}

/** A damaged file as what it is: the errors of SQLite that mean so, in plain words. */
export function isDamage(error: unknown): boolean {
  return /^SQLITE_(CORRUPT|NOTADB)/.test((error as { code?: string }).code ?? '');
}

const explained = (error: unknown, folder: string): unknown =>
  isDamage(error) ? new RecordProblem('database-damaged', say('records.damaged')) : withFolder(error, folder);

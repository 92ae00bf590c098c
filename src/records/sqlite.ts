import SqliteConnection from 'better-sqlite3';
import { CompiledQuery, type DatabaseConnection, type Driver, SqliteDialect, SqliteDriver } from 'kysely';

/**
 * Opens a SQLite file so that a commit that was acknowledged survives a power cut: write-ahead log with `synchronous=FULL`,
 * which a reopened file does not keep by itself. Throws when a setting did not take.
 */
export function openSqlite(path: string): SqliteConnection.Database {
  const connection = new SqliteConnection(path, { timeout: 5000 });
  try {
    connection.pragma('journal_mode = WAL');
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    connection.pragma('trusted_schema = OFF');
    // Only macOS knows these; elsewhere they change nothing. Plain fsync does not reach the disk there.
    connection.pragma('fullfsync = ON');
    connection.pragma('checkpoint_fullfsync = ON');
    assertDurable(connection, path === ':memory:');
    return connection;
  } catch (error) {
    connection.close();
    throw error;
  }
}

function assertDurable(connection: SqliteConnection.Database, inMemory: boolean): void {
  const expected = { journal_mode: inMemory ? 'memory' : 'wal', synchronous: 2, foreign_keys: 1 };
  for (const [name, value] of Object.entries(expected)) {
    const found = connection.pragma(name, { simple: true });
    if (found !== value) throw new Error(`The database would not take ${name} = ${value} (it says ${String(found)})`);
  }
}

/** Transactions that will write take the lock at once: a deferred one that read first fails when another process wrote meanwhile. */
class ImmediateDriver extends SqliteDriver {
  readonly #file: SqliteConnection.Database;

  constructor(file: SqliteConnection.Database) {
    super({ database: file });
    this.#file = file;
  }

  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw('begin immediate'));
  }

  /** On a full or failing disk SQLite has rolled back already; a second time would hide the reason. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#file.inTransaction) await super.rollbackTransaction(connection);
  }
}

export class ImmediateSqliteDialect extends SqliteDialect {
  readonly #connection: SqliteConnection.Database;

  constructor(connection: SqliteConnection.Database) {
    super({ database: connection });
    this.#connection = connection;
  }

  override createDriver(): Driver {
    return new ImmediateDriver(this.#connection);
  }
}

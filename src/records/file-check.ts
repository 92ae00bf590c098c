import SqliteConnection from 'better-sqlite3';

/** What is wrong with a SQLite file; empty when it is sound in itself and its references hold. Only reads. */
export function faultsOf(file: string): string[] {
  let connection: SqliteConnection.Database | undefined;
  try {
    connection = new SqliteConnection(file, { readonly: true, fileMustExist: true });
    const found = connection.pragma('integrity_check') as { integrity_check: string }[];
    const faults = found.map((row) => row.integrity_check).filter((text) => text !== 'ok');
    const dangling = connection.pragma('foreign_key_check') as { table: string }[];
    return [...faults, ...dangling.map((row) => `dangling reference in ${row.table}`)];
  } catch (error) {
    return [(error as Error).message];
  } finally {
    connection?.close();
  }
}

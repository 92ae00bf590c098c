import { resolve } from 'node:path';
import { type Database, openDatabase } from '../records/database.ts';

/** Where the records lie; what is left out comes from the environment, as for the server. */
export interface RecordsOptions {
  readonly data?: string;
  readonly database?: string;
}

export const dataFolderOf = (options: RecordsOptions): string =>
  resolve(options.data ?? process.env.STILLWINTER_DATA ?? 'data');

/** Opens the records, does something with them, and closes them whatever happened. */
export async function withRecords<T>(options: RecordsOptions, use: (database: Database) => Promise<T>): Promise<T> {
  const database = await openDatabase({
    dataFolder: dataFolderOf(options),
    databaseUrl: options.database ?? (process.env.STILLWINTER_DATABASE_URL || undefined),
  });
  try {
    return await use(database);
  } finally {
    await database.close();
  }
}

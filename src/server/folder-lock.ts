import { join } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { writableFolder } from '../records/disk.ts';
import { RecordProblem } from '../records/problem.ts';
import { say } from '../wording/say.ts';

/**
 * Makes sure that one server alone serves a data folder. The lock is the operating system's, so it ends with the process however
 * that ends. Returns what releases it; throws RecordProblem `database-in-use` when another server holds it, and what `writableFolder` throws.
 */
export function lockFolder(dataFolder: string): () => void {
  writableFolder(dataFolder);
  const lock = new SqliteConnection(join(dataFolder, 'server.lock'), { timeout: 1500 });
  try {
    lock.exec('begin exclusive');
  } catch (error) {
    lock.close();
    if (/^SQLITE_BUSY/.test((error as { code?: string }).code ?? ''))
      throw new RecordProblem('database-in-use', say('server.problem.folder-in-use'));
    throw error;
  }
  return () => lock.close();
}

import { closeSync, mkdirSync, openSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { say } from '../wording/say.ts';
import { RecordProblem } from './problem.ts';

/** Troubles of a disk that a keeper can do something about. */
export type DiskTrouble = 'disk-full' | 'read-only-disk';

/** What a thrown thing says of the disk, by the codes of SQLite, Node and PostgreSQL; undefined when it says nothing. */
export function diskTrouble(error: unknown): DiskTrouble | undefined {
  const { code = '', syscall } = (error ?? {}) as { code?: unknown; syscall?: string };
  if (/^(SQLITE_FULL|ENOSPC|EDQUOT|53100)$/.test(String(code))) return 'disk-full';
  if (/^(SQLITE_READONLY|SQLITE_CANTOPEN|SQLITE_IOERR|EROFS|EACCES|EPERM)/.test(String(code))) return 'read-only-disk';
  // Node says so of a folder that cannot be made on a disk that takes no write.
  return code === 'ENOENT' && syscall === 'mkdir' ? 'read-only-disk' : undefined;
}

/** What was thrown, in words with the folder where it tells of the disk. */
export function withFolder(error: unknown, folder: string): unknown {
  const trouble = diskTrouble(error);
  return trouble === undefined ? error : new RecordProblem(trouble, say(`records.${trouble}`, { folder }));
}

/**
 * Makes the folder where it is not there, and sees that something can be made in it: rights alone do not tell of a disk that has failed.
 * Throws RecordProblem `read-only-disk` or `disk-full`.
 */
export function writableFolder(folder: string): void {
  const probe = join(folder, 'can-be-written');
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    closeSync(openSync(probe, 'w', 0o600));
    rmSync(probe);
  } catch (error) {
    throw withFolder(error, folder);
  }
}

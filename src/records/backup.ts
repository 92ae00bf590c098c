import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { say } from '../wording/say.ts';
import { type Database, databaseFile } from './database.ts';
import { faultsOf } from './file-check.ts';
import { RecordProblem } from './problem.ts';

const DAY_MS = 86_400_000;
/** Kept: the newest of each of the last 7 days, of 5 weeks, and of 12 months of 30 days. */
const KEPT = [
  { every: DAY_MS, count: 7 },
  { every: 7 * DAY_MS, count: 5 },
  { every: 30 * DAY_MS, count: 12 },
] as const;
const NAME = /^stillwinter-(\d{4}-\d{2}-\d{2})T(\d{2})(\d{2})(\d{2})Z\.sqlite$/;

export const backupFolder = (dataFolder: string): string => join(dataFolder, 'backups');

export interface Backup {
  readonly file: string;
  readonly madeAtMs: number;
  readonly bytes: number;
}

/** Backups of a folder, newest first. */
export function listBackups(folder: string): Backup[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .flatMap((name) => {
      const match = NAME.exec(name);
      if (!match) return [];
      const file = join(folder, name);
      const madeAtMs = Date.parse(`${match[1]}T${match[2]}:${match[3]}:${match[4]}Z`);
      return [{ file, madeAtMs, bytes: statSync(file).size }];
    })
    .sort((a, b) => b.madeAtMs - a.madeAtMs);
}

/** The newest backup that is sound, or undefined. */
export const newestGoodBackup = (folder: string): Backup | undefined =>
  listBackups(folder).find((backup) => faultsOf(backup.file).length === 0);

/**
 * Makes a backup of a running SQLite database without stopping it, checks the copy, and takes old ones away. Throws when the copy
 * is not sound; the old backups then stay as they are.
 */
export async function makeBackup(database: Database, folder: string, nowMs: number): Promise<Backup> {
  if (!database.sqlite) throw new RecordProblem('not-allowed', say('records.backupSqliteOnly'));
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const name = `stillwinter-${new Date(nowMs)
    .toISOString()
    .slice(0, 19)
    .replaceAll(/(?<=T.*):/g, '')}Z.sqlite`;
  const file = join(folder, name);
  const draft = `${file}.part`;
  rmSync(draft, { force: true });
  try {
    // From the writer's own connection: what it writes meanwhile is carried along.
    await database.sqlite.backup(draft, { progress: () => 500 });
    const faults = faultsOf(draft);
    if (faults.length > 0)
      throw new RecordProblem('database-damaged', say('records.backupUnsound', { fault: faults[0]! }));
    synced(draft);
    renameSync(draft, file);
  } finally {
    for (const left of [draft, `${draft}-wal`, `${draft}-shm`]) rmSync(left, { force: true });
  }
  rotate(folder, nowMs);
  return { file, madeAtMs: Math.floor(nowMs / 1000) * 1000, bytes: statSync(file).size };
}

/** Takes away what no rule keeps. A backup from the future (a clock set back) is kept: it may be the only good one. */
function rotate(folder: string, nowMs: number): void {
  const all = listBackups(folder);
  const keep = new Set(all.filter((backup) => backup.madeAtMs >= nowMs).map((backup) => backup.file));
  for (const { every, count } of KEPT) {
    const slots = new Map<number, string>();
    for (const backup of all) {
      if (backup.madeAtMs >= nowMs + 1000) continue;
      const slot = Math.floor(backup.madeAtMs / every);
      if (!slots.has(slot)) slots.set(slot, backup.file);
    }
    for (const file of [...slots.values()].slice(0, count)) keep.add(file);
  }
  for (const backup of all) if (!keep.has(backup.file)) rmSync(backup.file);
}

/**
 * Puts a backup in the place of the database of a folder that no server is using. The backup is checked first, and what stood there
 * is kept beside it under a name with the time. Returns where the old file went, if there was one.
 */
export function restoreBackup(dataFolder: string, backup: string, nowMs: number): string | undefined {
  const faults = faultsOf(backup);
  if (faults.length > 0)
    throw new RecordProblem(
      'database-damaged',
      say('records.restoreUnsound', { name: basename(backup), fault: faults[0]! }),
    );
  const target = databaseFile(dataFolder);
  mkdirSync(dataFolder, { recursive: true, mode: 0o700 });
  const draft = `${target}.restoring`;
  copyFileSync(backup, draft);
  synced(draft);
  let old: string | undefined;
  if (existsSync(target)) {
    old = `${target}.before-${nowMs}`;
    renameSync(target, old);
    // The log belongs to the old file: beside the new one it would be poison.
    for (const end of ['-wal', '-shm'])
      if (existsSync(`${target}${end}`)) renameSync(`${target}${end}`, `${old}${end}`);
  }
  renameSync(draft, target);
  return old;
}

function synced(file: string): void {
  const handle = openSync(file, 'r+');
  fsyncSync(handle);
  closeSync(handle);
}

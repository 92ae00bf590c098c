import { Worker } from 'node:worker_threads';
import { backupFolder, listBackups, makeBackup, newestGoodBackup } from '../records/backup.ts';
import { type Database, databaseFile } from '../records/database.ts';
import { say } from '../wording/say.ts';
import { Refusal } from './problem-answers.ts';

const DAY_MS = 86_400_000;
const LOOK_MS = 3_600_000;

/** How the database's file is: known a moment after the start, for the check runs while answers are given already. */
interface Health {
  integrity: 'checking' | 'good' | 'damaged' | 'not-checked';
  faults: readonly string[];
  newestGoodBackup: string | undefined;
}

export interface Care {
  readonly health: Health;
  /** Throws when the file was found damaged: nothing more may be written over it. */
  mayWrite(): void;
  stop(): Promise<void>;
}

/** Checks the file once after the start, and makes a backup each day. PostgreSQL looks after itself. */
export function takeCare(
  database: Database,
  dataFolder: string,
  nowMs: () => number,
  onFault: (error: unknown) => void,
): Care {
  const health: Health = { integrity: 'not-checked', faults: [], newestGoodBackup: undefined };
  const mayWrite = () => {
    if (health.integrity === 'damaged') throw new Refusal('database-damaged', damagedSentence(health.newestGoodBackup));
  };
  if (!database.sqlite) return { health, mayWrite, stop: async () => {} };

  health.integrity = 'checking';
  const worker = new Worker(new URL('./integrity.worker.ts', import.meta.url), {
    workerData: databaseFile(dataFolder),
  });
  worker.once('message', (faults: string[]) => {
    health.integrity = faults.length === 0 ? 'good' : 'damaged';
    health.faults = faults;
    if (faults.length === 0) return;
    health.newestGoodBackup = newestGoodBackup(backupFolder(dataFolder))?.file;
    onFault(new Error(`${damagedSentence(health.newestGoodBackup)} ${faults.slice(0, 3).join('; ')}`));
  });
  worker.once('error', onFault);

  let backing: Promise<unknown> = Promise.resolve();
  const look = () => {
    backing = backing
      .then(async () => {
        const newest = listBackups(backupFolder(dataFolder)).find((backup) => backup.madeAtMs <= nowMs());
        const due = newest === undefined || nowMs() - newest.madeAtMs >= DAY_MS;
        if (due && health.integrity === 'good') await makeBackup(database, backupFolder(dataFolder), nowMs());
      })
      .catch(onFault);
  };
  const soon = setTimeout(look, 60_000);
  const hourly = setInterval(look, LOOK_MS);
  return {
    health,
    mayWrite,
    stop: async () => {
      clearTimeout(soon);
      clearInterval(hourly);
      await worker.terminate();
      await backing;
    },
  };
}

/** What to do about a damaged file, with the backup to take. */
export const damagedSentence = (backup: string | undefined): string =>
  backup === undefined ? say('records.damaged') : say('records.damagedBackup', { name: backup });

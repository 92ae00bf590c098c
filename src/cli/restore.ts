import { existsSync } from 'node:fs';
import { backupFolder, newestGoodBackup, restoreBackup } from '../records/backup.ts';
import { lockFolder } from '../server/folder-lock.ts';
import { say } from '../wording/say.ts';
import { type Outcome, Refusal } from './outcome.ts';
import { dataFolderOf, type RecordsOptions } from './records.ts';

/** `stillwinter restore [FILE]`: puts a backup, the newest sound one when none is named, in the place of the database. */
export async function restoreCommand(file: string | undefined, options: RecordsOptions): Promise<Outcome> {
  const folder = dataFolderOf(options);
  const chosen = file ?? newestGoodBackup(backupFolder(folder))?.file;
  if (chosen === undefined || !existsSync(chosen))
    throw new Refusal(say('cli.restore.refused'), [
      { where: chosen ?? backupFolder(folder), what: say(chosen ? 'cli.read.noFile' : 'cli.restore.none') },
    ]);
  // No server may be running on the folder meanwhile.
  const unlock = lockFolder(folder);
  try {
    const kept = restoreBackup(folder, chosen, Date.now());
    const text = kept ? say('cli.restore.doneKept', { file: chosen, kept }) : say('cli.restore.done', { file: chosen });
    return { json: { restored: chosen, kept: kept ?? null }, text, code: 0 };
  } finally {
    unlock();
  }
}

import { figure } from '../measure/figures.ts';
import { backupFolder, listBackups, makeBackup } from '../records/backup.ts';
import { say } from '../wording/say.ts';
import { type Outcome, Refusal } from './outcome.ts';
import { dataFolderOf, type RecordsOptions, withRecords } from './records.ts';

/** `stillwinter backup`: a checked copy of the running database in the data folder's own backups; old ones are rotated. */
export async function backupCommand(options: RecordsOptions): Promise<Outcome> {
  const folder = backupFolder(dataFolderOf(options));
  return withRecords(options, async (database) => {
    if (database.kind !== 'sqlite')
      throw new Refusal(say('cli.backup.refused'), [{ where: 'database', what: say('cli.backup.notSqlite') }]);
    const backup = await makeBackup(database, folder, Date.now());
    const kept = listBackups(folder).length;
    const text = say('cli.backup.done', { file: backup.file, size: figure(backup.bytes / 1e6, 1), kept });
    return { json: { ...backup, kept }, text, code: 0 };
  });
}

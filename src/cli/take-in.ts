import { existsSync, readFileSync } from 'node:fs';
import { figure } from '../measure/figures.ts';
import { openArchive } from '../records/export-archive.ts';
import { presentGroup } from '../records/groups.ts';
import { importExport } from '../records/import.ts';
import { say } from '../wording/say.ts';
import { table } from './layout.ts';
import { type Outcome, Refusal } from './outcome.ts';
import { type RecordsOptions, withRecords } from './records.ts';

/**
 * `stillwinter take-in FILE`: takes an export in, each row once; taking it in again changes nothing. A whole group keeps being that
 * group; the history of one animal joins the group that is here.
 */
export async function takeInCommand(file: string, options: RecordsOptions): Promise<Outcome> {
  if (!existsSync(file)) throw new Refusal(say('cli.read.title'), [{ where: file, what: say('cli.read.noFile') }]);
  const archive = readFileSync(file);
  return withRecords(options, async (database) => {
    const group = openArchive(archive).format.animalId === undefined ? undefined : await presentGroup(database);
    const into = group ? { intoGroupId: group.id } : {};
    const parts = await importExport(database, archive, { nowMs: Date.now(), ...into });
    const rows = parts
      .filter((part) => part.rows > 0)
      .map((part) => [part.part, figure(part.rows), figure(part.taken), figure(part.differing)]);
    const head = (['part', 'rows', 'taken', 'differing'] as const).map((column) => say(`cli.import.${column}`));
    return { json: { parts }, text: table(head, rows), code: 0 };
  });
}

import { existsSync, readFileSync } from 'node:fs';
import { figure } from '../measure/figures.ts';
import { importExport } from '../records/import.ts';
import { say } from '../wording/say.ts';
import { table } from './layout.ts';
import { type Outcome, Refusal } from './outcome.ts';
import { type RecordsOptions, withRecords } from './records.ts';

/** `stillwinter take-in FILE`: takes an export in, each row once; taking it in again changes nothing. */
export async function takeInCommand(file: string, options: RecordsOptions): Promise<Outcome> {
  if (!existsSync(file)) throw new Refusal(say('cli.read.title'), [{ where: file, what: say('cli.read.noFile') }]);
  const archive = readFileSync(file);
  return withRecords(options, async (database) => {
    const parts = await importExport(database, archive, { nowMs: Date.now() });
    const rows = parts
      .filter((part) => part.rows > 0)
      .map((part) => [part.part, figure(part.rows), figure(part.taken)]);
    const head = [say('cli.import.part'), say('cli.import.rows'), say('cli.import.taken')];
    return { json: { parts }, text: table(head, rows), code: 0 };
  });
}

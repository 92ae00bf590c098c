import { figure } from '../measure/figures.ts';
import { openDatabase } from '../records/database.ts';
import { moveDatabase } from '../records/move.ts';
import { say } from '../wording/say.ts';
import { table } from './layout.ts';
import type { Outcome } from './outcome.ts';
import { type RecordsOptions, withRecords } from './records.ts';

/** `stillwinter move TARGET`: copies everything to another, empty database of either kind and compares counts and checksums. */
export async function moveCommand(target: string, options: RecordsOptions): Promise<Outcome> {
  return withRecords(options, async (source) => {
    const postgres = /^postgres(ql)?:\/\//.test(target);
    const into = await openDatabase(postgres ? { dataFolder: '', databaseUrl: target } : { dataFolder: target });
    try {
      const tables = await moveDatabase(source, into);
      const rows = tables.map((each) => [each.table, figure(each.rows), each.sha256.slice(0, 12)]);
      const head = [say('cli.import.part'), say('cli.import.rows'), 'sha256'];
      return { json: { tables }, text: `${table(head, rows, [0, 2])}\n${say('cli.move.done')}`, code: 0 };
    } finally {
      await into.close();
    }
  });
}

import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { DUMPED, pagesOf, putRows, sumsOf } from './dump.ts';
import { RecordProblem } from './problem.ts';
import { sumCorrectedHours } from './reading-store.ts';

export interface MovedTable {
  readonly table: string;
  readonly rows: number;
  readonly sha256: string;
}

/**
 * Copies everything from one database into another, empty one, of either kind, and compares counts and checksums of every table.
 * The source is only read. Throws RecordProblem when the target holds something, or when anything differs at the end.
 */
export async function moveDatabase(source: Database, target: Database): Promise<MovedTable[]> {
  const there = await target.kysely.selectFrom('groups').select('id').limit(1).executeTakeFirst();
  if (there) throw new RecordProblem('not-allowed', say('records.targetNotEmpty'));
  for (const table of DUMPED) for await (const rows of pagesOf(source, table)) await putRows(target, table.name, rows);
  await sumCorrectedHours(target.kysely);
  const [before, after] = [await sumsOf(source), await sumsOf(target)];
  const differing = [...before].filter(([name, sum]) => JSON.stringify(after.get(name)) !== JSON.stringify(sum));
  if (differing.length > 0)
    throw new RecordProblem(
      'database-damaged',
      say('records.moveDiffers', { tables: differing.map(([name]) => name).join(', ') }),
    );
  return [...after].map(([table, sum]) => ({ table, ...sum }));
}

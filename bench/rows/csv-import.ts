import { execFileSync } from 'node:child_process';
import { createReadStream, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { parse } from 'csv-parse';
import startOptions from '../../bin/start-options.json' with { type: 'json' };
import { writeLoggerFile } from '../../test/support/logger-file.ts';
import type { MakeRows } from '../row.ts';

const ROWS = 1_000_000;
const IN_BATCH = 10_000;

/** The import as the command line starts it, in a process of its own: seconds, and the most memory it held. */
function ours(folder: string, path: string): { seconds: number; mostBytes: number } {
  const data = join(folder, 'ours');
  mkdirSync(data);
  const script = join(import.meta.dirname, '..', '..', 'test', 'support', 'import-process.ts');
  const said = execFileSync(process.execPath, [...startOptions.import, script, data, path], { encoding: 'utf8' });
  const result = JSON.parse(said) as { stored: number; seconds: number; mostBytes: number };
  if (result.stored !== ROWS) throw new Error(`stored ${result.stored} of ${ROWS}`);
  return result;
}

/** A CSV library told everything beforehand, and the same insert: nothing detected, checked, repeated or summed. */
async function byLibrary(folder: string, path: string): Promise<number> {
  const file = new SqliteConnection(join(folder, 'plain.sqlite'));
  file.pragma('journal_mode = WAL');
  file.pragma('synchronous = FULL');
  file.exec(
    'create table readings (probe integer not null, at_ms integer not null, temp_c real not null, quality integer not null, source integer not null, primary key (probe, at_ms)) strict, without rowid',
  );
  const insert = file.prepare('insert into readings values (1, ?, ?, 0, 2)');
  const store = file.transaction((rows: readonly (readonly string[])[]) => {
    for (const [time = '', temp = ''] of rows)
      insert.run(Date.parse(`${time.replace(' ', 'T')}Z`), Number(temp.replace(',', '.')));
  });
  const from = performance.now();
  let batch: string[][] = [];
  for await (const row of createReadStream(path).pipe(parse({ delimiter: ';', from: 2 }))) {
    batch.push(row as string[]);
    if (batch.length < IN_BATCH) continue;
    store.immediate(batch);
    batch = [];
  }
  store.immediate(batch);
  const seconds = (performance.now() - from) / 1000;
  const { count } = file.prepare('select count(*) as count from readings').get() as { count: number };
  file.close();
  if (count !== ROWS) throw new Error(`the library stored ${count} of ${ROWS}`);
  return seconds;
}

export const rows: MakeRows = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  try {
    const path = join(folder, 'long.csv');
    writeLoggerFile(path, ROWS);
    const { seconds, mostBytes } = ours(folder, path);
    const library = await byLibrary(folder, path);
    const row = { name: 'csv-import', value: Math.round(seconds * 100) / 100, unit: 's' };
    return [
      { ...row, peer: '', ratio: null, note: `${ROWS} rows detected, checked, stored and summed by hours, SQLite` },
      {
        ...row,
        peer: 'csv-parse and the same insert',
        ratio: library / seconds,
        note: `${library.toFixed(2)} s with the form given beforehand, nothing checked or summed`,
      },
      { name: 'csv-import-memory', value: Math.round(mostBytes / 1e6), unit: 'MB', peer: '', ratio: null },
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
};

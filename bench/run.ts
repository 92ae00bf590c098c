import { readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import type { MakeRows } from './row.ts';

// Prints one JSON object per line. Names after the command choose files of bench/rows; none means all of them.
const asked = process.argv.slice(2);
const folder = new URL('./rows/', import.meta.url);
const files = readdirSync(folder)
  .filter((file) => file.endsWith('.ts'))
  .sort();
const unknown = asked.filter((name) => !files.includes(`${name}.ts`));
if (unknown.length > 0) {
  console.error(`No such row: ${unknown.join(', ')}. There are: ${files.map((file) => file.slice(0, -3)).join(', ')}`);
  process.exit(2);
}
console.error(
  `${new Date().toISOString().slice(0, 10)}, Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown processor'}`,
);
let failed = false;
for (const file of files) {
  if (asked.length > 0 && !asked.includes(file.slice(0, -3))) continue;
  try {
    const { rows } = (await import(new URL(file, folder).href)) as { rows: MakeRows };
    for (const row of await rows()) console.log(JSON.stringify(row));
  } catch (error) {
    failed = true;
    console.error(`${file}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  }
}
process.exit(failed ? 1 : 0);

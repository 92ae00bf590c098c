import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Fault, FaultCount } from '../../test/faults/counted.ts';

/**
 * What happens when things break: every fault of `test/faults/` made again, most of them five times, and what was found each time, added
 * up. Needs STILLWINTER_TEST_POSTGRES_URL and an installed Mosquitto. Exit 1 when a fault was not made or a test failed.
 */
const MADE: Readonly<Record<Fault, string>> = {
  killed: 'kill -9 of the server during writes (SQLite, diary entries and readings)',
  'disk-full-real':
    'disk full: a small tmpfs written full by a server running on it, killed and started again on the full disk',
  'read-only-at-start': 'read-only disk: a tmpfs mounted anew without writes, before a start',
  'read-only-real': 'read-only disk: an ext4 file system that aborts under the running server',
  'disk-full': 'disk full: the file may not grow (SQLite’s own limit of pages, the same error as from the disk)',
  'read-only-disk': 'read-only disk: the file takes no write (SQLite’s own switch)',
  'damaged-whole': 'corrupted file: overwritten from end to end before the start',
  'damaged-pages': 'corrupted file: eight pages overwritten, so that it still opens',
  'clock-back': 'clock set back by a year between two edits',
  'one-folder': 'two servers on one SQLite file',
  'database-away': 'PostgreSQL gone (its connections cut) and back',
  'database-away-a-minute':
    'PostgreSQL gone for a minute: 25 s without any sign, 15 s refusing, 20 s taking no connections; a letter on its way when it goes',
  'broker-killed': 'broker killed with kill -9 (Mosquitto that writes each change to its disk) and started again',
  'intake-killed': 'kill -9 of the intake while a broker sends',
};
const root = join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'stillwinter-faults-'));
const file = join(folder, 'counts');
const FILES = ['storage', 'disks', 'postgres-away', 'broker-away', 'broker-kill'];
const run = spawnSync(
  process.execPath,
  [join(root, 'node_modules', 'vitest', 'vitest.mjs'), 'run', '--project', 'faults', ...FILES],
  {
    cwd: root,
    env: { ...process.env, STILLWINTER_FAULT_COUNTS: file, STILLWINTER_FAULT_REPEATS: '4' },
    stdio: ['ignore', 2, 2],
  },
);
const lines = existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : [];
rmSync(folder, { recursive: true });
const counts = lines.map((line) => JSON.parse(line) as FaultCount);

console.log('Each row is made by tests of `test/faults/`; a number stands here only when its test has passed.\n');
console.log('| what is done | times | what was found |\n| --- | --- | --- |');
let missing = 0;
for (const [fault, what] of Object.entries(MADE)) {
  const of = counts.filter((count) => count.fault === fault);
  const times = of.reduce((sum, count) => sum + count.times, 0);
  if (times === 0) missing += 1;
  const found = new Map<string, number>();
  for (const count of of)
    for (const [name, number] of Object.entries(count.found)) found.set(name, (found.get(name) ?? 0) + number);
  const said = [...found].map(([name, number]) => `${name}: ${number}`).join('; ');
  console.log(`| ${what} | ${times} | ${said || 'NOT MADE, or its test failed'} |`);
}
const results = join(root, 'docs', 'results');
const longest = readdirSync(results)
  .filter((name) => name.endsWith('-kill-rounds.txt'))
  .sort()
  .at(-1);
const rounds = longest && /^\{.*\}$/m.exec(readFileSync(join(results, longest), 'utf8'))?.[0];
if (rounds) {
  const { rounds: times, acknowledged, lost, unsound } = JSON.parse(rounds);
  console.log(
    `\nThe kills of the server alone, for longer ([${longest}](${longest}), by \`npm run prove -- kill-rounds\`): ${times} times, ${acknowledged} records acknowledged, ${lost} lost, ${unsound} unsound files.`,
  );
}
process.exit(missing === 0 && run.status === 0 ? 0 : 1);

#!/usr/bin/env node
// Runs the command line on the project's own Node, whichever Node started this file, with the options its command is measured with.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const main = join(root, 'src', 'cli', 'main.ts');
const windows = process.platform === 'win32';
// Neither a million rows nor a year of a server make much that lives long: with a small nursery both stay under 250 MB and
// lose no time (`npm run bench -- csv-import`, `server-memory`). Its size is fixed when Node starts.
const flags = JSON.parse(readFileSync(join(root, 'bin', 'start-options.json'), 'utf8'))[process.argv[2]] ?? [];
const present = Number(process.versions.node.split('.')[0]) >= 24;
const given = [...process.execArgv, ...flags, main, ...process.argv.slice(2)];
if (present && flags.length === 0) {
  await import(main);
} else if (present && !windows) {
  // In place of this process, so that signals, exit code and memory are those of the command itself.
  process.execve(process.execPath, [process.execPath, ...given], process.env);
} else {
  const own = present ? process.execPath : join(root, 'node_modules', 'node', 'bin', windows ? 'node.exe' : 'node');
  if (!existsSync(own)) {
    console.error('Stillwinter is not installed yet: run "npm ci" in its folder first.');
    process.exit(1);
  }
  const child = spawn(own, given, { stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
  child.on('exit', (code) => process.exit(code ?? 1));
}

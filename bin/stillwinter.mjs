#!/usr/bin/env node
// Runs the command line on the project's own Node, whichever Node started this file.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const main = join(root, 'src', 'cli', 'main.ts');
// A million rows make little that lives long: a small nursery keeps an import under 250 MB and costs no time.
const flags = process.argv[2] === 'import' ? ['--max-semi-space-size=1'] : [];
const present = Number(process.versions.node.split('.')[0]) >= 24;
if (present && flags.length === 0) {
  await import(main);
} else {
  const own = join(root, 'node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
  if (!present && !existsSync(own)) {
    console.error('Stillwinter is not installed yet: run "npm ci" in its folder first.');
    process.exit(1);
  }
  const run = spawnSync(present ? process.execPath : own, [...flags, main, ...process.argv.slice(2)], {
    stdio: 'inherit',
  });
  process.exit(run.status ?? 1);
}

#!/usr/bin/env node
// Runs the command line on the project's own Node, whichever Node started this file.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const main = join(root, 'src', 'cli', 'main.ts');
if (Number(process.versions.node.split('.')[0]) >= 24) {
  await import(main);
} else {
  const own = join(root, 'node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
  if (!existsSync(own)) {
    console.error('Stillwinter is not installed yet: run "npm ci" in its folder first.');
    process.exit(1);
  }
  const run = spawnSync(own, [main, ...process.argv.slice(2)], { stdio: 'inherit' });
  process.exit(run.status ?? 1);
}

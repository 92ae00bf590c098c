// `npm run prove`: the longer proofs (soak, large ensembles, many kill rounds). Each writes what it printed, with machine and date, under docs/results.
import { spawn, spawnSync } from 'node:child_process';
import { createWriteStream, mkdirSync, readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { ensureInstalled, node, root, withOwnNode } from './own-node.mjs';

ensureInstalled();
const asked = process.argv.slice(2);
const folder = join(root, 'bench', 'prove');
const proofs = readdirSync(folder)
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.slice(0, -3));
const wanted = asked.length > 0 ? asked : proofs;
const unknown = wanted.filter((name) => !proofs.includes(name));
if (unknown.length > 0) {
  console.error(`There is no proof called ${unknown.join(', ')}. There are: ${proofs.join(', ')}.`);
  process.exit(2);
}
mkdirSync(join(root, 'docs', 'results'), { recursive: true });
const version = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root, encoding: 'utf8' }).stdout?.trim();
// Tables for a reader, made anew in place; the others keep one file a day.
const pages = new Set(['faults', 'moved-database', 'roles']);
let failed = 0;
for (const name of wanted) {
  const day = new Date().toISOString().slice(0, 10);
  const file = createWriteStream(join(root, 'docs', 'results', pages.has(name) ? `${name}.md` : `${day}-${name}.txt`));
  file.write(
    `${pages.has(name) ? '# ' : ''}${name}, ${day}${version ? `, at ${version}` : ''}, ${cpus()[0]?.model ?? 'unknown processor'} (${cpus().length} cores)\n\n`,
  );
  console.log(`\n== ${name}`);
  const child = spawn(node, [join(folder, `${name}.ts`)], {
    cwd: root,
    env: withOwnNode(),
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  child.stdout.on('data', (text) => {
    process.stdout.write(text);
    file.write(text);
  });
  const code = await new Promise((done) => child.on('close', done));
  file.end(code === 0 ? '' : `\nended with exit code ${code}\n`);
  if (code !== 0) failed += 1;
}
process.exit(failed > 0 ? 1 : 0);

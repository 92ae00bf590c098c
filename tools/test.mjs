// `npm test`: install what is missing, then every check and every test, the browser tests included. Nothing is skipped in silence.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, root, run, withOwnNode } from './own-node.mjs';

ensureInstalled();
const { ensureChromium } = await import('./chromium.mjs');
const only = process.argv.slice(2);

async function step(name, script, args, env = {}) {
  const from = Date.now();
  console.log(`\n== ${name}`);
  const code = await run(script, args, { env: withOwnNode(env) });
  console.log(
    `== ${name}: ${code === 0 ? 'passed' : `failed with exit code ${code}`} in ${((Date.now() - from) / 1000).toFixed(1)} s`,
  );
  if (code !== 0) process.exit(code);
}

let chromium = '';
try {
  chromium = await ensureChromium(root);
} catch (error) {
  console.error(error.message);
  process.exit(1);
}
const env = { STILLWINTER_CHROMIUM: chromium };

if (only.length === 0) {
  await step('types', 'node_modules/typescript/bin/tsc', ['-p', 'tsconfig.json']);
  await step('types of the knowledge, without Node or the browser', 'node_modules/typescript/bin/tsc', [
    '-p',
    'tsconfig.knowledge.json',
  ]);
  await step('style', 'node_modules/@biomejs/biome/bin/biome', ['ci', '--error-on-warnings']);
  await step('imports point down', 'node_modules/dependency-cruiser/bin/dependency-cruiser.mjs', [
    'src',
    'test',
    'bench',
    '--output-type',
    'err',
  ]);
  await step('nothing unused', 'node_modules/knip/bin/knip.js', []);
  await step('build of the screens', 'node_modules/vite/bin/vite.js', ['build', '--logLevel', 'warn']);
}
if (!existsSync(join(root, 'dist', 'web', 'index.html')))
  await step('build of the screens', 'node_modules/vite/bin/vite.js', ['build', '--logLevel', 'warn']);
await step('tests', 'node_modules/vitest/vitest.mjs', ['run', ...only], env);

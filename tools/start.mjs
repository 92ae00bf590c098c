// `npm start`: install, build the screens when their sources have changed, and serve the demonstration group on loopback.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, root, run } from './own-node.mjs';

ensureInstalled();

// Names, sizes and times of what the screens are built from: cheap enough to look at on every start.
function sourcesKey() {
  const hash = createHash('sha256');
  const walk = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) walk(path);
      else hash.update(`${path.slice(root.length)} ${statSync(path).size} ${Math.round(statSync(path).mtimeMs)}\n`);
    }
  };
  walk(join(root, 'src'));
  for (const file of ['vite.config.ts', 'tools/first-page.ts', 'package.json', 'package-lock.json'])
    hash.update(readFileSync(join(root, file)));
  return hash.digest('hex');
}

const stamp = join(root, 'dist', 'web.key');
const key = sourcesKey();
if (!existsSync(join(root, 'dist', 'web', 'index.html')) || !existsSync(stamp) || readFileSync(stamp, 'utf8') !== key) {
  console.log('Building the screens ...');
  const code = await run('node_modules/vite/bin/vite.js', ['build', '--logLevel', 'warn']);
  if (code !== 0) process.exit(code);
  mkdirSync(join(root, 'dist'), { recursive: true });
  writeFileSync(stamp, key);
}
process.exit(await run('bin/stillwinter.mjs', ['demo', ...process.argv.slice(2)]));

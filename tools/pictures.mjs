// `npm run pictures`: builds the screens and makes every picture of the manual anew; `npm run pictures -- NAME …` some of them.
import { ensureInstalled, root, run, withOwnNode } from './own-node.mjs';

ensureInstalled();
const { ensureChromium } = await import('./chromium.mjs');
const env = withOwnNode({ STILLWINTER_CHROMIUM: await ensureChromium(root) });
const code = await run('node_modules/vite/bin/vite.js', ['build', '--logLevel', 'warn']);
process.exit(code === 0 ? await run('tools/manual-pictures.ts', process.argv.slice(2), { env }) : code);

// `npm run bench`: every figure with a budget, one JSON object per line on standard output. `npm run bench -- winter-run` for one.
import { ensureInstalled, run } from './own-node.mjs';

ensureInstalled();
process.exit(await run('bench/run.ts', process.argv.slice(2)));

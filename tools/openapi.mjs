// `node tools/openapi.mjs`: writes docs/openapi.json, the description of the HTTP interface as the server hands it out.
import { spawnSync } from 'node:child_process';
import { ensureInstalled, node, root, withOwnNode } from './own-node.mjs';

ensureInstalled();
const script = `
import { writeFileSync } from 'node:fs';
import { openApiText } from './src/server/openapi.ts';
writeFileSync('docs/openapi.json', openApiText());
`;
const made = spawnSync(node, ['--input-type=module', '-e', script], {
  cwd: root,
  env: withOwnNode(),
  stdio: 'inherit',
});
process.exit(made.status ?? 1);

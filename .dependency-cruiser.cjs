// The house: imports only point down. Each room may import the rooms listed for it, itself, and packages.
const rooms = {
  measure: [],
  wording: ['measure'],
  tortoise: ['measure', 'wording'],
  air: ['measure', 'wording'],
  weather: ['measure', 'wording'],
  physiology: ['measure', 'wording', 'air', 'tortoise'],
  heat: ['measure', 'wording', 'air', 'weather'],
  winter: ['measure', 'wording', 'tortoise', 'air', 'weather', 'physiology', 'heat'],
  schema: ['measure', 'wording', 'tortoise', 'air', 'weather', 'physiology', 'heat', 'winter'],
};
const knowledge = Object.keys(rooms);
Object.assign(rooms, {
  records: knowledge,
  access: [...knowledge, 'records'],
  intake: [...knowledge, 'records'],
  papers: [...knowledge, 'records'],
  notices: [...knowledge, 'records', 'access'],
  server: [...knowledge, 'records', 'access', 'intake', 'papers', 'notices'],
  cli: [...knowledge, 'records', 'access', 'intake', 'papers', 'notices', 'server'],
  web: knowledge,
});
const downOnly = Object.entries(rooms).map(([room, below]) => ({
  name: `${room}-imports-down`,
  severity: 'error',
  from: { path: `^src/${room}/` },
  to: { path: '^src/', pathNot: [room, ...below].map((r) => `^src/${r}/`) },
}));
/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...downOnly,
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'knowledge-is-pure',
      comment: 'knowledge runs in the browser and in Node: no Node modules, no faces',
      severity: 'error',
      from: { path: `^src/(${knowledge.join('|')})/` },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'no-test-in-src', severity: 'error', from: { path: '^src/' }, to: { path: '^(test|bench)/' } },
    { name: 'resolvable', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    parser: 'swc',
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'], extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'] },
  },
};

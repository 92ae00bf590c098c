import { describedApi } from '../../src/server/openapi.ts';

/**
 * Who may do what, as the routes themselves say it; `test/server/roles.test.ts` asks every one of them as nobody, reader, keeper and tutor,
 * against a list written by hand. Exit 1 when a route names no role.
 */
const ROLES = ['anyone', 'reader', 'keeper', 'tutor'] as const;
const routes = [...describedApi().described].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
console.log(
  'A keeper reaches their own animals only. Until a person is set up, whoever sits at the machine is the tutor.\n',
);
console.log(
  '| method | path | nobody | reader | keeper | tutor | what it does |\n| --- | --- | --- | --- | --- | --- | --- |',
);
for (const { method, path, needs, summary } of routes) {
  const cells = ROLES.map((_, rank) => (rank >= ROLES.indexOf(needs) ? 'may' : '–'));
  console.log(`| ${method.toUpperCase()} | ${path.replace('/api/v1', '')} | ${cells.join(' | ')} | ${summary} |`);
}
const of = (needs: string) => routes.filter((route) => route.needs === needs).length;
console.log(`\n${routes.length} routes: ${ROLES.map((role) => `${of(role)} need ${role}`).join(', ')}.`);
process.exit(routes.every((route) => ROLES.includes(route.needs)) ? 0 : 1);

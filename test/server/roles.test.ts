import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { ANIMAL } from '../../src/records/kinds.ts';
import { routesOf } from '../../src/server/app.ts';
import { id, SCOPE, SEDGE, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';
import { cookieOf, testApp } from './given.ts';

type Least = 'anyone' | 'reader' | 'keeper' | 'tutor';

/** What each route needs at least, written here a second time, by hand: a route that opens wider than this fails. */
const MATRIX: Record<string, Least> = {
  'get group': 'reader',
  'put group': 'tutor',
  'get session': 'anyone',
  'post session': 'anyone',
  'delete session': 'anyone',
  'post session/set-up': 'anyone',
  'post session/join': 'anyone',
  'put session/passphrase': 'reader',
  'get session/all': 'reader',
  'delete session/others': 'reader',
  'get people': 'reader',
  'post people/invitations': 'tutor',
  'put people/{id}/role': 'tutor',
  'delete people/{id}': 'tutor',
  ...entries('animals'),
  ...entries('places'),
  ...entries('boxes'),
  ...entries('stays'),
  ...entries('probes'),
  ...entries('tasks-done'),
  ...entries('animals/{animalId}/measurements', false),
  ...entries('animals/{animalId}/examinations', false),
  ...entries('animals/{animalId}/health-events', false),
  ...entries('animals/{animalId}/diary', false),
  ...entries('animals/{animalId}/gut-warmth', false),
  'get animals/{animalId}/photographs': 'reader',
  'post animals/{animalId}/photographs': 'keeper',
  'get animals/{animalId}/photographs/{id}/image': 'reader',
  'put animals/{animalId}/photographs/{id}': 'keeper',
  'get photographs/main': 'reader',
  'delete animals/{animalId}/photographs/{id}': 'keeper',
  'post animals/{animalId}/photographs/{id}/restore': 'keeper',
  'get animals/{animalId}/shares': 'keeper',
  'post animals/{animalId}/shares': 'keeper',
  'delete animals/{animalId}/shares/{id}': 'keeper',
  'get shared/{token}': 'anyone',
  'get shared/{token}/photographs/{id}/image': 'anyone',
  'get animals/{id}/assessment': 'reader',
  'get animals/{id}/plans': 'reader',
  'post animals/{id}/plans': 'keeper',
  'get animals/{id}/history': 'reader',
  'get animals/{id}/papers/plan-sheet.pdf': 'reader',
  'get animals/{id}/papers/box-label.pdf': 'reader',
  'get animals/{id}/papers/diary-sheet.pdf': 'reader',
  'get animals/{id}/papers/vet-summary.pdf': 'reader',
  'get animals/{id}/calendar.ics': 'reader',
  'get papers/handout.pdf': 'reader',
  'get calendars': 'reader',
  'post calendars': 'reader',
  'delete calendars/{id}': 'reader',
  'get stays/{id}/forecast': 'reader',
  'get stays/{id}/limits': 'reader',
  'put stays/{id}/limits': 'keeper',
  'get records/{id}/changes': 'reader',
  'get deleted': 'reader',
  'get round': 'reader',
  'get weather/winters': 'reader',
  'post weather/records': 'tutor',
  'get forecasts': 'reader',
  'post forecasts': 'tutor',
  'get readings': 'reader',
  'get readings/single': 'reader',
  'get readings/file': 'reader',
  'post readings': 'keeper',
  'post readings/max-min': 'keeper',
  'post readings/corrections': 'keeper',
  'post imports': 'keeper',
  'get imports/{id}': 'keeper',
  'post imports/{id}/preview': 'keeper',
  'get imports/{id}/rejected': 'keeper',
  'post imports/{id}/save': 'keeper',
  'delete imports/{id}': 'keeper',
  'post ingest': 'anyone',
  'get probes/{id}/token': 'keeper',
  'get probes/{id}/battery': 'reader',
  'post probes/{id}/token': 'keeper',
  'delete probes/{id}/token': 'keeper',
  'get notices': 'reader',
  'post notices/acknowledgements': 'keeper',
  'post batch': 'keeper',
  'get outside': 'reader',
  'get quarantine': 'keeper',
  'delete quarantine/{id}': 'tutor',
  'get channels': 'reader',
  'post channels': 'reader',
  'delete channels/{id}': 'reader',
  'post channels/{id}/test': 'reader',
  'get listening': 'reader',
  'put listening': 'reader',
  'get undelivered': 'reader',
  'get archive': 'tutor',
  'get animals/{id}/archive': 'keeper',
  'post archives': 'tutor',
  'post archives/{id}/take-in': 'tutor',
  'delete archives/{id}': 'tutor',
  'get backups': 'tutor',
  'post backups': 'tutor',
};

function entries(path: string, single = true): Record<string, Least> {
  return {
    [`get ${path}`]: 'reader',
    [`post ${path}`]: 'keeper',
    ...(single ? { [`get ${path}/{id}`]: 'reader' as const } : {}),
    [`put ${path}/{id}`]: 'keeper',
    [`delete ${path}/{id}`]: 'keeper',
    [`post ${path}/{id}/restore`]: 'keeper',
  };
}

const RANK = { anyone: 0, reader: 1, keeper: 2, tutor: 3 };
const ROLES = ['nobody', 'reader', 'keeper', 'tutor'] as const;
const OPEN_TO_NOBODY = new Set(['get group', 'put group']);

describe('every route by every role', () => {
  let database: Database;
  let app: ReturnType<typeof testApp>;
  const cookies: Record<(typeof ROLES)[number], Record<string, string>> = {
    nobody: {},
    reader: {},
    keeper: {},
    tutor: {},
  };

  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await smallGroup(database);
    app = testApp(database);
    const tutor = { id: id(900), name: 'Ada', signInName: 'ada', passphrase: 'plain copper kettle' };
    cookies.tutor = cookieOf(await app.ask('POST', 'session/set-up', tutor));
    for (const [number, role] of [
      [901, 'reader'],
      [902, 'keeper'],
    ] as const) {
      const asked = { id: id(number + 10), role, animalIds: [] };
      const invited = await app.ask('POST', 'people/invitations', asked, cookies.tutor);
      const person = { id: id(number), name: role, signInName: role, passphrase: 'seven grey pebbles' };
      cookies[role] = cookieOf(await app.ask('POST', 'session/join', { ...person, token: invited.body.token }));
    }
    await make(database, SCOPE, ANIMAL, { ...SEDGE, id: id(70), name: 'Mine', keeperId: id(902) });
  });
  afterAll(() => database.close());

  it('is written down: the matrix and the server list the same routes', () => {
    const described = routesOf(app.api).map((route) => `${route.method} ${route.path.replace('/api/v1/', '')}`);
    expect(Object.keys(MATRIX).sort()).toEqual([...described].sort());
  });

  const cases = Object.entries(MATRIX).flatMap(([route, least]) =>
    ROLES.filter(
      (role) =>
        !(route === 'delete session' && role !== 'nobody') &&
        !(route === 'put session/passphrase' && role !== 'nobody'),
    ).map((role) => [route, role, least] as const),
  );
  it.each(cases)('%s by %s', async (route, role, least) => {
    const [method = '', pattern = ''] = route.split(' ');
    // A sound animal in the path and nothing sound in the body: who may not pass is stopped before either is looked at.
    const path = pattern.replace('{animalId}', SEDGE.id).replace('{id}', id(999)).replace('{token}', 'x'.repeat(43));
    const body = ['post', 'put'].includes(method) ? {} : undefined;
    const answer = await app.ask(method.toUpperCase(), path, body, cookies[role]);
    const allowed = role === 'nobody' ? least === 'anyone' : RANK[role] >= RANK[least];
    if (allowed) expect([401, 403].includes(answer.status) && route !== 'post session').toBe(false);
    else if (OPEN_TO_NOBODY.has(route)) expect([401, 403, 422]).toContain(answer.status);
    else expect(answer.status).toBe(role === 'nobody' ? 401 : 403);
    expect(answer.status).toBeLessThan(500);
  });

  it('a keeper reaches their own animals and none of the others', async () => {
    const list = await app.ask('GET', 'animals', undefined, cookies.keeper);
    expect(list.body.map((animal: { name: string }) => animal.name)).toEqual(['Mine']);
    for (const path of ['', '/photographs', '/shares', '/measurements', '/diary', '/plans', '/assessment', '/history'])
      expect((await app.ask('GET', `animals/${SEDGE.id}${path}`, undefined, cookies.keeper)).status).toBe(404);
    const weighing = { id: id(71), animalId: SEDGE.id, at: '2026-12-01T00:00:00Z', massG: 1, kind: 'routine' };
    expect((await app.ask('POST', `animals/${SEDGE.id}/measurements`, weighing, cookies.keeper)).status).toBe(422);
    const plan = { id: id(72), reason: 'x', request: { species: SEDGE.species, sclMm: 170, latitudeDeg: 52 } };
    expect((await app.ask('POST', `animals/${SEDGE.id}/plans`, plan, cookies.keeper)).status).toBe(404);
    const batch = [{ id: id(73), kind: 'animal', body: { ...SEDGE, name: 'Taken', revision: 1 } }];
    expect((await app.ask('POST', 'batch', batch, cookies.keeper)).body[0]).toMatchObject({ state: 'refused' });
    expect((await app.ask('GET', `animals/${SEDGE.id}`, undefined, cookies.tutor)).body.name).toBe('Sedge');
  });
});

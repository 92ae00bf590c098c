import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { problemSchema } from '../../src/server/openapi.ts';
import { FISH_BOX, GROUP, id, SEDGE, SHED, smallGroup } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';
import { testApp } from './given.ts';

const WELL = {
  appetiteNormal: true,
  weightNormal: true,
  hydrated: true,
  carryingEggs: false,
  illness: false,
  treatment: false,
};
const PARTS = ['eyes', 'nose', 'mouth', 'limbs', 'shell', 'tail', 'breathing', 'droppings'];

describe.each(STORES)('the HTTP API on %s', (store) => {
  let database: Database;
  let ask: ReturnType<typeof testApp>['ask'];
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
    ask = testApp(database).ask;
  });
  afterAll(() => database.close());

  it('carries an animal from its record to a kept plan, and the plan to the round', async () => {
    const animal = `animals/${SEDGE.id}`;
    await ask('PUT', animal, { ...SEDGE, birthDate: '2009-08-14', acquiredOn: '2010-06-01', wintersSlept: 14 });
    const of = { animalId: SEDGE.id };
    const size = { id: id(20), ...of, at: '2026-11-20T09:00:00Z', massG: 1180, sclMm: 178, kind: 'routine' };
    expect((await ask('POST', `${animal}/measurements`, size)).status).toBe(200);
    const findings = Object.fromEntries(PARTS.map((part) => [part, 'clear']));
    const examination = { id: id(21), ...of, at: '2026-11-20T09:10:00Z', moment: 'before', findings, answers: WELL };
    await ask('POST', `${animal}/examinations`, examination);
    const checked = { id: id(22), ...of, kind: 'parasite-check', fromDay: '2026-09-01' };
    await ask('POST', `${animal}/health-events`, checked);
    const verdict = await ask('GET', `${animal}/assessment`);
    expect(verdict.body.verdict).toBe('may-go-down');
    const request = { species: SEDGE.species, sclMm: 178, latitudeDeg: 52, sleepDay: '2027-01-20', sleepDays: 40 };
    const kept = await ask('POST', `${animal}/plans`, { id: id(23), request, reason: 'First plan' });
    expect(kept.status).toBe(200);
    expect(kept.body).toMatchObject({ revision: 1, plan: { kind: 'sleep', sleepDay: '2027-01-20' } });
    const moved = await ask('POST', `${animal}/plans`, {
      id: id(24),
      request: { ...request, sleepDay: '2027-01-24' },
      reason: 'Too mild yet',
    });
    expect(moved.body).toMatchObject({ revision: 2, reason: 'Too mild yet' });
    expect((await ask('GET', `${animal}/plans`)).body).toHaveLength(2);
    const task = moved.body.plan.tasks[0];
    const round = await ask('GET', `round?day=${task.day}`);
    const line = round.body.parts[0].lines.find((one: { taskKey: string }) => one.taskKey === task.key);
    expect(line).toMatchObject({ animalName: 'Sedge', say: task.say, late: false });
  });

  it.each([
    ['a tropical species', 'Stigmochelys pardalis', 290, 4600],
    ['an unknown species', 'unknown', 165, 900],
    ['a hybrid', 'hybrid', 165, 950],
  ])('never gives %s a plan to sleep, whatever the request says', async (_, species, sclMm, massG) => {
    const animalId = id(massG);
    await ask('POST', 'animals', {
      id: animalId,
      name: 'Saffron',
      species,
      sex: 'female',
      ageYears: 9,
      ageAsOf: '2026-11-01',
    });
    const size = { id: id(massG + 1), animalId, at: '2026-11-20T09:00:00Z', massG, sclMm, kind: 'routine' };
    expect((await ask('POST', `animals/${animalId}/measurements`, size)).status).toBe(200);
    expect((await ask('GET', `animals/${animalId}/assessment`)).body.verdict).toBe('stay-awake');
    for (const wish of ['sleep', 'first-cooling', undefined]) {
      const request = { species: 'Testudo hermanni', sclMm: 178, latitudeDeg: 52, ...(wish ? { wish } : {}) };
      const refused = await ask('POST', `animals/${animalId}/plans`, {
        id: id(massG + 2),
        request,
        reason: 'Let it sleep',
      });
      expect(refused.status).toBe(422);
      expect(refused.body.type).toBe('/problems/not-hibernating');
      expect(refused.body.current.kind).toBe('awake');
    }
    expect((await ask('GET', `animals/${animalId}/plans`)).body).toEqual([]);
    const request = { species, sclMm, latitudeDeg: 52, wish: 'awake' };
    const awake = await ask('POST', `animals/${animalId}/plans`, { id: id(massG + 3), request, reason: 'Stays up' });
    expect(awake.body.plan.kind).toBe('awake');
  });

  it('says so when an animal was never measured', async () => {
    await ask('POST', 'animals', { ...SEDGE, id: id(30), name: 'New' });
    expect((await ask('GET', `animals/${id(30)}/assessment`)).body).toMatchObject({
      status: 422,
      type: '/problems/not-measured',
    });
  });

  it('deletes what a phone deleted without a connection, once, and not what was changed since', async () => {
    const made = { id: id(60), animalId: SEDGE.id, at: '2026-12-09T08:00:00Z', massG: 800, kind: 'asleep' };
    const path = `animals/${SEDGE.id}/measurements`;
    await ask('POST', path, made);
    const send = async (revision?: number) =>
      (await ask('POST', 'batch', [{ id: id(60), kind: 'measurement', body: { id: id(60), revision }, delete: true }]))
        .body[0];
    const there = async () => (await ask('GET', path)).body.some((one: { id: string }) => one.id === id(60));
    await ask('PUT', `${path}/${id(60)}`, { ...made, massG: 810, revision: 1 });
    expect(await send(1)).toMatchObject({ state: 'conflict', problem: { status: 409 } });
    expect((await send()).state).toBe('refused');
    expect(await there()).toBe(true);
    expect((await send(2)).state).toBe('saved');
    expect(await there()).toBe(false);
    expect((await send(2)).state).toBe('already-there');
  });

  it('keeps what a phone saved without a connection, once, and keeps the good from the bad', async () => {
    const entry = (number: number, kind: string, body: object) => ({
      id: id(number),
      kind,
      body: { id: id(number), ...body },
    });
    const batch = [
      entry(40, 'diary', { animalId: SEDGE.id, at: '2026-12-09T08:00:00Z', kind: 'lid-opened' }),
      entry(41, 'measurement', { animalId: SEDGE.id, at: '2026-12-09T08:01:00Z', massG: -4, kind: 'asleep' }),
      entry(42, 'reading', {
        probeId: id(3),
        at: '2026-12-09T08:02:00Z',
        tempC: 4.5,
        quality: 'good',
        source: 'typed',
      }),
      entry(43, 'max-min', {
        probeId: id(3),
        fromAt: '2026-12-08T08:00:00Z',
        toAt: '2026-12-09T08:02:00Z',
        maxC: 6,
        minC: 3,
      }),
      entry(44, 'place', SHED),
      entry(45, 'box', { ...FISH_BOX, id: id(45), placeId: SHED.id }),
    ];
    batch[4]!.body.id = SHED.id;
    const first = await ask('POST', 'batch', batch);
    expect(first.body.map((one: { state: string }) => one.state)).toEqual([
      'saved',
      'refused',
      'saved',
      'saved',
      'saved',
      'saved',
    ]);
    expect(first.body[1].problem.errors).toEqual([{ where: 'massG', what: 'Give 1 or more.' }]);
    const again = await ask('POST', 'batch', batch);
    expect(again.body.map((one: { state: string }) => one.state)).toEqual([
      'already-there',
      'refused',
      'already-there',
      'already-there',
      'already-there',
      'already-there',
    ]);
    const chart = await ask(
      'GET',
      `readings?probeId=${id(3)}&from=2026-12-09T00:00:00Z&to=2026-12-10T00:00:00Z&buckets=100`,
    );
    expect(chart.body).toMatchObject({ count: 1, meanC: [4.5], maxMin: [{ maxC: 6, minC: 3 }] });
  });

  it('answers a conflict with the version that stands, and keeps both', async () => {
    const path = `animals/${SEDGE.id}`;
    const now = (await ask('GET', path)).body;
    expect((await ask('PUT', path, { ...now, notes: 'from the laptop' })).status).toBe(200);
    const late = await ask('PUT', path, { ...now, notes: 'from the shed' });
    expect(late).toMatchObject({
      status: 409,
      body: { type: '/problems/edit-conflict', current: { notes: 'from the laptop' } },
    });
    expect((await ask('GET', path)).body.notes).toBe('from the laptop');
  });

  it('deletes so that it can be brought back, and tells the whole history', async () => {
    await ask('DELETE', `animals/${SEDGE.id}`);
    expect((await ask('GET', `animals/${SEDGE.id}`)).status).toBe(410);
    expect((await ask('POST', `animals/${SEDGE.id}/restore`)).body.name).toBe('Sedge');
    const history = (await ask('GET', `animals/${SEDGE.id}/history`)).body;
    expect(history.measurements).toHaveLength(1);
    const actions = history.changes
      .filter((one: { kind: string }) => one.kind === 'animal')
      .map((one: { action: string }) => one.action);
    expect(actions).toEqual(['made', 'changed', 'changed', 'deleted', 'restored']);
  });

  it('hands out the same winters each time, made from the normals of the group', async () => {
    expect((await ask('GET', 'weather/winters')).body.errors[0].where).toBe('group.climateNormals');
    const climateNormals = Array.from({ length: 12 }, (_, month) => ({
      maxC: 14 - 8 * Math.cos((month * Math.PI) / 6),
      minC: 6 - 6 * Math.cos((month * Math.PI) / 6),
    }));
    await ask('PUT', 'group', { ...GROUP, climateNormals, climateNote: 'Typed in for a test' });
    const one = (await ask('GET', 'weather/winters?days=30&winters=4&fromDay=2026-12-01')).body;
    expect(one).toMatchObject({ source: 'normals', note: 'Typed in for a test' });
    expect(one.winters.map((winter: { airTempC: number[] }) => winter.airTempC.length)).toEqual([720, 720, 720, 720]);
    const two = (await ask('GET', 'weather/winters?days=30&winters=4&fromDay=2026-12-01')).body;
    expect(two).toEqual(one);
  });
});

describe('refusals', () => {
  let database: Database;
  let ask: ReturnType<typeof testApp>['ask'];
  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    ask = testApp(database).ask;
  });
  afterAll(() => database.close());

  const sound = { ...GROUP };
  const cases: [string, Parameters<typeof ask>, number, string][] = [
    ['no group yet', ['GET', 'animals'], 404, 'no-group'],
    ['half a JSON', ['PUT', 'group', '{"name":'], 400, 'not-json'],
    ['a form instead of JSON', ['PUT', 'group', 'name=x', { 'content-type': 'text/plain' }], 415, 'wrong-content-type'],
    ['two megabytes', ['PUT', 'group', { ...sound, climateNote: 'x'.repeat(2e6) }], 413, 'too-large'],
    ['another page’s origin', ['PUT', 'group', sound, { origin: 'http://elsewhere.example' }], 403, 'not-allowed'],
    [
      'another site by its fetch metadata',
      ['PUT', 'group', sound, { 'sec-fetch-site': 'cross-site' }],
      403,
      'not-allowed',
    ],
    ['an address that is not ours', ['GET', 'group', undefined, { host: 'rebound.example' }], 421, 'wrong-host'],
    ['an unknown route', ['GET', 'tortoises'], 404, 'no-such-route'],
    ['a field of its own', ['PUT', 'group', { ...sound, admin: true }], 422, 'invalid'],
  ];
  it.each(cases)('%s', async (_, call, status, type) => {
    const answer = await ask(...call);
    expect(answer.status).toBe(status);
    expect(answer.headers.get('content-type')).toBe('application/problem+json');
    expect(problemSchema.parse(answer.body)).toMatchObject({ status, type: `/problems/${type}` });
    expect((await ask('GET', answer.body.type)).body.title).toBe(answer.body.title);
  });

  it('carry a strict policy on every answer, with nothing inline and nothing from elsewhere', async () => {
    for (const path of ['/', '/health', '/api/v1/session', '/api/v1/nothing']) {
      const policy = (await ask('GET', path)).headers.get('content-security-policy')!;
      expect(policy).toContain("default-src 'none'");
      expect(policy).not.toMatch(/unsafe|https?:|\*|data:/);
    }
  });
});

describe('a weather file', () => {
  let database: Database;
  let ask: ReturnType<typeof testApp>['ask'];
  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await smallGroup(database);
    ask = testApp(database).ask;
  });
  afterAll(() => database.close());
  const csv = { 'content-type': 'text/csv' };
  /** Five years of daily extremes, invented: colder each year, so that each winter can be told. */
  const days = Array.from({ length: 5 * 365 }, (_, i) => {
    const day = new Date(Date.UTC(2020, 0, 1) + i * 86_400_000).toISOString().slice(0, 10);
    const mean = 10 - 7 * Math.cos((2 * Math.PI * (i - 15)) / 365.25) - i / 1000;
    return `${day},${(mean + 4).toFixed(1)},${(mean - 4).toFixed(1)}`;
  });
  const file = ['date,temp_max,temp_min', ...days, ''].join('\n');

  it('becomes the recorded winters that places and boxes are run through', async () => {
    const taken = await ask('POST', 'weather/records', file, csv);
    expect(taken.body).toMatchObject({ kind: 'daily', unit: 'C' });
    expect((await ask('POST', 'weather/records', file, csv)).body.hours).toBe(taken.body.hours);
    const winters = (await ask('GET', 'weather/winters?fromDay=2026-11-01&days=120&winters=30')).body;
    expect(winters.source).toBe('recorded');
    expect(winters.winters.map((winter: { label: string }) => winter.label)).toEqual([
      '2020-21',
      '2021-22',
      '2022-23',
      '2023-24',
    ]);
    const coldest = winters.winters.map((winter: { airTempC: number[] }) => Math.min(...winter.airTempC));
    expect([...coldest].sort((a, b) => b - a)).toEqual(coldest);
  });

  it('with a line that cannot be read is refused by that line, and nothing of it is kept', async () => {
    const other = await freshDatabase('sqlite');
    await smallGroup(other);
    const refused = await testApp(other).ask(
      'POST',
      'weather/records',
      file.replace('2020-03-01,', '2020-03-XX,'),
      csv,
    );
    expect(refused.status).toBe(422);
    expect(refused.body.errors[0].where).toContain('62');
    expect(await other.kysely.selectFrom('weatherHours').selectAll().execute()).toEqual([]);
    await other.close();
  });
});

import { z } from 'zod';
import { RECORD_ANSWERS } from './record-answers.ts';

interface RouteExample {
  readonly body?: unknown;
  readonly answer?: unknown;
}

const animalId = '01980d2e-7c00-7000-8000-000000000002';
const probeId = '01980d2e-7c00-7000-8000-00000000000a';
const noticeId = '01980d2e-7c00-7000-8000-00000000000b';
const personId = '01980d2e-7c00-7000-8000-000000000030';
const token = 'kq1Vw0m2cFJp8ZtXbS5nRyLd3hGuEoA7iTzNxQ4sPwM';
const person = { id: personId, name: 'Wren Ashby', signInName: 'wren', role: 'tutor' };
const passphrase = 'a long line only you know';
const weighed = {
  id: '01980d2e-7c00-7000-8000-000000000003',
  animalId,
  at: '2027-01-09T08:40:00.000Z',
  massG: 1283,
  kind: 'asleep',
};
const forecast = {
  madeAtMs: Date.UTC(2027, 0, 9),
  startMs: Date.UTC(2027, 0, 9),
  stepS: 3600,
  airTempC: [3.1, 2.8, 2.4],
  cloudShare: [0.9, 0.9, 0.8],
};
const stored = { stored: 1, alreadyThere: 0 };
const outbox = '01980d2e-7c00-7000-8000-000000000006';
const lidOpened = { id: outbox, animalId, at: '2027-01-09T08:40:00Z', kind: 'lid-opened' };

/**
 * What is sent to a route and what it answers, where the schema of the thing does not carry an example of its own. All of it is
 * invented; a test checks each against the schema it stands for.
 */
const ROUTE_EXAMPLES: Readonly<Record<string, RouteExample>> = {
  'get /api/v1/session': {
    answer: {
      peopleExist: true,
      person,
      role: 'tutor',
      groupId: '01980d2e-7c00-7000-8000-000000000001',
      demonstration: false,
      nowMs: Date.UTC(2027, 0, 9),
    },
  },
  'post /api/v1/session': { body: { signInName: 'wren', passphrase }, answer: person },
  'post /api/v1/session/set-up': {
    body: { id: personId, name: 'Wren Ashby', signInName: 'wren', passphrase },
    answer: person,
  },
  'post /api/v1/session/join': {
    body: { id: personId, name: 'Wren Ashby', signInName: 'wren', passphrase, token },
    answer: { ...person, role: 'keeper' },
  },
  'put /api/v1/session/passphrase': { body: { old: passphrase, passphrase: 'another long line of mine' } },
  'get /api/v1/session/all': {
    answer: [{ device: 'A browser', createdAtMs: Date.UTC(2027, 0, 2), lastSeenAtMs: Date.UTC(2027, 0, 9) }],
  },
  'get /api/v1/people': { answer: [person] },
  'put /api/v1/people/{id}/role': { body: { role: 'tutor' }, answer: person },
  'get /api/v1/records/{id}/changes': {
    answer: {
      kind: 'measurement',
      record: { ...weighed, massG: 1238, revision: 2 },
      changes: [
        {
          kind: 'measurement',
          recordId: weighed.id,
          revision: 2,
          action: 'changed',
          by: 'Wren Ashby',
          at: '2027-01-09T08:45:00.000Z',
          before: weighed,
          after: { ...weighed, massG: 1238 },
        },
      ],
      beside: [],
    },
  },
  'get /api/v1/deleted': {
    answer: [{ kind: 'measurement', at: '2027-01-09T08:50:00.000Z', by: 'Wren Ashby', record: weighed }],
  },
  'post /api/v1/people/invitations': {
    body: { id: '01980d2e-7c00-7000-8000-000000000032', role: 'keeper', animalIds: [animalId] },
    answer: { token, until: '2027-01-16T08:40:00.000Z' },
  },
  'get /api/v1/readings': {
    answer: {
      probeId,
      bucketMs: 3_600_000,
      count: 12,
      atMs: [Date.UTC(2027, 0, 9, 7), Date.UTC(2027, 0, 9, 8)],
      minC: [4.7, 4.8],
      meanC: [4.8, 4.9],
      maxC: [4.9, 5.1],
      humidity: [0.81, null],
      maxMin: [],
    },
  },
  'get /api/v1/readings/single': {
    answer: [
      {
        reading: { probeId, at: '2027-01-09T08:40:00Z', tempC: 4.9, quality: 'good', source: 'typed' },
        correction: { tempC: 4.9, quality: 'excluded', reason: 'Read while the lid was open' },
      },
    ],
  },
  'post /api/v1/readings': { answer: stored },
  'post /api/v1/readings/max-min': { answer: stored },
  'post /api/v1/readings/corrections': {
    body: {
      reading: { probeId, at: '2027-01-09T08:40:00Z', tempC: 4.9, quality: 'excluded', source: 'typed' },
      reason: 'Read while the lid was open',
    },
  },
  'post /api/v1/notices/acknowledgements': {
    body: { noticeId, at: '2027-01-09T08:45:00Z', note: 'Moved to the cellar' },
  },
  'get /api/v1/animals/{animalId}/shares': {
    answer: [
      {
        id: '01980d2e-7c00-7000-8000-000000000033',
        animalId,
        forWhom: 'Dr Hollis',
        until: '2027-02-01T00:00:00Z',
        revoked: false,
      },
    ],
  },
  'post /api/v1/animals/{animalId}/shares': {
    body: {
      id: '01980d2e-7c00-7000-8000-000000000033',
      animalId,
      forWhom: 'Dr Hollis',
      until: '2027-02-01T00:00:00Z',
    },
    answer: { token, until: '2027-02-01T00:00:00Z' },
  },
  'get /api/v1/stays/{id}/forecast': {
    answer: {
      state: 'forecast',
      madeAt: '2027-01-09T08:40:00.000Z',
      times: ['2027-01-09T08:40:00.000Z', '2027-01-09T09:40:00.000Z'],
      tempC: [3.4, 2.9],
      low: [3.1, 2.5],
      high: [3.7, 3.3],
      limits: { coldC: [3, 2, 0], warmC: [8, 10] },
      readings: { from: '2027-01-07T08:40:00.000Z', to: '2027-01-09T08:35:00.000Z', used: 288, setAside: 0 },
      fits: true,
      breach: {
        side: 'cold',
        likely: true,
        limitC: 3,
        at: '2027-01-09T09:28:00.000Z',
        what: 'The box is expected to fall below 3 °C in about an hour.',
      },
    },
  },
  'get /api/v1/forecasts': { answer: forecast },
  'post /api/v1/forecasts': { body: forecast },
  'get /api/v1/weather/winters': {
    answer: {
      source: 'recorded',
      winters: [
        {
          label: '2025-26',
          origin: 'recorded',
          fromDay: '2025-11-01',
          startMs: Date.UTC(2025, 10, 1),
          stepS: 3600,
          airTempC: [9.1, 8.8, null, 8.2],
          missingShare: 0.25,
        },
      ],
    },
  },
  'post /api/v1/weather/records': {
    answer: { kind: 'daily', unit: 'C', hours: 8760, columns: { date: 'date', max: 'temp_max', min: 'temp_min' } },
  },
  'post /api/v1/batch': {
    body: [{ id: outbox, kind: 'diary', body: lidOpened }],
    answer: [{ id: outbox, state: 'saved' }],
  },
  'get /api/v1/outside': {
    answer: {
      broker: { connected: true, topic: 'shed/{probe}/temperature' },
      wire: false,
      weather: { at: '2027-01-09T08:40:00.000Z', error: null },
      mail: true,
      pushKey: null,
    },
  },
  'get /api/v1/quarantine': {
    answer: [
      {
        id: '01980d2e-7c00-7000-8000-000000000034',
        source: 'mqtt',
        sender: 'shed/fish-box/temperature',
        what: '85.0',
        why: '85 °C is what this kind of thermometer says when it has just been switched on.',
        firstAt: '2027-01-09T08:40:00.000Z',
        lastAt: '2027-01-09T08:50:00.000Z',
        count: 2,
      },
    ],
  },
  'get /api/v1/channels': {
    answer: [{ channel: { id: '01980d2e-7c00-7000-8000-000000000020', kind: 'email', address: 'wren@example.org' } }],
  },
  'post /api/v1/channels': { answer: {} },
  'get /api/v1/undelivered': {
    answer: [
      {
        noticeId,
        level: 'act-now',
        personId,
        attempts: 3,
        lastError: 'The mail server did not answer.',
        givenUp: false,
      },
    ],
  },
  ...RECORD_ANSWERS,
};

/** The example of what a route takes or gives: its own, else that of the schema; a list of things shows one. */
export function exampleOf(
  route: { method: string; path: string },
  side: 'body' | 'answer',
  schema: z.ZodType,
): unknown {
  const own = ROUTE_EXAMPLES[`${route.method} ${route.path}`]?.[side];
  if (own !== undefined) return own;
  const told = (schema.meta()?.examples as readonly unknown[] | undefined)?.[0];
  if (told !== undefined) return told;
  if (!(schema instanceof z.ZodArray)) return undefined;
  const one = exampleOf(route, side, schema.element as z.ZodType);
  return one === undefined ? undefined : [one];
}

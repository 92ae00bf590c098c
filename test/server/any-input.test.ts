import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { createApp } from '../../src/server/app.ts';
import { describedRoutes } from '../../src/server/openapi.ts';
import { GROUP, NOW_MS } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';

const HOSTILE: unknown[] = [
  null,
  true,
  -1,
  0,
  1e308,
  1.5,
  2 ** 53,
  '',
  ' ',
  'x'.repeat(5000),
  '\0',
  '\ud800',
  '=1+1',
  `'; drop table animals; --`,
  '9999-99-99',
  '2026-02-30',
  '0000-01-01T00:00:00Z',
  '+275760-09-13T00:00:00Z',
  '01980d2e-7c00-7000-8000-ffffffffffff',
  [],
  {},
  [null],
  { __proto__: null, constructor: {} },
];
const anything = fc.oneof(fc.constantFrom(...HOSTILE), fc.jsonValue({ maxDepth: 4 }));

/** A sound body with one place in it replaced, added or taken away. */
function spoilt(sound: unknown): fc.Arbitrary<unknown> {
  const places: (string | number)[][] = [];
  const walk = (value: unknown, path: (string | number)[]) => {
    places.push(path);
    if (Array.isArray(value)) {
      for (const [i, inner] of value.entries()) walk(inner, [...path, i]);
    } else if (value !== null && typeof value === 'object')
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key]);
  };
  walk(sound, []);
  return fc.tuple(fc.constantFrom(...places), anything, fc.boolean()).map(([path, value, away]) => {
    const copy = { root: structuredClone(sound) };
    // biome-ignore lint/suspicious/noExplicitAny: any place in any body
    let at: any = copy;
    const whole = ['root', ...path];
    for (const step of whole.slice(0, -1)) at = at[step];
    const last = whole.at(-1)!;
    if (away && path.length > 0) delete at[last];
    else at[last] = value;
    return copy.root;
  });
}

describe.each(STORES)('whatever is sent to any route on %s', (store) => {
  let database: Database;
  const faults: unknown[] = [];
  let api: ReturnType<typeof createApp>;
  const send = (method: string, path: string, body?: unknown) =>
    api.request(path, {
      method: method.toUpperCase(),
      headers: { host: 'localhost', ...(body === undefined ? {} : { 'content-type': 'application/json' }) },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  beforeAll(async () => {
    database = await freshDatabase(store);
    const context = {
      database,
      nowMs: () => NOW_MS + 60 * 86_400_000,
      dataFolder: join(tmpdir(), 'stillwinter-tests'),
    };
    api = createApp({ context, webFolder: '/nowhere', onFault: (error) => faults.push(error) });
    await send('put', '/api/v1/group', GROUP);
    for (const part of ['animals', 'places', 'boxes', 'stays', 'probes'])
      expect((await send('post', `/api/v1/${part}`, bodyOf('post', `/api/v1/${part}`))).status).toBe(200);
  });
  afterAll(() => database.close());

  const routes = () =>
    describedRoutes(api).openAPIRegistry.definitions.flatMap((one) => (one.type === 'route' ? [one.route] : []));
  const bodyOf = (method: string, path: string): unknown => {
    const asked = routes().find((one) => one.method === method && one.path === path)?.request?.body;
    return (asked?.content['application/json'] as { example?: unknown } | undefined)?.example;
  };
  const IDS = ['01980d2e-7c00-7000-8000-000000000002', '01980d2e-7c00-7000-8000-00000000000a'];

  it('it is answered, and never by a fault of ours', async () => {
    const part = fc.oneof(
      fc.constantFrom(...IDS, '01980D2E-7C00-7000-8000-000000000002', '0', '..', 'null', '%00', "'--"),
      fc.string({ maxLength: 30 }),
    );
    const word = fc.oneof(fc.constantFrom(...HOSTILE.map((one) => JSON.stringify(one))), fc.string({ maxLength: 20 }));
    const statuses = new Map<number, number>();
    for (const { method, path, request } of routes()) {
      const sound = bodyOf(method, path);
      const names = request?.query ? Object.keys((request.query as { shape: object }).shape) : [];
      const asked = fc.record({
        parts: fc.array(part, { minLength: 2, maxLength: 2 }),
        query: fc.array(word, { minLength: names.length, maxLength: names.length }),
        body: sound === undefined ? fc.constant(undefined) : fc.oneof(anything, spoilt(sound), spoilt(sound)),
      });
      for (const one of fc.sample(asked, { numRuns: sound === undefined ? 6 : 15, seed: 2026 })) {
        let next = 0;
        // The sound animal stands in the path half of the time, so that the body is looked at too.
        const filled = path.replaceAll(/\{(\w+)\}/g, () =>
          encodeURIComponent(next++ % 2 === 0 && sound ? IDS[0]! : clean(one.parts[next % 2]!)),
        );
        const query = new URLSearchParams(names.map((name, i) => [name, clean(one.query[i]!)])).toString();
        const answer = await send(method, `${filled}${query ? `?${query}` : ''}`, one.body);
        const text = await answer.text();
        expect(
          answer.status,
          `${method} ${filled}?${query} ${JSON.stringify(one.body)} ${text} ${String(faults.at(-1))}`,
        ).toBeLessThan(500);
        if (answer.status >= 400)
          expect(JSON.parse(text)).toMatchObject({
            status: answer.status,
            type: expect.stringContaining('/problems/'),
          });
        statuses.set(answer.status, (statuses.get(answer.status) ?? 0) + 1);
        if (path.includes('/session/') && answer.status === 200) {
          await database.kysely.deleteFrom('sessions').execute();
          await database.kysely.deleteFrom('people').execute();
        }
      }
    }
    expect(faults).toEqual([]);
    // Both kinds were met: what was taken and what was refused.
    expect(statuses.get(200)).toBeGreaterThan(20);
    expect(statuses.get(422)).toBeGreaterThan(100);
  }, 60_000);
});

/** A lone surrogate cannot stand in an address. */
const clean = (text: string): string => text.toWellFormed();

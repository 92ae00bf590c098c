import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { PROBE } from '../../src/records/kinds.ts';
import { readingsBetween } from '../../src/records/readings.ts';
import { id, NOW_MS, SCOPE, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';
import { testApp } from './given.ts';

describe('a thermometer that sends with a token of its own', () => {
  let database: Database;
  let app: ReturnType<typeof testApp>;
  let bearer: Record<string, string>;
  beforeEach(async () => {
    database = await freshDatabase('sqlite');
    await smallGroup(database);
    await make(database, SCOPE, PROBE, { id: id(4), name: 'Lid', offsetC: -0.3, expectedIntervalS: 600 });
    app = testApp(database);
    const { token } = (await app.ask('POST', `probes/${id(4)}/token`)).body;
    bearer = { authorization: `Bearer ${token}` };
  });
  afterEach(() => database.close());
  const kept = async () =>
    (await readingsBetween(database, id(4), 0, NOW_MS + 1)).map((one) => [one.tempC, one.source]);

  it('stores single readings and lists at its probe, with the offset, each once', async () => {
    const one = { at: '2026-12-10T10:00:00Z', tempC: 5 };
    expect((await app.ask('POST', 'ingest', one, bearer)).body).toEqual({ stored: 1, alreadyThere: 0, refused: 0 });
    const list = [one, { at: '2026-12-10T10:10:00Z', tempC: 4.9, humidity: 0.8 }];
    expect((await app.ask('POST', 'ingest', list, bearer)).body).toEqual({ stored: 1, alreadyThere: 1, refused: 0 });
    expect((await app.ask('POST', 'ingest', { tempC: 4.8 }, bearer)).body.stored).toBe(1);
    expect(await kept()).toEqual([
      [4.7, 'http'],
      [4.6, 'http'],
      [4.5, 'http'],
    ]);
  });

  it('puts what cannot be true into quarantine and takes the rest', async () => {
    const list = [
      { at: '2026-12-10T10:00:00Z', tempC: -127 },
      { at: '2036-12-10T10:00:00Z', tempC: 5 },
      { at: '2016-12-10T10:00:00Z', tempC: 5 },
      { at: '2026-12-10T10:10:00Z', tempC: 5 },
    ];
    expect((await app.ask('POST', 'ingest', list, bearer)).body).toEqual({ stored: 1, alreadyThere: 0, refused: 3 });
    expect((await app.ask('GET', 'quarantine')).body).toHaveLength(3);
  });

  it('is told when the token is unknown, replaced or revoked, or the reading is none; nothing is stored then', async () => {
    const one = { tempC: 5 };
    expect((await app.ask('POST', 'ingest', one)).status).toBe(401);
    expect((await app.ask('POST', 'ingest', one, { authorization: `Bearer ${'x'.repeat(43)}` })).status).toBe(401);
    expect((await app.ask('POST', 'ingest', { tempC: 'warm' }, bearer)).status).toBe(422);
    const { token } = (await app.ask('POST', `probes/${id(4)}/token`)).body;
    expect((await app.ask('POST', 'ingest', one, bearer)).status).toBe(401);
    const renewed = { authorization: `Bearer ${token}` };
    await app.ask('DELETE', `probes/${id(4)}/token`);
    expect((await app.ask('POST', 'ingest', one, renewed)).status).toBe(401);
    expect(await kept()).toEqual([]);
  });
});

import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { askingSecond, startWeatherService, type WeatherService } from '../../src/intake/weather-service.ts';
import type { Database } from '../../src/records/database.ts';
import { keepWeather, newestForecast } from '../../src/records/weather.ts';
import { outsideSettings } from '../../src/server/outside.ts';
import { GROUP, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';

const HOUR = 3_600_000;
const FROM = Date.parse('2027-01-01T00:00:00Z');
const lists = (tempsC: readonly (number | null)[]) => ({
  utc_offset_seconds: 0,
  hourly_units: { time: 'unixtime', temperature_2m: '°C' },
  hourly: { time: tempsC.map((_, hour) => FROM / 1000 + hour * 3600), temperature_2m: tempsC },
});
const feature = (tempsC: readonly number[]) => ({
  type: 'Feature',
  geometry: { type: 'Point', coordinates: [-1.2, 52.4, 90] },
  properties: {
    meta: { updated_at: '2027-01-01T05:20:11Z', units: { air_temperature: 'celsius' } },
    timeseries: tempsC.map((tempC, hour) => ({
      time: new Date(FROM + hour * HOUR).toISOString(),
      data: { instant: { details: { air_temperature: tempC } } },
    })),
  },
});

describe('the weather service', () => {
  let database: Database;
  let now = 0;
  let asked: IncomingMessage[] = [];
  let answer: (response: ServerResponse) => void = () => undefined;
  let running: WeatherService | undefined;
  const faults: unknown[] = [];
  const stub = createServer((request, response) => {
    asked.push(request);
    answer(response);
  });
  const give =
    (body: unknown, headers: Record<string, string> = {}, status = 200) =>
    (response: ServerResponse) =>
      response.writeHead(status, headers).end(typeof body === 'string' ? body : JSON.stringify(body));
  let heard = 0;
  const start = (more: { url?: string } = {}) => {
    running = startWeatherService({
      database,
      group: GROUP,
      url: `http://127.0.0.1:${(stub.address() as AddressInfo).port}/hourly?lat={latitude}&lon={longitude}`,
      contact: 'keeper@example.org',
      nowMs: () => now,
      onForecast: () => heard++,
      onError: (error) => faults.push(error),
      tickMs: 1_000_000,
      ...more,
    });
    return running;
  };

  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await smallGroup(database);
    await new Promise<void>((done) => stub.listen(0, '127.0.0.1', done));
  });
  beforeEach(async () => {
    for (const table of ['weatherForecasts', 'weatherHours', 'settings'] as const)
      await database.kysely.deleteFrom(table).execute();
    now = FROM + 6 * HOUR + 600_000;
    asked = [];
    heard = 0;
    faults.length = 0;
  });
  afterEach(() => running?.stop());
  afterAll(async () => {
    await new Promise((done) => stub.close(done));
    await database.close();
  });

  it('stores what is to come as the forecast and what is past as weather, and says who asks and for where', async () => {
    answer = give(lists(Array.from({ length: 96 }, (_, hour) => hour / 10)));
    const service = start();
    await service.look();
    const forecast = await newestForecast(database, GROUP.id);
    expect(forecast).toMatchObject({ madeAtMs: now, startMs: FROM + 6 * HOUR, stepS: 3600 });
    expect(forecast!.airTempC).toHaveLength(90);
    expect(forecast!.airTempC[0]).toBeCloseTo(0.6, 9);
    const rows = await database.kysely.selectFrom('weatherHours').selectAll().orderBy('atMs').execute();
    expect(rows.map((row) => row.tempC)).toEqual([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6]);
    expect(asked).toHaveLength(1);
    expect(asked[0]!.url).toBe(`/hourly?lat=${GROUP.latitudeDeg.toFixed(4)}&lon=${GROUP.longitudeDeg.toFixed(4)}`);
    expect(asked[0]!.headers['user-agent']).toMatch(/^Stillwinter\/.*keeper@example\.org/);
    expect(service.state).toEqual({ atMs: now });
    expect(heard).toBe(1);
    expect(faults).toEqual([]);
  });

  it('reads a GeoJSON time series and keeps the time the service worked it out', async () => {
    answer = give(feature(Array.from({ length: 60 }, () => -3.5)));
    await start().look();
    const forecast = await newestForecast(database, GROUP.id);
    expect(forecast?.madeAtMs).toBe(Date.parse('2027-01-01T05:20:11Z'));
    expect(new Set(forecast?.airTempC)).toEqual(new Set([-3.5]));
  });

  it('keeps missing hours missing', async () => {
    answer = give(lists([1, 1, 1, 1, null, 1, 2, null, null, 3]));
    await start().look();
    expect((await newestForecast(database, GROUP.id))?.airTempC).toEqual([2, null, null, 3]);
    const rows = await database.kysely.selectFrom('weatherHours').select('atMs').execute();
    expect(rows.map((row) => Number(row.atMs))).not.toContain(FROM + 4 * HOUR);
  });

  it('leaves hours alone that somebody took in from a record', async () => {
    await keepWeather(database, GROUP.id, [{ atMs: FROM + 2 * HOUR, tempC: -9 }], 'file');
    answer = give(lists(Array.from({ length: 20 }, () => 4)));
    await start().look();
    const rows = await database.kysely.selectFrom('weatherHours').selectAll().orderBy('atMs').execute();
    expect(rows.map((row) => row.tempC)).toEqual([4, 4, -9, 4, 4, 4, 4]);
  });

  it('asks once an hour, off the full hour, and after a restart no sooner', async () => {
    answer = give(lists(Array.from({ length: 96 }, () => 4)));
    await start().look();
    await running!.stop();
    await start().look();
    expect(asked).toHaveLength(1);
    const next = Math.ceil((now - askingSecond(GROUP.id) * 1000) / HOUR) * HOUR + askingSecond(GROUP.id) * 1000;
    now = next - 1000;
    await running!.look();
    expect(asked).toHaveLength(1);
    now = next;
    await running!.look();
    expect(asked).toHaveLength(2);
    for (const id of [GROUP.id, '01980d2e-7c00-7000-8000-00000000aaaa', '01980d2e-7c00-7000-8000-00000000aaab']) {
      expect(askingSecond(id)).toBeGreaterThanOrEqual(120);
      expect(askingSecond(id)).toBeLessThanOrEqual(3480);
    }
  });

  it('waits until the answer expires, then asks whether it has changed; 304 keeps the forecast', async () => {
    const lastModified = 'Fri, 01 Jan 2027 05:00:00 GMT';
    answer = give(lists(Array.from({ length: 96 }, () => 4)), {
      'last-modified': lastModified,
      expires: new Date(now + 3 * HOUR).toUTCString(),
    });
    await start().look();
    now += 2 * HOUR;
    await running!.look();
    expect(asked).toHaveLength(1);
    answer = give('', {}, 304);
    now += 2.1 * HOUR;
    await running!.look();
    expect(asked[1]?.headers['if-modified-since']).toBe(lastModified);
    expect(running!.state).toEqual({ atMs: now });
    expect((await newestForecast(database, GROUP.id))?.airTempC[0]).toBe(4);
    expect(heard).toBe(1);
  });

  it('leaves a service alone that says it is asked too often, shows why, and goes on afterwards', async () => {
    answer = give('slow down', { 'retry-after': '10800' }, 429);
    await start().look();
    expect(running!.state.error).toMatch(/too often/);
    now += 2.9 * HOUR;
    await running!.look();
    expect(asked).toHaveLength(1);
    answer = give(lists(Array.from({ length: 96 }, () => 4)));
    now += 1.2 * HOUR;
    await running!.look();
    expect(running!.state).toEqual({ atMs: now });
  });

  it.each([
    ['broken JSON after 200', give('{"hourly": {"time": [1798'), /broken/],
    ['a form nobody knows', give({ weather: 'nice' }), /not used/],
    ['an answer that is all past', give(lists([1, 2, 3])), /hours to come/],
    ['another address', give('', { location: 'http://127.0.0.1:9/' }, 302), /another address/],
    ['a failing service', give('', {}, 503), /503/],
    ['more than 2 MB', give(' '.repeat(2_000_001)), /2 MB/],
    ['a line that breaks', (response: ServerResponse) => void response.destroy(), /cannot be reached/],
  ])('%s is shown, and the forecast before it stays', async (_, bad, shown) => {
    answer = give(lists(Array.from({ length: 96 }, () => 4)), { 'last-modified': 'Fri, 01 Jan 2027 05:00:00 GMT' });
    await start().look();
    const good = now;
    answer = bad;
    now += 1.1 * HOUR;
    await running!.look();
    expect(running!.state.atMs).toBe(good);
    expect(running!.state.error).toMatch(shown);
    expect((await newestForecast(database, GROUP.id))?.madeAtMs).toBe(good);
    expect(faults).toEqual([]);
  });

  it('needs an address that says where the place goes', () => {
    const url = 'https://weather.example.org/?lat={latitude}&lon={longitude}';
    expect(outsideSettings({ STILLWINTER_WEATHER_URL: url }).weather).toEqual({ url });
    expect(() => outsideSettings({ STILLWINTER_WEATHER_URL: 'https://weather.example.org/' })).toThrow(/latitude/);
    expect(() => outsideSettings({ STILLWINTER_WEATHER_URL: 'file:///{latitude}{longitude}' })).toThrow(/http/);
  });
});

import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { BoxForecasts } from '../../src/notices/box-forecast.ts';
import { addChannel } from '../../src/notices/channels.ts';
import { claimDue, queueTellings } from '../../src/notices/outbox.ts';
import { compose } from '../../src/notices/sender.ts';
import { WatchService } from '../../src/notices/watch-service.ts';
import type { Database } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { DIARY } from '../../src/records/kinds.ts';
import { keepForecast, keepWeather } from '../../src/records/weather.ts';
import { say } from '../../src/wording/say.ts';
import { GROUP, id, SEDGE } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';
import { testApp } from '../server/given.ts';
import { BOX_PROBE, emptied, KEEPER, readBox, SLEEP_FROM_MS, scopeAt, sleepingSedge } from './given.ts';

const HOUR = 3_600_000;
const STAY_ID = id(12);

describe.each(STORES)('the forecast of the box on %s', (store) => {
  let database: Database;
  let now = 0;
  let watch: WatchService;
  let boxes: BoxForecasts;
  const faults: unknown[] = [];
  const look = () => boxes.look(now, (error) => faults.push(error));
  const told = async (rule = 'forecast-cold') =>
    (await database.kysely.selectFrom('notices').selectAll().where('ruleId', '=', rule).execute()).map((row) => ({
      id: row.id,
      open: row.clearedAtMs === null,
      message: JSON.parse(row.message),
    }));
  /** Hourly weather to come, from the present hour. */
  const expected = (temperature: (hour: number) => number | null, hours = 90) =>
    keepForecast(database, GROUP.id, {
      madeAtMs: now,
      startMs: Math.floor(now / HOUR) * HOUR,
      stepS: 3600,
      airTempC: Array.from({ length: hours }, (_, hour) => temperature(hour)),
    });
  const ask = async () => testApp(database, () => now).ask('GET', `stays/${STAY_ID}/forecast`);

  beforeAll(async () => {
    database = await freshDatabase(store);
  });
  beforeEach(async () => {
    for (const table of ['weatherForecasts', 'weatherHours'] as const)
      await database.kysely.deleteFrom(table).execute();
    await emptied(database);
    await sleepingSedge(database);
    // Without people the routes answer this machine.
    await database.kysely.updateTable('animals').set({ keeperId: null }).execute();
    await database.kysely.deleteFrom('people').execute();
    faults.length = 0;
    const mild = Array.from({ length: 20 * 24 }, (_, hour) => ({
      atMs: SLEEP_FROM_MS + (hour - 18 * 24) * HOUR,
      tempC: 5,
    }));
    await keepWeather(database, GROUP.id, mild, 'file');
    now = await readBox(
      database,
      SLEEP_FROM_MS + 600_000,
      Array.from({ length: 280 }, () => 5),
    );
    watch = new WatchService(database, () => now);
    boxes = new BoxForecasts(database, watch);
    await watch.start();
  });
  afterAll(() => database.close());

  it('a hard frost to come is told before it has reached the box in the shed', async () => {
    await expected((hour) => (hour < 14 ? 5 : -12));
    await look();
    const [notice, ...more] = await told();
    expect(more).toEqual([]);
    expect(notice?.open).toBe(true);
    expect(Number(notice!.message.values.count)).toBeGreaterThan(12);
    const { status, body } = await ask();
    expect(status).toBe(200);
    expect(body).toMatchObject({
      state: 'forecast',
      limits: { coldC: [3, 2, 0], warmC: [8, 10] },
      readings: { used: 280, setAside: 0 },
      fits: true,
    });
    expect(body.madeAt).toBe(new Date(now).toISOString());
    expect(body.times).toHaveLength(73);
    expect(body.tempC[0]).toBeCloseTo(5, 0);
    expect(body.tempC.at(-1)).toBeLessThan(0);
    expect(body.breach).toMatchObject({ side: 'cold', likely: true });
    for (let k = 0; k < 73; k++) {
      expect(body.low[k]).toBeLessThan(body.tempC[k]);
      expect(body.high[k]).toBeGreaterThan(body.tempC[k]);
    }
    expect(faults).toEqual([]);
  });

  it('a mild forecast is told to nobody, and is there to be looked at', async () => {
    await expected((hour) => 5 + Math.sin((hour * Math.PI) / 12));
    await look();
    expect(await told()).toEqual([]);
    expect(await told('forecast-warm')).toEqual([]);
    expect((await ask()).body.tempC.every((tempC: number) => tempC > 3 && tempC < 9)).toBe(true);
  });

  it('a warm spell is told as such', async () => {
    await expected(() => 16);
    await look();
    expect(await told('forecast-warm')).toHaveLength(1);
    expect(await told()).toEqual([]);
  });

  it('stays one notice through a replay, a restart and newer forecasts, and ends when they have stayed mild', async () => {
    await expected(() => -12);
    await look();
    const [first] = await told();
    await make(database, scopeAt(now), DIARY, {
      id: id(60),
      animalId: SEDGE.id,
      at: new Date(now - HOUR).toISOString(),
      kind: 'lid-opened',
    });
    await watch.arrived({ animalIds: [SEDGE.id], fromMs: 0 });
    expect(await told()).toEqual([first]);
    watch = new WatchService(database, () => now);
    boxes = new BoxForecasts(database, watch);
    await watch.start();
    await look();
    expect(await told()).toEqual([first]);
    for (let hour = 0; hour < 14; hour++) {
      const from = now + 600_000;
      now = await readBox(
        database,
        from,
        Array.from({ length: 6 }, () => 5),
      );
      await watch.arrived({ probeIds: [BOX_PROBE], fromMs: from });
      await expected(() => (hour < 2 ? -11 : 5));
      await look();
      if (hour < 2) expect(await told()).toEqual([first]);
    }
    expect((await told()).map(({ id, open }) => ({ id, open }))).toEqual([{ id: first!.id, open: false }]);
  });

  it('ends where the weather forecast has a hole, and is left out when it is a day old', async () => {
    await expected((hour) => (hour >= 20 && hour < 30 ? null : 5));
    await look();
    expect((await ask()).body.times).toHaveLength(19);
    now += 13 * HOUR;
    expect((await ask()).body).toMatchObject({ state: 'none', reason: 'short-weather' });
    now += 12 * HOUR;
    await look();
    expect((await ask()).body).toMatchObject({ state: 'none', reason: 'old-weather' });
  });

  it('tells the round today, and not another day, when it leaves the limits', async () => {
    const staysOf = async (day: string) =>
      (await testApp(database, () => now).ask('GET', `round?day=${day}`)).body.parts.flatMap(
        (part: { stays: unknown[] }) => part.stays,
      );
    const today = new Date(now).toISOString().slice(0, 10);
    await expected(() => 4);
    await look();
    expect((await staysOf(today))[0].breach).toBeUndefined();
    now += HOUR;
    await expected(() => -12);
    await look();
    const [stay] = await staysOf(today);
    expect(stay.breach).toMatchObject({ side: 'cold', likely: true, limitC: 3 });
    expect(stay.breach.at).toBe((await ask()).body.breach.at);
    const [other] = await staysOf(new Date(now + 24 * HOUR).toISOString().slice(0, 10));
    expect(other.breach).toBeUndefined();
  });

  it('is being worked out while all it needs is there', async () => {
    await expected(() => 4);
    expect((await ask()).body).toMatchObject({ state: 'none', reason: 'in-work' });
    await look();
    expect((await ask()).body.state).toBe('forecast');
  });

  it('goes by the limits that the keeper has set for the stay', async () => {
    await expected(() => 4);
    await look();
    expect((await ask()).body.breach?.likely ?? false).toBe(false);
    await testApp(database, () => now).ask('PUT', `stays/${STAY_ID}/limits`, { ruleId: 'under-3', limit: 4.9 });
    const { body } = await ask();
    expect(body.limits.coldC).toEqual([4.9, 2, 0]);
    expect(body.breach).toMatchObject({ side: 'cold', likely: true, limitC: 4.9 });
  });

  it('speaks in the units of the group with the right plural, on the screen, by mail and by push alike', async () => {
    await database.kysely.updateTable('groups').set({ temperatureUnit: 'F' }).execute();
    watch = new WatchService(database, () => now);
    boxes = new BoxForecasts(database, watch);
    await watch.start();
    await expected((hour) => (hour < 14 ? 3 : -12));
    await look();
    expect((await ask()).body.breach.what).toMatch(/below 37\.4\u00a0°F in about \d+ hours\.$/);
    const [notice] = await told();
    const sentence = say(notice!.message);
    expect(sentence).toMatch(
      /^Forecast: colder than [\d.]+\u00a0°F in the box in about \d+ hours, down to −?[\d.]+\u00a0°F\./,
    );
    await database.kysely
      .insertInto('people')
      .values({
        id: KEEPER,
        groupId: GROUP.id,
        name: 'keeper',
        signInName: 'keeper',
        role: 'keeper',
        passphraseHash: 'none',
        createdAtMs: SLEEP_FROM_MS,
        removedAtMs: null,
      })
      .execute();
    await database.kysely.updateTable('animals').set({ keeperId: KEEPER }).execute();
    const subscription = { endpoint: 'https://push.example.org/1', p256dh: 'p'.repeat(87), auth: 'a'.repeat(22) };
    const who = { id: KEEPER, groupId: GROUP.id };
    await addChannel(database, who, { id: id(60), kind: 'email', address: 'keeper@example.org' }, SLEEP_FROM_MS);
    await addChannel(database, who, { id: id(61), kind: 'push', ...subscription }, SLEEP_FROM_MS);
    now += 24 * HOUR;
    expect(await queueTellings(database, GROUP.id, now)).toBe(2);
    const letters = await Promise.all((await claimDue(database, now)).map((row) => compose(database, row)));
    expect(letters.map((letter) => letter?.text)).toEqual(Array(2).fill(`Sedge, Tool shed: ${sentence}`));
  });

  const lacking: readonly (readonly [string, string, () => Promise<unknown>])[] = [
    ['no-thermometer', 'thermometer', () => database.kysely.updateTable('probes').set({ boxId: null }).execute()],
    ['no-weather', 'weather forecast', () => database.kysely.deleteFrom('weatherForecasts').execute()],
    ['no-readings', 'last 48 hours', () => database.kysely.deleteFrom('readings').execute()],
    [
      'short-weather',
      'too little',
      async () => {
        now += 1;
        await expected(() => 5, 4);
      },
    ],
    [
      'place-unknown',
      'how the place is built',
      () =>
        database.kysely
          .updateTable('places')
          .set({ description: JSON.stringify({ kind: 'readings' }) })
          .execute(),
    ],
    ['not-asleep', 'nobody sleeps', () => database.kysely.updateTable('stays').set({ toDay: '2026-12-01' }).execute()],
  ];
  it.each(lacking)('says what is missing: %s', async (reason, words, take) => {
    await expected(() => 5);
    await look();
    expect((await ask()).body.state).toBe('forecast');
    await take();
    const { status, body } = await ask();
    expect(status).toBe(200);
    expect(body).toMatchObject({ state: 'none', reason });
    expect(body.what).toContain(words);
  });

  it('is left out for a box in a refrigerator', async () => {
    const description = JSON.stringify({ kind: 'refrigerator' });
    await database.kysely.updateTable('places').set({ description }).where('id', '=', id(10)).execute();
    await expected(() => -12);
    await look();
    expect(await told()).toEqual([]);
    expect((await ask()).body).toMatchObject({ state: 'none', reason: 'refrigerator' });
  });
});

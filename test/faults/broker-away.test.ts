import mqtt from 'mqtt';
import { expect, it, onTestFinished } from 'vitest';
import { startIntake } from '../../src/intake/service.ts';
import { GROUP, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';
import { startMosquitto } from '../support/mosquitto.ts';
import { counted } from './counted.ts';

const ROUNDS = 5;
const EACH = 40;

// The broker is ours to kill only where Mosquitto is installed; it writes each change to its disk, so that a kill takes nothing from it.
const broker = await startMosquitto(['autosave_on_changes true', 'autosave_interval 1']);

it.runIf(broker)(
  'a broker killed and started again, five times over: the intake is back by itself, and has every reading once',
  async () => {
    const { url, kill, again, stop } = broker!;
    onTestFinished(stop);
    const database = await freshDatabase('sqlite');
    onTestFinished(() => database.close());
    await smallGroup(database);
    const stored = async () => (await database.kysely.selectFrom('readings').select('atMs').execute()).length;
    const prefix = `stillwinter-away-${process.pid}`;
    const intake = startIntake({
      database,
      groupId: GROUP.id,
      nowMs: Date.now,
      mqtt: { url, clientId: prefix, shape: { topic: `${prefix}/{probe}/t`, payload: '$.c', timePath: '$.t' } },
      onError: () => undefined,
    });
    onTestFinished(() => intake.stop());
    const publisher = await mqtt.connectAsync(url, { reconnectPeriod: 200 });
    publisher.on('error', () => undefined);
    onTestFinished(() => publisher.endAsync());
    const newest = Date.now();
    let [sent, made] = [0, 0];
    const publish = () => {
      const message = JSON.stringify({ c: 4.5, t: new Date(newest - sent * 60_000).toISOString() });
      sent += 1;
      return publisher.publishAsync(`${prefix}/outdoors/t`, message, { qos: 1 });
    };
    // The session is there once a first reading comes through; before that the broker keeps nothing.
    while ((await stored()) === 0) {
      await publish();
      await new Promise((later) => setTimeout(later, 200));
    }
    const before = sent - (await stored());
    for (let round = 1; round <= ROUNDS; round += 1) {
      await Promise.all(Array.from({ length: EACH }, publish));
      await expect.poll(stored, { timeout: 20_000 }).toBe(sent - before);
      await kill();
      // The thermometer goes on; its messages wait until somebody takes them.
      const waiting = Promise.all(Array.from({ length: EACH }, publish));
      await again();
      await waiting;
      await expect.poll(stored, { timeout: 20_000 }).toBe(sent - before);
      made += 1;
    }
    const hours = await database.kysely.selectFrom('readingHours').select('count').execute();
    const kept = await stored();
    const summed = hours.reduce((sum, hour) => sum + Number(hour.count), 0);
    expect(summed).toBe(kept);
    const readings = sent - before;
    counted('broker-killed', made, {
      'readings sent': readings,
      'of them lost': readings - kept,
      'counted twice': summed - kept,
    });
  },
);

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import mqtt from 'mqtt';
import { expect, it, onTestFinished } from 'vitest';
import { databaseFile, openDatabase } from '../../src/records/database.ts';
import { faultsOf } from '../../src/records/file-check.ts';
import { smallGroup } from '../records/given.ts';
import { findBroker } from '../support/broker.ts';
import { startMosquitto } from '../support/mosquitto.ts';
import { counted } from './counted.ts';

const ROUNDS = 3;

it('readings on a broker survive a kill of the intake in the midst of them, three times over: none lost, none twice', async () => {
  // What was stored but not acknowledged before a kill waits on the broker beside what is new. Brokers commonly keep 1,000 messages for one
  // that is away and drop the rest: our own is told to keep all, on another all rounds together stay under that.
  const own = await startMosquitto(['max_queued_messages 0']);
  const broker = own ?? (await findBroker());
  const each = own ? 900 : 300;
  onTestFinished(() => broker.stop());
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const database = await openDatabase({ dataFolder: folder });
  await smallGroup(database);
  onTestFinished(() => database.close());
  const stored = async () =>
    Number(
      (
        await database.kysely
          .selectFrom('readings')
          .select((e) => e.fn.countAll<number>().as('count'))
          .executeTakeFirstOrThrow()
      ).count,
    );
  const until = async (count: number) => {
    for (const from = Date.now(); (await stored()) < count && Date.now() - from < 30_000; )
      await new Promise((later) => setTimeout(later, 5));
  };
  const prefix = `stillwinter-kill-${process.pid}`;
  let child: ChildProcess;
  const start = () => {
    child = spawn(
      process.execPath,
      [join(import.meta.dirname, 'intake-process.ts'), folder, broker.url, `${prefix}/{probe}/t`],
      { stdio: ['ignore', 'inherit', 'inherit'] },
    );
  };
  const kill = async () => {
    if (child.exitCode !== null || child.signalCode !== null) return;
    const gone = once(child, 'exit');
    child.kill('SIGKILL');
    await gone;
  };
  onTestFinished(kill);
  const publisher = await mqtt.connectAsync(broker.url);
  onTestFinished(() => publisher.endAsync());
  const newest = Date.now();
  let [sent, made] = [0, 0];
  const publish = () => {
    const message = JSON.stringify({ c: 4.5, t: new Date(newest - sent * 60_000).toISOString() });
    sent += 1;
    return publisher.publishAsync(`${prefix}/outdoors/t`, message, { qos: 1 });
  };
  start();
  // The session is there once a first reading comes through; before that the broker keeps nothing.
  while ((await stored()) === 0) {
    await publish();
    await new Promise((later) => setTimeout(later, 200));
  }
  await kill();
  const lostBefore = sent - (await stored());
  start();
  for (let round = 1; round <= ROUNDS; round += 1) {
    const before = await stored();
    const published = Promise.all(Array.from({ length: each }, publish));
    await until(before + 1 + round * 60);
    await kill();
    await published;
    start();
    await until(sent - lostBefore);
    expect(await stored(), `round ${round}`).toBeGreaterThanOrEqual(sent - lostBefore);
    made += 1;
  }
  await kill();
  expect(faultsOf(databaseFile(folder))).toEqual([]);
  const hours = await database.kysely
    .selectFrom('readingHours')
    .select((e) => e.fn.sum<number>('count').as('count'))
    .executeTakeFirstOrThrow();
  const kept = await stored();
  expect(Number(hours.count)).toBe(kept);
  const readings = sent - lostBefore;
  counted('intake-killed', made, {
    'readings sent': readings,
    'of them lost': Math.max(0, readings - kept),
    'counted twice': Number(hours.count) - kept,
  });
});

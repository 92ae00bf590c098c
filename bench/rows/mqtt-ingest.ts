import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { startIntake } from '../../src/intake/service.ts';
import { onRecorded } from '../../src/records/announce.ts';
import { make } from '../../src/records/entries.ts';
import { PROBE } from '../../src/records/kinds.ts';
import { GROUP, id, SCOPE, smallGroup } from '../../test/records/given.ts';
import { freshDatabase, STORES } from '../../test/records/stores.ts';
import { findBroker } from '../../test/support/broker.ts';
import { startMosquitto } from '../../test/support/mosquitto.ts';
import type { MakeRows, Row } from '../row.ts';

const PROBES = 200;
const EACH = 100;
const PUBLISHERS = 2;
/** Under the 1,000 messages that Mosquitto keeps for a client when nothing is set. */
const IN_FLIGHT = 800;
const MESSAGES = PROBES * EACH;

/** Readings a second from the first publish to the last commit, with so many published and not yet stored at most. */
async function taken(url: string, inFlight: number, store: (typeof STORES)[number] = 'sqlite'): Promise<number> {
  const prefix = `stillwinter-bench-${process.pid}-${performance.now().toFixed()}`;
  const database = await freshDatabase(store);
  await smallGroup(database);
  for (let probe = 0; probe < PROBES; probe += 1)
    await make(database, SCOPE, PROBE, { id: id(1000 + probe), name: `p${probe}`, offsetC: 0, expectedIntervalS: 60 });
  let connected = 0;
  const failures: unknown[] = [];
  const intake = startIntake({
    database,
    groupId: GROUP.id,
    nowMs: Date.now,
    mqtt: {
      url,
      clientId: prefix,
      shape: { topic: `${prefix}/{probe}/t`, payload: '$.c', timePath: '$.t' },
    },
    onError: (error) => failures.push(error),
  });
  const count = async () => {
    const row = await database.kysely
      .selectFrom('readingHours')
      .select((e) => e.fn.sum<number>('count').as('count'))
      .executeTakeFirstOrThrow();
    return Number(row.count);
  };
  /** Resolves at the next commit, or after 100 ms without one. */
  const committed = () =>
    new Promise<void>((done) => {
      const timer = setTimeout(done, 100);
      const off = onRecorded(database, () => {
        clearTimeout(timer);
        off();
        done();
      });
    });
  const publishers: ChildProcess[] = [];
  try {
    for (; !intake.broker?.connected; connected += 1) {
      if (connected > 200) throw new Error(`no connection to the broker: ${intake.broker?.reason ?? 'no answer'}`);
      await new Promise((done) => setTimeout(done, 50));
    }
    await new Promise((done) => setTimeout(done, 500));
    const script = join(import.meta.dirname, '..', 'peers', 'mqtt-publisher.ts');
    for (let number = 0; number < PUBLISHERS; number += 1)
      publishers.push(
        spawn(
          process.execPath,
          [script, url, prefix, String(PROBES), String(EACH), String(number), String(PUBLISHERS)],
          {
            stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
          },
        ),
      );
    await Promise.all(publishers.map((publisher) => once(publisher, 'message')));
    const from = performance.now();
    let stored = 0;
    while (stored < MESSAGES && performance.now() - from < 25_000) {
      for (const publisher of publishers)
        if (publisher.connected) publisher.send(Math.ceil((stored + inFlight) / PUBLISHERS), () => undefined);
      await committed();
      stored = await count();
    }
    const seconds = (performance.now() - from) / 1000;
    if (stored < MESSAGES || failures.length > 0)
      throw new Error(`stored ${stored} of ${MESSAGES}; ${failures[0] ?? ''}`);
    return MESSAGES / seconds;
  } finally {
    for (const publisher of publishers) publisher.kill();
    await intake.stop();
    await database.close();
  }
}

export const rows: MakeRows = async () => {
  const row = { name: 'mqtt-ingest', unit: 'messages/s' };
  const what = `${MESSAGES} messages of ${PROBES} probes by ${PUBLISHERS} publishers, each acknowledged when on the disk`;
  const own = await startMosquitto([]);
  const broker = own ?? (await findBroker());
  const asItComes: Row[] = [];
  try {
    for (const store of STORES) {
      const where = `${what}; ${broker.name} as it comes${store === 'sqlite' ? '' : '; PostgreSQL'}`;
      const here = store === 'sqlite' || process.env.STILLWINTER_TEST_POSTGRES_URL;
      const value = here ? Math.round(await taken(broker.url, IN_FLIGHT, store)) : null;
      const note = here ? where : 'skipped: STILLWINTER_TEST_POSTGRES_URL names no PostgreSQL';
      asItComes.push({ ...row, value, peer: '', ratio: null, note });
    }
  } finally {
    broker.stop();
  }
  const set = await startMosquitto(['max_inflight_messages 0', 'max_queued_messages 0']);
  if (!set) return asItComes;
  try {
    const value = await taken(set.url, 20_000);
    return [
      ...asItComes,
      {
        ...row,
        value: Math.round(value),
        peer: '',
        ratio: null,
        note: 'max_inflight_messages 0, max_queued_messages 0',
      },
    ];
  } finally {
    set.stop();
  }
};

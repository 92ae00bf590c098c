import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startIntake } from '../../src/intake/service.ts';
import { openDatabase } from '../../src/records/database.ts';
import { make } from '../../src/records/entries.ts';
import { PROBE } from '../../src/records/kinds.ts';
import { GROUP, id, SCOPE, smallGroup } from '../../test/records/given.ts';
import { findBroker } from '../../test/support/broker.ts';
import type { MakeRows } from '../row.ts';

const PROBES = 200;
const EACH = 20;
const PUBLISHERS = 2;
/** Published and not yet stored at most: under the 1,000 that a broker commonly keeps for a client. */
const IN_FLIGHT = 800;
const MESSAGES = PROBES * EACH;

/** Readings a second from the first publish to the last commit, with so many connections sharing the work. */
async function taken(url: string, connections: number): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  const prefix = `stillwinter-bench-${process.pid}-${connections}`;
  const database = await openDatabase({ dataFolder: folder });
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
      connections,
      shape: { topic: `${prefix}/{probe}/t`, payload: '$.c', timePath: '$.t' },
    },
    onError: (error) => failures.push(error),
  });
  const count = async () => {
    const row = await database.kysely
      .selectFrom('readings')
      .select((e) => e.fn.countAll<number>().as('count'))
      .executeTakeFirstOrThrow();
    return Number(row.count);
  };
  const publishers: ChildProcess[] = [];
  try {
    for (; !intake.broker?.connected; connected += 1) {
      if (connected > 200) throw new Error(`no connection to the broker: ${intake.broker?.reason ?? 'no answer'}`);
      await new Promise((done) => setTimeout(done, 50));
    }
    await new Promise((done) => setTimeout(done, 500));
    const script = join(import.meta.dirname, '..', 'peers', 'mqtt-publisher.ts');
    const from = performance.now();
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
    let stored = 0;
    while (stored < MESSAGES && performance.now() - from < 25_000) {
      for (const publisher of publishers)
        if (publisher.connected) publisher.send(Math.ceil((stored + IN_FLIGHT) / PUBLISHERS), () => undefined);
      await new Promise((done) => setTimeout(done, 10));
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
    rmSync(folder, { recursive: true });
  }
}

export const rows: MakeRows = async () => {
  const broker = await findBroker();
  try {
    const four = await taken(broker.url, 4);
    const one = await taken(broker.url, 1);
    const row = { name: 'mqtt-ingest', value: Math.round(four), unit: 'messages/s' };
    const note = `${MESSAGES} messages of ${PROBES} probes by ${PUBLISHERS} publishers over ${broker.name}, 4 shared connections, acknowledged when on the disk`;
    return [
      { ...row, peer: '', ratio: null, note },
      { ...row, peer: 'one connection', ratio: four / one, note: `${Math.round(one)} messages/s` },
    ];
  } finally {
    broker.stop();
  }
};

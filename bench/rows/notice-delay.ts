import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import mqtt from 'mqtt';
import { addChannel } from '../../src/notices/channels.ts';
import { openDatabase } from '../../src/records/database.ts';
import { startServer } from '../../src/server/start.ts';
import { KEEPER, sleepingSedge } from '../../test/notices/given.ts';
import { GROUP, id } from '../../test/records/given.ts';
import { findBroker } from '../../test/support/broker.ts';
import { type Mailbox, startMailbox } from '../../test/support/mailbox.ts';
import type { MakeRows } from '../row.ts';

const ROUNDS = 5;
const DAY_MS = 86_400_000;
/** How often a watch that looks at the records by the clock alone would look, s. */
const LOOK_S = 5;

/** Seconds from the publishing of a reading at frost to the letter in a mailbox, through a broker and a mail server with TLS. */
async function once(url: string, mailbox: Mailbox, round: number): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-bench-'));
  const topic = `stillwinter-bench-${process.pid}-${round}/{probe}/t`;
  const now = Date.now();
  const database = await openDatabase({ dataFolder: folder });
  await sleepingSedge(database);
  const fromDay = new Date(now - 2 * DAY_MS).toISOString().slice(0, 10);
  await database.kysely.updateTable('stays').set({ fromDay }).execute();
  await database.kysely
    .updateTable('measurements')
    .set({ atMs: now - 2 * DAY_MS })
    .execute();
  const address = `keeper-${round}@example.org`;
  await addChannel(database, { id: KEEPER, groupId: GROUP.id }, { id: id(60), kind: 'email', address }, now - DAY_MS);
  await database.close();
  const server = await startServer({
    dataFolder: folder,
    port: 0,
    outside: {
      broker: { url, topic, payload: 'number' },
      mail: {
        host: 'localhost',
        port: mailbox.port,
        secure: false,
        user: 'shed',
        password: 'a long line',
        from: 'Stillwinter <shed@example.org>',
        certificate: mailbox.certificate,
      },
    },
  });
  for (let tries = 0; tries < 200; tries += 1) {
    const health = (await (await fetch(`${server.address}/health`)).json()) as { broker?: boolean };
    if (health.broker) break;
    await new Promise((done) => setTimeout(done, 50));
  }
  const publisher = await mqtt.connectAsync(url);
  const published = performance.now();
  await publisher.publishAsync(topic.replace('{probe}', 'in-the-fish-box'), '-0.5', { qos: 1 });
  await mailbox.until((mail) => mail.to[0] === address, 15_000);
  const seconds = (performance.now() - published) / 1000;
  await publisher.endAsync();
  await server.stop();
  rmSync(folder, { recursive: true });
  return seconds;
}

export const rows: MakeRows = async () => {
  const broker = await findBroker();
  const mailbox = await startMailbox();
  const delays: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) delays.push(await once(broker.url, mailbox, round));
  await mailbox.stop();
  broker.stop();
  delays.sort((a, b) => a - b);
  const median = Number((delays[Math.floor(ROUNDS / 2)] ?? Number.NaN).toFixed(3));
  return [
    {
      name: 'notice-delay',
      value: median,
      unit: 's',
      peer: '',
      ratio: null,
      note: `median of ${ROUNDS}, longest ${delays.at(-1)?.toFixed(2)} s; reading published on ${broker.name} to letter received over TLS`,
    },
    {
      name: 'notice-delay',
      value: median,
      unit: 's',
      peer: `a watch that looks every ${LOOK_S} s, on average`,
      ratio: Number((LOOK_S / 2 / median).toFixed(1)),
    },
  ];
};

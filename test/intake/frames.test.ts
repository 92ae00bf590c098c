import { createCipheriv } from 'node:crypto';
import mqtt from 'mqtt';
import { expect, it, onTestFinished } from 'vitest';
import { readBthomeKeys } from '../../src/intake/bthome/keys.ts';
import { startIntake } from '../../src/intake/service.ts';
import { batteryLevels } from '../../src/records/batteries.ts';
import { make } from '../../src/records/entries.ts';
import { PROBE } from '../../src/records/kinds.ts';
import { GROUP, id, NOW_MS, SCOPE, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';
import { findBroker } from '../support/broker.ts';

const KEY = '231d39c1d7cc1ab1aee224cd096db932';
const MAC = '54:48:E6:8F:80:A5';

/** A frame of this sender, encrypted as the open standard says. */
function encrypted(body: string, counter: number): string {
  const info = Buffer.from([0x41]);
  const count = Buffer.alloc(4);
  count.writeUInt32LE(counter);
  const nonce = Buffer.concat([Buffer.from(MAC.replaceAll(':', ''), 'hex'), Buffer.from('d2fc', 'hex'), info, count]);
  const cipher = createCipheriv('aes-128-ccm', Buffer.from(KEY, 'hex'), nonce, { authTagLength: 4 });
  const sealed = Buffer.concat([cipher.update(Buffer.from(body, 'hex')), cipher.final()]);
  return Buffer.concat([info, sealed, count, cipher.getAuthTag()]).toString('hex');
}

it('frames of a broker: heard twice they are stored once, sealed ones are opened, played back ones put aside, and a battery alone is taken', async () => {
  const line = await findBroker();
  onTestFinished(line.stop);
  const database = await freshDatabase('sqlite');
  onTestFinished(() => database.close());
  await smallGroup(database);
  const [plain, sealed, told] = [id(201), id(202), id(203)] as const;
  for (const probeId of [plain, sealed, told])
    await make(database, SCOPE, PROBE, { id: probeId, name: `Probe ${probeId}`, offsetC: 0, expectedIntervalS: 60 });
  const prefix = `stillwinter-frames-${process.pid}`;
  let nowMs = NOW_MS;
  const intake = startIntake({
    database,
    groupId: GROUP.id,
    // Every look at the clock finds it a little later: two frames never come at one instant.
    nowMs: () => (nowMs += 5),
    mqtt: {
      url: line.url,
      clientId: prefix,
      shape: {
        topic: `${prefix}/{probe}`,
        payload: 'bthome',
        keys: readBthomeKeys(`# shed\n${sealed} ${KEY} ${MAC}\n`),
      },
    },
    onError: (error) => {
      throw error;
    },
  });
  onTestFinished(() => intake.stop());
  await expect.poll(() => intake.broker?.connected, { timeout: 10_000 }).toBe(true);
  const publisher = await mqtt.connectAsync(line.url);
  onTestFinished(() => publisher.endAsync());
  const stored = async (probeId: string) =>
    (
      await database.kysely
        .selectFrom('readings')
        .innerJoin('probeNumbers', 'probeNumbers.number', 'readings.probe')
        .select('readings.tempC')
        .where('probeNumbers.probeId', '=', probeId)
        .orderBy('readings.atMs')
        .execute()
    ).map((row) => Number(row.tempC));
  const send = (probeId: string, frame: string) => publisher.publishAsync(`${prefix}/${probeId}`, frame, { qos: 1 });
  await send(told, '401500');
  // Packet 9 at 5.00 °C over two receivers, then packet 10 at 5.01 °C.
  for (const frame of ['40000902f401', '40000902f401', '40000a02f501']) await send(plain, frame);
  for (const frame of [encrypted('02f401', 7000), encrypted('02f401', 7000), encrypted('02f501', 7001)])
    await send(sealed, frame);
  await send(sealed, encrypted('02f401', 7000));
  await send(sealed, '4002f401');
  const aside = async () =>
    (await database.kysely.selectFrom('quarantine').select('why').execute()).map((row) => row.why);
  await expect.poll(async () => (await aside()).length, { timeout: 10_000 }).toBe(2);
  expect(await aside()).toEqual([
    expect.stringMatching(/playing it back/),
    expect.stringMatching(/not encrypted although/),
  ]);
  nowMs += 2 * 3_600_000;
  await send(told, '401501');
  await expect
    .poll(async () => (await batteryLevels(database, told)).map((one) => one.low), { timeout: 10_000 })
    .toEqual([true, false]);
  expect(await stored(plain)).toEqual([5, 5.01]);
  expect(await stored(sealed)).toEqual([5, 5.01]);
  expect(await stored(told)).toEqual([]);
});

it.each([
  ['box 231d39', /line 1: the key of a thermometer is 32/],
  [`\n# a remark\nbox ${KEY} 54-48`, /line 3: the address of a thermometer/],
  [`box ${KEY}\nbox ${KEY}`, /line 2: this name has a key/],
  [`box ${KEY} ${MAC} more`, /line 1: a name, a key/],
])('a line that holds no key is named: %s', (text, why) => {
  expect(() => readBthomeKeys(text)).toThrow(why);
});

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Aedes } from 'aedes';
import mqtt, { type MqttClient } from 'mqtt';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addChannel } from '../../src/notices/channels.ts';
import { openDatabase } from '../../src/records/database.ts';
import { KEEPER, sleepingSedge, TUTOR } from '../notices/given.ts';
import { GROUP, id } from '../records/given.ts';
import { type Mailbox, startMailbox } from '../support/mailbox.ts';

/** The broker named by STILLWINTER_TEST_MQTT_URL (a Mosquitto where there is one), else one inside this process. */
async function broker(): Promise<{ url: string; stop(): void }> {
  const named = process.env.STILLWINTER_TEST_MQTT_URL;
  if (named) return { url: named, stop: () => undefined };
  const aedes = await Aedes.createBroker();
  const server = createServer(aedes.handle);
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const stop = () => {
    aedes.close();
    server.close();
  };
  return { url: `mqtt://127.0.0.1:${(server.address() as AddressInfo).port}`, stop };
}

/** Resolves once the server says that its broker is there. */
async function connected(address: string): Promise<void> {
  for (const from = Date.now(); Date.now() - from < 15_000; ) {
    const health = (await (await fetch(`${address}/health`)).json()) as { broker?: boolean };
    if (health.broker) return;
    await new Promise((done) => setTimeout(done, 50));
  }
  throw new Error('the server did not reach the broker');
}

const DAY = 86_400_000;
const prefix = `stillwinter-test-${process.pid}`;

describe('from a thermometer on a broker to a sentence in a mailbox', () => {
  let folder: string;
  let mailbox: Mailbox;
  let line: { url: string; stop(): void };
  let publisher: MqttClient;
  let server: ChildProcess | undefined;

  const start = async (): Promise<void> => {
    const running = spawn(process.execPath, [join('src', 'cli', 'main.ts'), 'serve'], {
      env: {
        ...process.env,
        STILLWINTER_DATA: folder,
        STILLWINTER_PORT: '0',
        STILLWINTER_MQTT_URL: line.url,
        STILLWINTER_MQTT_TOPIC: `${prefix}/{probe}/temperature`,
        STILLWINTER_MQTT_PAYLOAD: '$.c',
        STILLWINTER_MQTT_TIME_PATH: '$.t',
        STILLWINTER_SMTP_URL: `smtp://shed:${encodeURIComponent('a long line')}@localhost:${mailbox.port}`,
        STILLWINTER_SMTP_CERTIFICATE: join(folder, 'mail.pem'),
        STILLWINTER_MAIL_FROM: 'Stillwinter <shed@example.org>',
        STILLWINTER_ESCALATE_AFTER_S: '4',
      },
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    server = running;
    await new Promise<void>((done, failed) => {
      running.stdout?.on('data', (text: Buffer) => {
        const found = /http:\/\/127\.0\.0\.1:\d+/.exec(text.toString());
        if (found) connected(found[0]).then(done, failed);
      });
      running.on('exit', (code) => failed(new Error(`the server ended with ${code}`)));
    });
  };
  const kill = () =>
    new Promise<void>((done) => {
      const running = server;
      server = undefined;
      if (!running || running.exitCode !== null) return done();
      running.removeAllListeners('exit').on('exit', () => done());
      running.kill('SIGKILL');
    });
  const publish = (tempC: number, atMs: number) =>
    publisher.publishAsync(
      `${prefix}/in-the-fish-box/temperature`,
      JSON.stringify({ c: tempC, t: new Date(atMs).toISOString() }),
      { qos: 1 },
    );

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
    mailbox = await startMailbox();
    writeFileSync(join(folder, 'mail.pem'), mailbox.certificate);
    line = await broker();
    publisher = await mqtt.connectAsync(line.url);
    const database = await openDatabase({ dataFolder: folder });
    await sleepingSedge(database);
    const now = Date.now();
    const fromDay = new Date(now - 2 * DAY).toISOString().slice(0, 10);
    await database.kysely.updateTable('stays').set({ fromDay }).execute();
    await database.kysely
      .updateTable('measurements')
      .set({ atMs: now - 2 * DAY })
      .execute();
    for (const [person, number, address] of [
      [KEEPER, 60, 'keeper@example.org'],
      [TUTOR, 61, 'tutor@example.org'],
    ] as const)
      await addChannel(
        database,
        { id: person, groupId: GROUP.id },
        { id: id(number), kind: 'email', address },
        now - DAY,
      );
    await database.close();
  });
  afterAll(async () => {
    await kill();
    await publisher.endAsync();
    line.stop();
    await mailbox.stop();
    rmSync(folder, { recursive: true });
  });

  it('a falling temperature reaches the keeper within 10 s and the tutor after that, once each, though the server is killed in between', async () => {
    await start();
    const now = Date.now();
    // The box falls through 2 °C and stays under it for more than half an hour.
    const fall = [5, 4.6, 4.1, 3.6, 3.1, 2.6, 2.2, 1.9, 1.8, 1.7, 1.6];
    for (const [number, tempC] of fall.entries()) await publish(tempC, now - (fall.length - number) * 600_000);
    const published = Date.now();
    await publish(1.5, now - 60_000);
    const subject = (raw: string) => /^Subject: (.*)$/m.exec(raw)?.[1] ?? '';
    const first = await mailbox.until(
      (mail) => mail.to[0] === 'keeper@example.org' && subject(mail.raw).startsWith('Act now: Sedge'),
    );
    expect(first.atMs - published).toBeLessThan(10_000);
    await kill();
    // While nobody is there the broker keeps what the thermometer sends.
    await publish(1.4, now - 30_000);
    await start();
    const escalated = await mailbox.until((mail) => mail.to[0] === 'tutor@example.org', 30_000);
    expect(subject(escalated.raw)).toMatch(/^Nobody has answered/);
    await kill();
    const identities = mailbox.mails.map((mail) => /^Message-ID: (.*)$/im.exec(mail.raw)?.[1]);
    // A letter that was on its way when the server died may come twice, under one identity; nothing else does.
    expect(identities.length - new Set(identities).size).toBeLessThanOrEqual(1);
    const database = await openDatabase({ dataFolder: folder });
    const rows = await database.kysely.selectFrom('readings').select('tempC').orderBy('atMs').execute();
    expect(rows.map((row) => row.tempC)).toEqual([...fall, 1.5, 1.4]);
    const cold = await database.kysely.selectFrom('notices').select('id').where('ruleId', '=', 'under-2').execute();
    expect(cold).toHaveLength(1);
    const about = cold[0]!.id;
    const sent = await database.kysely
      .selectFrom('deliveries')
      .select(['personId', 'step', 'sentAtMs'])
      .where('noticeId', '=', about)
      .execute();
    expect(
      sent
        .filter((one) => one.step === 'first' || one.step === 'escalation')
        .map((one) => [one.personId, one.step, one.sentAtMs !== null]),
    ).toEqual([
      [KEEPER, 'first', true],
      [TUTOR, 'escalation', true],
    ]);
    await database.close();
  });
});

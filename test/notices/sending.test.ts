import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { addChannel, channelsOf } from '../../src/notices/channels.ts';
import { emailSender } from '../../src/notices/email.ts';
import { claimDue, queueLetter, queueTellings, undelivered } from '../../src/notices/outbox.ts';
import { sendDue, testLetter } from '../../src/notices/sender.ts';
import { mayCall, verify } from '../../src/notices/webhook.ts';
import type { Database } from '../../src/records/database.ts';
import { GROUP, id } from '../records/given.ts';
import { freshDatabase, STORES } from '../records/stores.ts';
import { type Mailbox, startMailbox } from '../support/mailbox.ts';
import { emptied, KEEPER, SLEEP_FROM_MS, sleepingSedge, TUTOR } from './given.ts';

const MINUTE = 60_000;
const NOTICE = id(50);

async function frost(database: Database, at: number): Promise<void> {
  await database.kysely
    .insertInto('notices')
    .values({
      id: NOTICE,
      groupId: GROUP.id,
      ruleId: 'under-2',
      stayId: id(12),
      level: 'act-now',
      fromAtMs: at,
      clearedAtMs: null,
      message: JSON.stringify({ key: 'notices.test.text' }),
      acknowledgedBy: null,
      acknowledgedAtMs: null,
      acknowledgedNote: null,
    })
    .execute();
}

describe.each(STORES)('notices on their way, on %s', (store) => {
  let database: Database;
  let mailbox: Mailbox;
  let now = 0;
  const clock = () => now;
  const senders = () => ({
    email: emailSender({
      host: 'localhost',
      port: mailbox.port,
      secure: false,
      user: 'shed',
      password: 'a long line',
      from: 'Stillwinter <shed@example.org>',
      certificate: mailbox.certificate,
      appAddress: 'https://shed.example.org',
    }),
    webhook: { allowThisMachine: true },
  });
  const email = (person: string, number: number, address: string) =>
    addChannel(database, { id: person, groupId: GROUP.id }, { id: id(number), kind: 'email', address }, SLEEP_FROM_MS);

  beforeAll(async () => {
    database = await freshDatabase(store);
    mailbox = await startMailbox();
  });
  beforeEach(async () => {
    await emptied(database);
    await sleepingSedge(database);
    mailbox.mails.length = 0;
    mailbox.refuse = undefined;
    now = Date.parse('2027-01-09T02:10:00Z');
  });
  afterAll(async () => {
    await database.close();
    await mailbox.stop();
  });

  it('an act now leaves over TLS at once, in the night, to the keeper; after a quarter of an hour to the tutor', async () => {
    await email(KEEPER, 60, 'keeper@example.org');
    await email(TUTOR, 61, 'tutor@example.org');
    await frost(database, now);
    expect(await queueTellings(database, GROUP.id, now)).toBe(1);
    expect(await sendDue(database, senders(), clock)).toBe(1);
    expect(mailbox.mails.map((mail) => [mail.to, mail.secure])).toEqual([[['keeper@example.org'], true]]);
    expect(mailbox.mails[0]?.raw).toMatch(/Subject: Act now: Sedge, Tool shed/);
    expect(mailbox.mails[0]?.raw).toContain(`https://shed.example.org/notices/${NOTICE}`);
    now += 15 * MINUTE;
    // Two servers ask at once, and ask again: each letter is queued once.
    await Promise.all([queueTellings(database, GROUP.id, now), queueTellings(database, GROUP.id, now)]);
    await queueTellings(database, GROUP.id, now);
    await sendDue(database, senders(), clock);
    expect(mailbox.mails.map((mail) => mail.to[0])).toEqual(['keeper@example.org', 'tutor@example.org']);
    expect(mailbox.mails[1]?.raw).toMatch(/Subject: Nobody has answered/);
  });

  it('a delivery belongs to one process at a time, and to the next when its lease has run out', async () => {
    await email(KEEPER, 60, 'keeper@example.org');
    await frost(database, now);
    await queueTellings(database, GROUP.id, now);
    const both = await Promise.all([claimDue(database, now), claimDue(database, now)]);
    expect(both.flat()).toHaveLength(1);
    expect(await claimDue(database, now + 59_000)).toHaveLength(0);
    const [again] = await claimDue(database, now + 60_000);
    expect(again?.attempts).toBe(2);
  });

  it('what cannot be delivered is tried again, shown meanwhile, and sent when the server is back', async () => {
    await email(KEEPER, 60, 'keeper@example.org');
    await frost(database, now);
    await queueTellings(database, GROUP.id, now);
    mailbox.refuse = { code: 451, text: 'come back later' };
    expect(await sendDue(database, senders(), clock)).toBe(0);
    expect(await undelivered(database, GROUP.id)).toMatchObject([
      { noticeId: NOTICE, personId: KEEPER, attempts: 1, givenUp: false },
    ]);
    mailbox.refuse = undefined;
    now += 4000;
    expect(await sendDue(database, senders(), clock)).toBe(0);
    now += 1000;
    expect(await sendDue(database, senders(), clock)).toBe(1);
    expect(await undelivered(database, GROUP.id)).toEqual([]);
  });

  it('an address refused for good ends the channel and says why', async () => {
    await email(KEEPER, 60, 'nobody@example.org');
    await frost(database, now);
    await queueTellings(database, GROUP.id, now);
    mailbox.refuse = { code: 550, text: 'no such mailbox' };
    await sendDue(database, senders(), clock);
    const [channel] = await channelsOf(database, KEEPER);
    expect(channel?.failedAtMs).toBe(now);
    expect(channel?.lastError).toMatch(/no such mailbox/);
    expect(await undelivered(database, GROUP.id)).toMatchObject([{ noticeId: NOTICE, givenUp: true }]);
  });

  it('an escalation that was answered while it waited is not sent', async () => {
    await email(TUTOR, 61, 'tutor@example.org');
    await frost(database, now);
    now += 15 * MINUTE;
    await queueTellings(database, GROUP.id, now);
    await database.kysely.updateTable('notices').set({ acknowledgedAtMs: now, acknowledgedBy: KEEPER }).execute();
    expect(await sendDue(database, senders(), clock)).toBe(0);
    expect(mailbox.mails).toEqual([]);
  });

  it('the notices of a morning come as one letter at the hour of the digest', async () => {
    await email(KEEPER, 60, 'keeper@example.org');
    for (const [number, ruleId] of [
      [51, 'lid-closed'],
      [52, 'weigh-in-overdue'],
    ] as const)
      await database.kysely
        .insertInto('notices')
        .values({
          id: id(number),
          groupId: GROUP.id,
          ruleId,
          stayId: id(12),
          level: 'look-today',
          fromAtMs: now,
          clearedAtMs: null,
          message: JSON.stringify({ key: 'notices.test.text' }),
          acknowledgedBy: null,
          acknowledgedAtMs: null,
          acknowledgedNote: null,
        })
        .execute();
    now = Date.parse('2027-01-09T07:59:59Z');
    expect(await queueTellings(database, GROUP.id, now)).toBe(0);
    now += 1000;
    await queueTellings(database, GROUP.id, now);
    expect(await sendDue(database, senders(), clock)).toBe(1);
    expect(mailbox.mails).toHaveLength(1);
    expect(mailbox.mails[0]?.raw).toMatch(/Subject: Look today: 2 things/);
  });

  it('a test letter goes to just its channel', async () => {
    await email(KEEPER, 60, 'keeper@example.org');
    await queueLetter(
      database,
      { id: id(60), groupId: GROUP.id, personId: KEEPER },
      JSON.stringify(testLetter(id(70))),
      now,
    );
    expect(await sendDue(database, senders(), clock)).toBe(1);
    expect(mailbox.mails[0]?.raw).toMatch(/Subject: Test from Stillwinter/);
  });

  it('a line break in a name begins no header of its own', async () => {
    await email(KEEPER, 60, 'keeper@example.org');
    await database.kysely.updateTable('animals').set({ name: 'Sedge\r\nBcc: other@example.org' }).execute();
    await frost(database, now);
    await queueTellings(database, GROUP.id, now);
    await sendDue(database, senders(), clock);
    expect(mailbox.mails[0]?.to).toEqual(['keeper@example.org']);
    expect(mailbox.mails[0]?.raw.split('\r\n\r\n')[0]).not.toMatch(/^Bcc:/m);
  });

  it('a webhook is called with a signed body and an identity, and its redirects are not followed', async () => {
    const calls: { headers: Record<string, unknown>; body: string; path: string }[] = [];
    let status = 200;
    const receiver = createServer((request, response) => {
      let body = '';
      request.on('data', (part: Buffer) => {
        body += part.toString();
      });
      request.on('end', () => {
        calls.push({ headers: request.headers, body, path: request.url ?? '' });
        response.writeHead(status, status === 302 ? { location: '/elsewhere' } : {}).end();
      });
    });
    await new Promise<void>((done) => receiver.listen(0, '127.0.0.1', done));
    const url = `http://127.0.0.1:${(receiver.address() as AddressInfo).port}/hook`;
    const { secret } = await addChannel(
      database,
      { id: KEEPER, groupId: GROUP.id },
      { id: id(62), kind: 'webhook', url },
      SLEEP_FROM_MS,
    );
    await frost(database, now);
    await queueTellings(database, GROUP.id, now);
    expect(await sendDue(database, senders(), clock)).toBe(1);
    const [call] = calls;
    const timeS = Number(call?.headers['stillwinter-time']);
    expect(
      verify(secret ?? '', timeS, call?.body ?? '', String(call?.headers['stillwinter-signature']), now / 1000),
    ).toBe(true);
    expect(
      verify(secret ?? '', timeS, `${call?.body} `, String(call?.headers['stillwinter-signature']), now / 1000),
    ).toBe(false);
    expect(
      verify(secret ?? '', timeS, call?.body ?? '', String(call?.headers['stillwinter-signature']), now / 1000 + 301),
    ).toBe(false);
    status = 302;
    await queueLetter(
      database,
      { id: id(62), groupId: GROUP.id, personId: KEEPER },
      JSON.stringify(testLetter(id(71))),
      now,
    );
    expect(await sendDue(database, senders(), clock)).toBe(0);
    expect(calls.map((one) => one.path)).toEqual(['/hook', '/hook']);
    receiver.close();
  });
});

describe('addresses a webhook may call', () => {
  it.each([
    ['127.0.0.1', true, false],
    ['::1', true, false],
    ['::ffff:127.0.0.1', true, false],
    ['169.254.169.254', false, false],
    ['fe80::1', true, false],
    ['0.0.0.0', true, false],
    ['224.0.0.1', true, false],
    ['192.168.1.20', false, true],
    ['10.1.2.3', false, true],
    ['203.0.113.9', false, false],
    ['203.0.113.9', true, true],
    ['2001:db8::1', false, false],
    ['2001:db8::1', true, true],
  ])('%s (encrypted: %s): %s', (address, secure, allowed) => expect(mayCall(address, secure)).toBe(allowed));
});

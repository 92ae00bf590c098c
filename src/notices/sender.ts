import type { Database } from '../records/database.ts';
import type { DeliveryRow } from '../records/tables.ts';
import type { NoticeLevel } from '../winter/watch-types.ts';
import { type Message, say } from '../wording/say.ts';
import { channelById, type StoredChannel } from './channels.ts';
import type { EmailSender } from './email.ts';
import { ChannelGoneError, type Letter, TryLaterError } from './letter.ts';
import { claimDue, markFailed, markGone, markSent, markStale, topicOf } from './outbox.ts';
import type { PushSettings } from './push.ts';
import { callWebhook, type WebhookOptions } from './webhook.ts';

export interface Senders {
  readonly email?: EmailSender;
  readonly push?: PushSettings;
  readonly webhook?: WebhookOptions;
}

/** Letters that have left while the database was away, with the instant (epoch ms): noted before anything else is sent. */
const unnoted = new WeakMap<Database, Map<string, number>>();

/** Sends everything that is due, once over. Returns how many letters left. One failing channel does not hold up the others. */
export async function sendDue(database: Database, senders: Senders, nowMs: () => number): Promise<number> {
  const left = unnoted.get(database);
  for (const [id, atMs] of left ?? []) {
    await markSent(database, id, atMs);
    left?.delete(id);
  }
  const claimed = await claimDue(database, nowMs());
  const results = await Promise.allSettled(claimed.map((row) => sendOne(database, senders, row, nowMs)));
  const failed = results.find((result) => result.status === 'rejected');
  if (failed) throw failed.reason;
  return results.filter((result) => result.status === 'fulfilled' && result.value).length;
}

async function noteSent(database: Database, id: string, atMs: number): Promise<void> {
  try {
    await markSent(database, id, atMs);
  } catch (error) {
    const left = unnoted.get(database) ?? new Map<string, number>();
    unnoted.set(database, left.set(id, atMs));
    throw error;
  }
}

async function sendOne(database: Database, senders: Senders, row: DeliveryRow, nowMs: () => number): Promise<boolean> {
  const channel = await channelById(database, row.channelId);
  if (!channel || channel.failedAtMs !== null) {
    await markStale(database, row.id, nowMs());
    return false;
  }
  const letter = row.letter ? (JSON.parse(row.letter) as Letter) : await compose(database, row);
  if (!letter) {
    await markStale(database, row.id, nowMs());
    return false;
  }
  try {
    await deliver(senders, channel, letter, nowMs());
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    if (error instanceof ChannelGoneError) await markGone(database, row, reason, nowMs());
    else
      await markFailed(
        database,
        row,
        letter.level,
        reason,
        nowMs(),
        error instanceof TryLaterError ? error.afterS : undefined,
      );
    return false;
  }
  // What has left is no failure to send, whatever becomes of the note.
  await noteSent(database, row.id, nowMs());
  return true;
}

async function deliver(senders: Senders, stored: StoredChannel, letter: Letter, nowMs: number): Promise<void> {
  const { channel } = stored;
  if (channel.kind === 'email') {
    if (!senders.email) throw new TryLaterError(say('notices.no-email-server'));
    return senders.email.send(channel.address, letter);
  }
  if (channel.kind === 'push') {
    if (!senders.push) throw new TryLaterError(say('notices.no-push-keys'));
    // Its encryption is loaded with the first message.
    return (await import('./push.ts')).sendPush(senders.push, channel, letter);
  }
  return callWebhook(channel.url, stored.secret ?? '', letter, nowMs, senders.webhook);
}

/** Puts a queued delivery into words at the moment it leaves, so that it says what is true then; `undefined` when nothing is left to say. */
export async function compose(database: Database, row: DeliveryRow): Promise<Letter | undefined> {
  if (row.step === 'digest') return composeDigest(database, row);
  const notice = await readNotice(database, row.noticeId);
  if (!notice) return undefined;
  const open = notice.clearedAtMs === null && notice.acknowledgedAtMs === null;
  // Repeats and escalations of something already settled would only frighten.
  if (!open && row.step !== 'over' && row.step !== 'first') return undefined;
  const names = { animal: notice.animalName, box: notice.boxName, place: notice.placeName };
  const sentence = say(notice.message);
  const over = row.step === 'over' || notice.clearedAtMs !== null;
  return {
    id: row.id,
    level: notice.level,
    title: say(
      over ? 'notices.title.over' : row.step === 'escalation' ? 'notices.title.escalation' : 'notices.title.act-now',
      names,
    ),
    text: over ? say('notices.text.over', { ...names, sentence }) : say('notices.text.act-now', { ...names, sentence }),
    path: `/notices/${row.noticeId}`,
    topic: topicOf(notice.stayId, notice.ruleId),
    ttlS: 3600,
  };
}

async function composeDigest(database: Database, row: DeliveryRow): Promise<Letter | undefined> {
  const rows = await database.kysely
    .selectFrom('notices')
    .select('id')
    .where('groupId', '=', row.groupId)
    .where('level', '=', 'look-today')
    .where('clearedAtMs', 'is', null)
    .where('acknowledgedAtMs', 'is', null)
    .where('fromAtMs', '<', row.dueAtMs)
    .orderBy('fromAtMs')
    .execute();
  const lines: string[] = [];
  for (const { id } of rows) {
    const notice = await readNotice(database, id);
    const keeper = notice?.keeperId ?? null;
    if (!notice || (keeper !== null && keeper !== row.personId)) continue;
    lines.push(
      say('notices.digest.line', {
        animal: notice.animalName,
        place: notice.placeName,
        sentence: say(notice.message),
      }),
    );
  }
  if (lines.length === 0) return undefined;
  return {
    id: row.id,
    level: 'look-today',
    title: say('notices.digest.title', { count: lines.length }),
    text: lines.join('\n'),
    path: '/',
    topic: topicOf('digest', row.personId),
    ttlS: 12 * 3600,
  };
}

async function readNotice(database: Database, id: string) {
  const row = await database.kysely
    .selectFrom('notices')
    .innerJoin('stays', 'stays.id', 'notices.stayId')
    .innerJoin('animals', 'animals.id', 'stays.animalId')
    .innerJoin('boxes', 'boxes.id', 'stays.boxId')
    .innerJoin('places', 'places.id', 'stays.placeId')
    .select([
      'notices.ruleId',
      'notices.stayId',
      'notices.level',
      'notices.message',
      'notices.clearedAtMs',
      'notices.acknowledgedAtMs',
    ])
    .select(['animals.name as animalName', 'animals.keeperId', 'boxes.name as boxName', 'places.name as placeName'])
    .where('notices.id', '=', id)
    // Nobody is written to about an animal that died or left.
    .where('animals.leftOn', 'is', null)
    .executeTakeFirst();
  if (!row) return undefined;
  return {
    ...row,
    level: row.level as NoticeLevel,
    message: JSON.parse(row.message) as Message,
    animalName: String(row.animalName),
    boxName: String(row.boxName),
    placeName: String(row.placeName),
    keeperId: row.keeperId === null ? null : String(row.keeperId),
  };
}

/** The letter that the test button of a channel sends. */
export function testLetter(id: string): Letter {
  return {
    id,
    level: 'test',
    title: say('notices.test.title'),
    text: say('notices.test.text'),
    path: '/settings',
    topic: topicOf('test', id),
    ttlS: 600,
  };
}

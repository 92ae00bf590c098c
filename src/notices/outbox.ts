import { createHash } from 'node:crypto';
import { v7 as uuidv7 } from 'uuid';
import type { Database } from '../records/database.ts';
import type { DeliveryRow } from '../records/tables.ts';
import { TELLING_TIMES, type TellableNotice, type Telling, type TellingTimes, tellings } from '../winter/telling.ts';
import type { NoticeLevel } from '../winter/watch-types.ts';
import { listenersOf } from './channels.ts';

const HOUR_MS = 3_600_000;
/** A claimed delivery belongs to its process this long; then another may take it. Longer than any channel waits for an answer. */
const LEASE_MS = 60_000;
/** Seconds to wait after each failure: quickly at first, then every quarter of an hour. */
const BACK_OFF_S = [5, 15, 60, 180, 600, 900] as const;

/** Deliveries are given up only when they would no longer be true: *act now* after a day, the others after two. */
const keepTryingMs = (level: NoticeLevel | 'test') =>
  level === 'test' ? HOUR_MS / 6 : level === 'act-now' ? 24 * HOUR_MS : 48 * HOUR_MS;

/**
 * Queues whatever ought to be on its way about the group's notices. Each notice, channel and step is queued once, whoever asks and how often:
 * the table's own uniqueness decides. Returns how many were new.
 */
export async function queueTellings(
  database: Database,
  groupId: string,
  nowMs: number,
  times: TellingTimes = TELLING_TIMES,
): Promise<number> {
  const notices = await tellableNotices(database, groupId, nowMs);
  if (notices.length === 0) return 0;
  const listeners = await listenersOf(database, groupId);
  const due = notices.flatMap((notice) => tellings(notice, listeners, nowMs, times));
  if (due.length === 0) return 0;
  const channels = await database.kysely
    .selectFrom('channels')
    .select(['id', 'personId', 'addedAtMs'])
    .where('groupId', '=', groupId)
    .where('failedAtMs', 'is', null)
    .execute();
  const rows = due.flatMap((telling) =>
    channels
      // A channel added later does not hear of what happened long before.
      .filter((channel) => channel.personId === telling.personId && channel.addedAtMs <= telling.dueMs + HOUR_MS)
      .map((channel) => deliveryRow(groupId, telling, channel.id, nowMs)),
  );
  return insert(database, rows);
}

/** Open notices and those that ended within two days, with the animal each is about. */
async function tellableNotices(database: Database, groupId: string, nowMs: number): Promise<TellableNotice[]> {
  const rows = await database.kysely
    .selectFrom('notices')
    .innerJoin('stays', 'stays.id', 'notices.stayId')
    .select([
      'notices.id',
      'notices.level',
      'notices.fromAtMs',
      'notices.clearedAtMs',
      'notices.acknowledgedAtMs',
      'stays.animalId',
    ])
    .where('notices.groupId', '=', groupId)
    .where('notices.level', '!=', 'for-the-record')
    .where((e) => e.or([e('notices.clearedAtMs', 'is', null), e('notices.clearedAtMs', '>', nowMs - 48 * HOUR_MS)]))
    .execute();
  return rows.map((row) => ({
    id: row.id,
    animalId: String(row.animalId),
    level: row.level as NoticeLevel,
    raisedMs: row.fromAtMs,
    ...(row.clearedAtMs === null ? {} : { clearedMs: row.clearedAtMs }),
    ...(row.acknowledgedAtMs === null ? {} : { acknowledgedMs: row.acknowledgedAtMs }),
  }));
}

function deliveryRow(groupId: string, telling: Telling, channelId: string, nowMs: number): DeliveryRow {
  // A digest gathers: all notices of one digest time share one delivery a channel.
  const digest = telling.step === 'digest';
  return {
    id: uuidv7(),
    groupId,
    noticeId: digest ? `digest-${telling.personId}-${telling.dueMs}` : telling.noticeId,
    personId: telling.personId,
    channelId,
    step: telling.step,
    letter: null,
    dueAtMs: telling.dueMs,
    queuedAtMs: nowMs,
    nextAtMs: nowMs,
    leasedUntilMs: null,
    attempts: 0,
    sentAtMs: null,
    givenUpAtMs: null,
    lastError: null,
  };
}

async function insert(database: Database, rows: readonly DeliveryRow[]): Promise<number> {
  const known = new Set<string>();
  const unique = rows.filter((row) => {
    const key = `${row.noticeId} ${row.channelId} ${row.step}`;
    return known.has(key) ? false : known.add(key);
  });
  let queued = 0;
  for (let from = 0; from < unique.length; from += 500) {
    const result = await database.kysely
      .insertInto('deliveries')
      .values(unique.slice(from, from + 500))
      .onConflict((conflict) => conflict.columns(['noticeId', 'channelId', 'step']).doNothing())
      .executeTakeFirst();
    queued += Number(result.numInsertedOrUpdatedRows ?? 0);
  }
  return queued;
}

/** Queues a letter of its own (a test of a channel), already in words. */
export async function queueLetter(
  database: Database,
  channel: { id: string; groupId: string; personId: string },
  letter: string,
  nowMs: number,
): Promise<string> {
  const row: DeliveryRow = {
    ...deliveryRow(
      channel.groupId,
      { noticeId: `test-${uuidv7()}`, personId: channel.personId, step: 'test', dueMs: nowMs },
      channel.id,
      nowMs,
    ),
    letter,
  };
  await insert(database, [row]);
  return row.id;
}

/** Claims deliveries that are due; each belongs to one process until its lease runs out, on either database. */
export async function claimDue(database: Database, nowMs: number, most = 50): Promise<DeliveryRow[]> {
  const { kysely } = database;
  const due = await kysely
    .selectFrom('deliveries')
    .selectAll()
    .where('sentAtMs', 'is', null)
    .where('givenUpAtMs', 'is', null)
    .where('nextAtMs', '<=', nowMs)
    .where((e) => e.or([e('leasedUntilMs', 'is', null), e('leasedUntilMs', '<=', nowMs)]))
    .orderBy('nextAtMs')
    .limit(most)
    .execute();
  const claimed: DeliveryRow[] = [];
  for (const row of due) {
    const result = await kysely
      .updateTable('deliveries')
      .set({ leasedUntilMs: nowMs + LEASE_MS, attempts: row.attempts + 1 })
      .where('id', '=', row.id)
      .where('attempts', '=', row.attempts)
      .where('sentAtMs', 'is', null)
      .executeTakeFirst();
    if (Number(result.numUpdatedRows) === 1) claimed.push({ ...row, attempts: row.attempts + 1 });
  }
  return claimed;
}

/** After a start on SQLite, which one process owns: whatever is still claimed was claimed by a process that is gone. */
export async function releaseClaims(database: Database): Promise<void> {
  if (database.kind === 'sqlite')
    await database.kysely
      .updateTable('deliveries')
      .set({ leasedUntilMs: null })
      .where('sentAtMs', 'is', null)
      .execute();
}

export async function markSent(database: Database, id: string, nowMs: number): Promise<void> {
  await database.kysely
    .updateTable('deliveries')
    .set({ sentAtMs: nowMs, leasedUntilMs: null, lastError: null })
    .where('id', '=', id)
    .execute();
}

/** Puts a failed delivery back with a growing wait, or gives it up once it is no longer worth telling. */
export async function markFailed(
  database: Database,
  row: DeliveryRow,
  level: NoticeLevel | 'test',
  reason: string,
  nowMs: number,
  afterS?: number,
): Promise<void> {
  const waitS = Math.max(afterS ?? 0, BACK_OFF_S[Math.min(row.attempts, BACK_OFF_S.length) - 1] ?? 5);
  const over = nowMs + waitS * 1000 - row.queuedAtMs > keepTryingMs(level);
  await database.kysely
    .updateTable('deliveries')
    .set({
      leasedUntilMs: null,
      nextAtMs: nowMs + waitS * 1000,
      lastError: reason.slice(0, 500),
      ...(over ? { givenUpAtMs: nowMs } : {}),
    })
    .where('id', '=', row.id)
    .execute();
}

/** Ends a channel that will never work again, with everything still queued for it. */
export async function markGone(database: Database, row: DeliveryRow, reason: string, nowMs: number): Promise<void> {
  const lastError = reason.slice(0, 500);
  await database.kysely.transaction().execute(async (transaction) => {
    await transaction
      .updateTable('channels')
      .set({ failedAtMs: nowMs, lastError })
      .where('id', '=', row.channelId)
      .execute();
    await transaction
      .updateTable('deliveries')
      .set({ givenUpAtMs: nowMs, lastError, leasedUntilMs: null })
      .where('channelId', '=', row.channelId)
      .where('sentAtMs', 'is', null)
      .execute();
  });
}

/** Drops queued words that are no longer true. */
export async function markStale(database: Database, id: string, nowMs: number): Promise<void> {
  await database.kysely
    .updateTable('deliveries')
    .set({ givenUpAtMs: nowMs, lastError: null, leasedUntilMs: null })
    .where('id', '=', id)
    .execute();
}

export interface Undelivered {
  readonly noticeId: string;
  /** Null for a letter that is about no single notice. */
  readonly level: NoticeLevel | null;
  readonly personId: string;
  readonly attempts: number;
  readonly lastError: string;
  readonly givenUp: boolean;
}

/** What could not be delivered: shown beside its notice, so that nothing is dropped in silence. */
export async function undelivered(database: Database, groupId: string): Promise<Undelivered[]> {
  const rows = await database.kysely
    .selectFrom('deliveries')
    .leftJoin('notices', 'notices.id', 'deliveries.noticeId')
    .select([
      'deliveries.noticeId',
      'deliveries.personId',
      'deliveries.attempts',
      'deliveries.lastError',
      'deliveries.givenUpAtMs',
      'notices.level',
    ])
    .where('deliveries.groupId', '=', groupId)
    .where('deliveries.sentAtMs', 'is', null)
    .where('deliveries.lastError', 'is not', null)
    .execute();
  return rows.map((row) => ({
    noticeId: row.noticeId,
    level: row.level === null ? null : (String(row.level) as NoticeLevel),
    personId: row.personId,
    attempts: row.attempts,
    lastError: row.lastError ?? '',
    givenUp: row.givenUpAtMs !== null,
  }));
}

/** A push topic: at most 32 characters of the URL-safe base64 alphabet (RFC 8030). */
export function topicOf(...parts: string[]): string {
  return createHash('sha256').update(parts.join('\n')).digest('base64url').slice(0, 32);
}

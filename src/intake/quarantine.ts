import { v7 as uuidv7 } from 'uuid';
import type { Database } from '../records/database.ts';

/** Senders kept apart at most; a flood of made-up names must not fill the database. */
const MOST_SENDERS = 1000;

export interface Quarantined {
  readonly id: string;
  readonly source: string;
  readonly sender: string;
  /** The last message, cut to 500 characters. */
  readonly what: string;
  readonly why: string;
  readonly firstAtMs: number;
  readonly lastAtMs: number;
  readonly count: number;
}

const shown = (text: string, length: number) => text.replace(/\p{Cc}+/gu, ' ').slice(0, length);

/** Keeps what could not be taken: one row for each sender and reason, with how often and the last message. */
export async function quarantine(
  database: Database,
  groupId: string,
  odd: { source: string; sender: string; what: string; why: string },
  nowMs: number,
): Promise<void> {
  const sender = shown(odd.sender, 120);
  const why = shown(odd.why, 300);
  const what = shown(odd.what, 500);
  await database.kysely.transaction().execute(async (transaction) => {
    const known = await transaction
      .selectFrom('quarantine')
      .select(['id', 'count'])
      .where('groupId', '=', groupId)
      .where('source', '=', odd.source)
      .where('sender', '=', sender)
      .where('why', '=', why)
      .executeTakeFirst();
    if (known) {
      await transaction
        .updateTable('quarantine')
        .set({ what, lastAtMs: nowMs, count: known.count + 1 })
        .where('id', '=', known.id)
        .execute();
      return;
    }
    const { senders } = await transaction
      .selectFrom('quarantine')
      .select((e) => e.fn.countAll<number>().as('senders'))
      .where('groupId', '=', groupId)
      .executeTakeFirstOrThrow();
    if (Number(senders) >= MOST_SENDERS) return;
    await transaction
      .insertInto('quarantine')
      .values({
        id: uuidv7(),
        groupId,
        source: odd.source,
        sender,
        what,
        why,
        firstAtMs: nowMs,
        lastAtMs: nowMs,
        count: 1,
      })
      .execute();
  });
}

export async function listQuarantine(database: Database, groupId: string): Promise<Quarantined[]> {
  return database.kysely
    .selectFrom('quarantine')
    .selectAll()
    .where('groupId', '=', groupId)
    .orderBy('lastAtMs', 'desc')
    .limit(200)
    .execute();
}

/** Clears one row once a person has looked at it. */
export async function dismissQuarantine(database: Database, groupId: string, id: string): Promise<void> {
  await database.kysely.deleteFrom('quarantine').where('groupId', '=', groupId).where('id', '=', id).execute();
}

import { v7 as uuidv7 } from 'uuid';
import type { Database } from '../records/database.ts';

/** Senders kept apart at most; a flood of made-up names must not fill the database. */
const MOST_SENDERS = 1000;
const REST_SENDER = '(others)';
const REST_WHY = 'more than 1,000 different senders and reasons; the rest is counted here';

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

/** What could not be taken, and how often. */
export interface Odd {
  readonly sender: string;
  readonly what: string;
  readonly why: string;
  readonly count: number;
}

/**
 * Keeps what could not be taken: one row for each sender and reason, with how often and the last message, all in one commit. Senders beyond
 * the first 1,000 share one row, so that a flood of made-up names fills nothing and is seen all the same.
 */
export async function quarantine(
  database: Database,
  groupId: string,
  source: string,
  odds: readonly Odd[],
  nowMs: number,
): Promise<void> {
  const kept = new Map<string, Odd>();
  for (const odd of odds) {
    const [sender, why] = [shown(odd.sender, 120), shown(odd.why, 300)];
    const key = JSON.stringify([sender, why]);
    kept.set(key, { sender, why, what: shown(odd.what, 500), count: odd.count + (kept.get(key)?.count ?? 0) });
  }
  if (kept.size === 0) return;
  await database.kysely.transaction().execute(async (transaction) => {
    const add = async (odd: Odd): Promise<boolean> => {
      const { numUpdatedRows } = await transaction
        .updateTable('quarantine')
        .set((e) => ({ what: odd.what, lastAtMs: nowMs, count: e('count', '+', odd.count) }))
        .where('groupId', '=', groupId)
        .where('source', '=', source)
        .where('sender', '=', odd.sender)
        .where('why', '=', odd.why)
        .executeTakeFirst();
      return numUpdatedRows > 0;
    };
    const insert = async (odd: Odd): Promise<void> => {
      await transaction
        .insertInto('quarantine')
        .values({ id: uuidv7(), groupId, source, ...odd, firstAtMs: nowMs, lastAtMs: nowMs })
        .execute();
    };
    let room: number | undefined;
    const rest = { sender: REST_SENDER, why: REST_WHY, what: '', count: 0 };
    for (const odd of kept.values()) {
      if (await add(odd)) continue;
      if (room === undefined) {
        const { senders } = await transaction
          .selectFrom('quarantine')
          .select((e) => e.fn.countAll<number>().as('senders'))
          .where('groupId', '=', groupId)
          .executeTakeFirstOrThrow();
        room = MOST_SENDERS - Number(senders);
      }
      if (room > 0) {
        room -= 1;
        await insert(odd);
      } else {
        rest.count += odd.count;
        rest.what = shown(`${odd.sender}: ${odd.what}`, 500);
      }
    }
    if (rest.count > 0 && !(await add(rest))) await insert(rest);
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

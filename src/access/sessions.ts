import type { Database } from '../records/database.ts';
import type { PersonRow } from '../records/tables.ts';
import { newToken, tokenHash } from './tokens.ts';

const DAY_MS = 86_400_000;
/** A session ends after two weeks without a visit, and after 90 days in any case. */
export const IDLE_MS = 14 * DAY_MS;
export const LONGEST_MS = 90 * DAY_MS;
/** The last visit is written at most this often. */
const TOUCH_MS = 10 * 60_000;

/** Opens a session; the token is told only here. */
export async function openSession(
  database: Database,
  personId: string,
  device: string | undefined,
  nowMs: number,
): Promise<string> {
  const token = newToken();
  await database.kysely
    .insertInto('sessions')
    .values({
      tokenHash: tokenHash(token),
      personId,
      createdAtMs: nowMs,
      lastSeenAtMs: nowMs,
      device: device?.slice(0, 120) ?? null,
    })
    .execute();
  return token;
}

/** The person of a token, or undefined when the session is unknown, ended, or too old. */
export async function personBySession(
  database: Database,
  token: string,
  nowMs: number,
): Promise<PersonRow | undefined> {
  const key = tokenHash(token);
  const session = await database.kysely
    .selectFrom('sessions')
    .selectAll()
    .where('tokenHash', '=', key)
    .executeTakeFirst();
  if (!session) return undefined;
  if (nowMs - session.lastSeenAtMs > IDLE_MS || nowMs - session.createdAtMs > LONGEST_MS) {
    await endSession(database, token);
    return undefined;
  }
  if (nowMs - session.lastSeenAtMs > TOUCH_MS)
    await database.kysely.updateTable('sessions').set({ lastSeenAtMs: nowMs }).where('tokenHash', '=', key).execute();
  return database.kysely
    .selectFrom('people')
    .selectAll()
    .where('id', '=', session.personId)
    .where('removedAtMs', 'is', null)
    .executeTakeFirst();
}

export async function endSession(database: Database, token: string): Promise<void> {
  await database.kysely.deleteFrom('sessions').where('tokenHash', '=', tokenHash(token)).execute();
}

/** Ends every session of a person; with `but`, all except that one. */
export async function endSessions(database: Database, personId: string, but?: string): Promise<void> {
  let query = database.kysely.deleteFrom('sessions').where('personId', '=', personId);
  if (but !== undefined) query = query.where('tokenHash', '<>', tokenHash(but));
  await query.execute();
}

/** Sessions of a person, newest visit first. */
export async function listSessions(
  database: Database,
  personId: string,
): Promise<{ device: string; createdAtMs: number; lastSeenAtMs: number }[]> {
  const rows = await database.kysely
    .selectFrom('sessions')
    .selectAll()
    .where('personId', '=', personId)
    .orderBy('lastSeenAtMs', 'desc')
    .execute();
  return rows.map((row) => ({
    device: row.device ?? '',
    createdAtMs: row.createdAtMs,
    lastSeenAtMs: row.lastSeenAtMs,
  }));
}

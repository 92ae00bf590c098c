import type { Database } from '../records/database.ts';
import { RecordProblem } from '../records/problem.ts';
import { say } from '../wording/say.ts';
import { newToken, tokenHash } from './tokens.ts';

/** A link for a vet may hold at most this long. */
const LONGEST_MS = 92 * 86_400_000;

export interface Share {
  readonly id: string;
  readonly animalId: string;
  readonly forWhom: string;
  readonly until: string;
  readonly revoked: boolean;
}

/** Makes a link that lets its holder read one animal until an instant. The token is told only here. */
export async function makeShare(
  database: Database,
  asked: {
    id: string;
    groupId: string;
    animalId: string;
    forWhom: string;
    untilMs: number;
    by: string | null;
    nowMs: number;
  },
): Promise<string> {
  if (asked.untilMs <= asked.nowMs || asked.untilMs > asked.nowMs + LONGEST_MS) {
    const what = say('access.shareUntil');
    throw new RecordProblem('invalid', what, [{ where: 'until', what }]);
  }
  const token = newToken();
  await database.kysely
    .insertInto('shareLinks')
    .values({
      id: asked.id,
      groupId: asked.groupId,
      animalId: asked.animalId,
      forWhom: asked.forWhom,
      tokenHash: tokenHash(token),
      untilMs: asked.untilMs,
      revokedAtMs: null,
      madeBy: asked.by,
      madeAtMs: asked.nowMs,
    })
    .execute();
  return token;
}

export async function listShares(database: Database, groupId: string, animalId: string): Promise<Share[]> {
  const rows = await database.kysely
    .selectFrom('shareLinks')
    .selectAll()
    .where('groupId', '=', groupId)
    .where('animalId', '=', animalId)
    .orderBy('madeAtMs')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    animalId: row.animalId,
    forWhom: row.forWhom,
    until: new Date(row.untilMs).toISOString(),
    revoked: row.revokedAtMs !== null,
  }));
}

/** Revoking is at once and for good; revoking again changes nothing. */
export async function revokeShare(
  database: Database,
  groupId: string,
  animalId: string,
  id: string,
  nowMs: number,
): Promise<void> {
  const result = await database.kysely
    .updateTable('shareLinks')
    .set((e) => ({ revokedAtMs: e.fn.coalesce('revokedAtMs', e.val(nowMs)) }))
    .where('id', '=', id)
    .where('groupId', '=', groupId)
    .where('animalId', '=', animalId)
    .executeTakeFirst();
  if (Number(result.numUpdatedRows) === 0) throw new RecordProblem('not-found', say('records.notFound'));
}

/** What the holder of a link may read, or RecordProblem when it has run out or was revoked. */
export async function shareByToken(
  database: Database,
  token: string,
  nowMs: number,
): Promise<{ id: string; groupId: string; animalId: string; forWhom: string; until: string }> {
  const row = await database.kysely
    .selectFrom('shareLinks')
    .selectAll()
    .where('tokenHash', '=', tokenHash(token))
    .where('revokedAtMs', 'is', null)
    .where('untilMs', '>', nowMs)
    .executeTakeFirst();
  if (!row) throw new RecordProblem('not-found', say('access.shareGone'));
  return {
    id: row.id,
    groupId: row.groupId,
    animalId: row.animalId,
    forWhom: row.forWhom,
    until: new Date(row.untilMs).toISOString(),
  };
}

import { randomBytes } from 'node:crypto';
import type { Database } from '../records/database.ts';
import { RecordProblem } from '../records/problem.ts';
import { type Channel, channelSchema, type Listening, listeningSchema } from '../schema/channel.ts';
import type { Listener } from '../winter/telling.ts';
import { say } from '../wording/say.ts';

const USUAL: Listening = { quiet: { from: '22:00', to: '07:00' }, digests: ['08:00', '17:00'] };
const MOST_CHANNELS = 12;

export interface StoredChannel {
  readonly id: string;
  readonly groupId: string;
  readonly personId: string;
  readonly channel: Channel;
  /** Shared secret of a webhook; shown once to whoever added it. */
  readonly secret: string | null;
  readonly failedAtMs: number | null;
  readonly lastError: string | null;
}

/** Adds a way to reach a person; the same one sent again is no second one. Returns the secret of a webhook, once. */
export async function addChannel(
  database: Database,
  person: { id: string; groupId: string },
  channel: Channel,
  nowMs: number,
): Promise<{ secret?: string }> {
  const existing = await channelsOf(database, person.id);
  const same = existing.find((one) => one.id === channel.id);
  if (same) {
    if (JSON.stringify(same.channel) === JSON.stringify(channel)) return {};
    throw new RecordProblem('id-in-use', say('records.idInUse'), [{ where: 'id', what: say('records.idInUse') }]);
  }
  if (existing.length >= MOST_CHANNELS)
    throw new RecordProblem('invalid', say('notices.channel.too-many', { most: MOST_CHANNELS }));
  const secret = channel.kind === 'webhook' ? randomBytes(32).toString('base64url') : null;
  await database.kysely
    .insertInto('channels')
    .values({
      id: channel.id,
      groupId: person.groupId,
      personId: person.id,
      kind: channel.kind,
      body: JSON.stringify(channel),
      secret,
      addedAtMs: nowMs,
      failedAtMs: null,
      lastError: null,
    })
    .execute();
  return secret === null ? {} : { secret };
}

export async function removeChannel(database: Database, personId: string, id: string): Promise<void> {
  await database.kysely.transaction().execute(async (transaction) => {
    const row = await transaction
      .selectFrom('channels')
      .select('id')
      .where('id', '=', id)
      .where('personId', '=', personId)
      .executeTakeFirst();
    if (!row) throw new RecordProblem('not-found', say('records.notFound'));
    await transaction.deleteFrom('deliveries').where('channelId', '=', id).execute();
    await transaction.deleteFrom('channels').where('id', '=', id).execute();
  });
}

export async function channelsOf(database: Database, personId: string): Promise<StoredChannel[]> {
  const rows = await database.kysely
    .selectFrom('channels')
    .selectAll()
    .where('personId', '=', personId)
    .orderBy('addedAtMs')
    .execute();
  return rows.map((row) => ({ ...row, channel: channelSchema.parse(JSON.parse(row.body)) }));
}

export async function channelById(database: Database, id: string): Promise<StoredChannel | undefined> {
  const row = await database.kysely.selectFrom('channels').selectAll().where('id', '=', id).executeTakeFirst();
  return row && { ...row, channel: channelSchema.parse(JSON.parse(row.body)) };
}

export async function listeningOf(database: Database, personId: string): Promise<Listening> {
  const row = await database.kysely
    .selectFrom('listenings')
    .select('body')
    .where('personId', '=', personId)
    .executeTakeFirst();
  return row ? listeningSchema.parse(JSON.parse(row.body)) : USUAL;
}

export async function saveListening(database: Database, personId: string, listening: Listening): Promise<void> {
  const body = JSON.stringify(listening);
  await database.kysely
    .insertInto('listenings')
    .values({ personId, body })
    .onConflict((conflict) => conflict.column('personId').doUpdateSet({ body }))
    .execute();
}

const minutes = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));

/** The people of a group as listeners: who looks after which animal, and when each wants to hear. */
export async function listenersOf(database: Database, groupId: string): Promise<Listener[]> {
  const { kysely } = database;
  const [group, people, animals] = await Promise.all([
    kysely.selectFrom('groups').select('zone').where('id', '=', groupId).executeTakeFirstOrThrow(),
    kysely
      .selectFrom('people')
      .select(['id', 'role'])
      .where('groupId', '=', groupId)
      .where('removedAtMs', 'is', null)
      .execute(),
    kysely
      .selectFrom('animals')
      .select(['id', 'keeperId'])
      .where('groupId', '=', groupId)
      .where('deletedAtMs', 'is', null)
      .execute(),
  ]);
  const keeperOf = new Map(animals.map((animal) => [animal.id, animal.keeperId]));
  return Promise.all(
    people
      .filter((person) => person.role !== 'reader')
      .map(async (person): Promise<Listener> => {
        const listening = await listeningOf(database, person.id);
        return {
          personId: person.id,
          tutor: person.role === 'tutor',
          looksAfter: (animalId) => keeperOf.get(animalId) === person.id,
          zone: group.zone,
          ...(listening.quiet
            ? { quiet: { fromMin: minutes(listening.quiet.from), toMin: minutes(listening.quiet.to) } }
            : {}),
          digestsMin: listening.digests.map(minutes).sort((a, b) => a - b),
        };
      }),
  );
}

import { sql } from 'kysely';
import { v7 as uuidv7 } from 'uuid';
import { dayInZone } from '../../measure/zone.ts';
import type { EntryRow } from '../tables.ts';
import type { Migration } from './build.ts';

/** Fields of a stay in the order in which the trail of changes writes them. */
const FIELDS = ['animalId', 'boxId', 'placeId', 'fromDay', 'toDay', 'endReason', 'endEntryId', 'note'] as const;

/**
 * Since step 0007 a waking ends the stay it falls into; stays woken before it kept no end. Each gets the day of its waking, with a line in
 * its trail, so that deleting the waking gives it back. Left alone is what was written since, and an animal that went down again: it may
 * be asleep.
 */
export const endsOfWokenStays: Migration = {
  name: '0012-ends-of-woken-stays',
  async up(kysely) {
    const { rows } = await sql<{ doneAt: string }>`
      select done_at from migrations_done where name = '0007-end-of-stay'`.execute(kysely);
    const beforeMs = Date.parse(rows[0]?.doneAt ?? '');
    const zones = new Map(
      (await kysely.selectFrom('groups').select(['id', 'zone']).execute()).map((group) => [group.id, group.zone]),
    );
    const stays = (await kysely
      .selectFrom('stays')
      .selectAll()
      .where('toDay', 'is', null)
      .where('deletedAtMs', 'is', null)
      .where('changedAtMs', '<=', beforeMs)
      .execute()) as EntryRow[];
    for (const stay of stays) {
      const zone = zones.get(stay.groupId) ?? 'UTC';
      const turns = await kysely
        .selectFrom('diaryEntries')
        .select(['id', 'kind', 'atMs', 'changedAtMs'])
        .where('animalId', '=', stay.animalId as string)
        .where('kind', 'in', ['woken', 'went-down'])
        .where('deletedAtMs', 'is', null)
        .orderBy('atMs')
        .execute();
      const next = await kysely
        .selectFrom('stays')
        .select('fromDay')
        .where('animalId', '=', stay.animalId as string)
        .where('fromDay', '>', String(stay.fromDay))
        .where('deletedAtMs', 'is', null)
        .orderBy('fromDay')
        .executeTakeFirst();
      const during = turns
        .map((turn) => ({ ...turn, day: dayInZone(Number(turn.atMs), zone) }))
        // What happened in the next stay says nothing of this one.
        .filter(({ day }) => day >= String(stay.fromDay) && (!next || day < String(next.fromDay)));
      const lastDown = during.findLastIndex((turn) => turn.kind === 'went-down');
      const waking = during.slice(lastDown + 1).find((turn) => turn.kind === 'woken');
      if (!waking || waking.changedAtMs > beforeMs) continue;
      const ended: EntryRow = {
        ...stay,
        toDay: waking.day,
        endReason: 'woken',
        endEntryId: waking.id,
        revision: stay.revision + 1,
        changedBy: null,
        changedAtMs: Date.now(),
      };
      const { id, ...columns } = ended;
      await kysely.updateTable('stays').set(columns).where('id', '=', id).execute();
      await kysely
        .insertInto('changes')
        .values({
          id: uuidv7(),
          groupId: stay.groupId,
          kind: 'stay',
          recordId: id,
          revision: ended.revision,
          action: 'changed',
          byPerson: null,
          atMs: ended.changedAtMs,
          before: bodyOf(stay),
          after: bodyOf(ended),
        })
        .execute();
    }
  },
};

const bodyOf = (stay: EntryRow): string =>
  JSON.stringify(Object.fromEntries(FIELDS.flatMap((field) => (stay[field] == null ? [] : [[field, stay[field]]]))));

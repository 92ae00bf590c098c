import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Announcement, onRecorded } from '../../src/records/announce.ts';
import type { Database } from '../../src/records/database.ts';
import { change, make, read, remove, restore } from '../../src/records/entries.ts';
import { ANIMAL, BOX, DIARY, PLACE, STAY } from '../../src/records/kinds.ts';
import { roundOf } from '../../src/records/round.ts';
import { FISH_BOX, GROUP, id, SCOPE, SEDGE, SHED, smallGroup } from './given.ts';
import { freshDatabase, STORES } from './stores.ts';

describe.each(STORES)('a waking and the stay it ends, on %s', (store) => {
  let database: Database;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
    await make(database, SCOPE, ANIMAL, { ...SEDGE, id: id(4), name: 'Bracken' });
    await make(database, SCOPE, PLACE, SHED);
    await make(database, SCOPE, BOX, FISH_BOX);
  });
  afterAll(() => database.close());

  let next = 100;
  /** A stay of Sedge, with nothing before it. */
  const stay = async (more: object = {}, animalId = SEDGE.id) => {
    const made = { id: id(next++), animalId, boxId: FISH_BOX.id, placeId: SHED.id, fromDay: '2026-11-20', ...more };
    await make(database, SCOPE, STAY, made);
    return made.id;
  };
  const woken = async (at: string, animalId = SEDGE.id) => {
    const made = { id: id(next++), animalId, at, kind: 'woken' as const };
    await make(database, SCOPE, DIARY, made);
    return made;
  };
  const endOf = async (stayId: string) => {
    const { toDay, endReason, endEntryId } = await read(database, SCOPE, STAY, stayId);
    return { toDay, endReason, endEntryId };
  };
  const open = { toDay: undefined, endReason: undefined, endEntryId: undefined };

  it('ends with its day and its reason, and is given back when the waking is deleted, and ended again when it returns', async () => {
    const stayId = await stay();
    const entry = await woken('2026-12-09T17:00:00.000Z');
    const ended = { toDay: '2026-12-09', endReason: 'woken', endEntryId: entry.id };
    expect(await endOf(stayId)).toEqual(ended);
    const round = async () => (await roundOf(database, SCOPE, GROUP, '2026-12-10')).parts.flatMap((part) => part.stays);
    expect(await round()).toEqual([]);
    await remove(database, SCOPE, DIARY, entry.id);
    expect(await endOf(stayId)).toEqual(open);
    expect((await round()).map((one) => one.stayId)).toEqual([stayId]);
    await restore(database, SCOPE, DIARY, entry.id);
    expect(await endOf(stayId)).toEqual(ended);
    await remove(database, SCOPE, STAY, stayId);
  });

  it('is ended from its first day on, by the keeper’s own clock, and not the day before', async () => {
    const stayId = await stay({ fromDay: '2026-12-05' });
    await woken('2026-12-04T23:59:00.000Z');
    expect(await endOf(stayId)).toEqual(open);
    await woken('2026-12-05T00:01:00.000Z');
    expect(await endOf(stayId)).toMatchObject({ toDay: '2026-12-05' });
    await remove(database, SCOPE, STAY, stayId);
  });

  it('is left alone when it ended by that day or is another animal’s; a later end is brought forward and comes back', async () => {
    const over = await stay({ fromDay: '2026-11-01', toDay: '2026-11-15' });
    const onTheDay = await stay({ fromDay: '2026-11-16', toDay: '2026-12-01', endReason: 'another-box' });
    const planned = await stay({ toDay: '2027-02-20' });
    const strange = await stay({}, id(4));
    const entry = await woken('2026-12-01T09:00:00.000Z');
    expect(await endOf(over)).toMatchObject({ toDay: '2026-11-15', endReason: undefined });
    expect(await endOf(onTheDay)).toMatchObject({ toDay: '2026-12-01', endReason: 'another-box' });
    expect(await endOf(strange)).toEqual(open);
    expect(await endOf(planned)).toMatchObject({ toDay: '2026-12-01', endReason: 'woken' });
    await remove(database, SCOPE, DIARY, entry.id);
    expect(await endOf(planned)).toEqual({ ...open, toDay: '2027-02-20' });
    for (const one of [over, onTheDay, planned, strange]) await remove(database, SCOPE, STAY, one);
  });

  it('moves with the waking, is given back when that was something else, and is not touched by a change of its note', async () => {
    const stayId = await stay();
    const entry = await woken('2026-12-02T09:00:00.000Z');
    await change(database, SCOPE, DIARY, { ...entry, at: '2026-12-03T09:00:00.000Z' });
    expect(await endOf(stayId)).toMatchObject({ toDay: '2026-12-03' });
    const { revision } = await read(database, SCOPE, STAY, stayId);
    await change(database, SCOPE, DIARY, { ...entry, at: '2026-12-03T09:00:00.000Z', note: 'Bright at once.' });
    expect((await read(database, SCOPE, STAY, stayId)).revision).toBe(revision);
    await change(database, SCOPE, DIARY, { ...entry, kind: 'awake-signs' });
    expect(await endOf(stayId)).toEqual(open);
    await remove(database, SCOPE, STAY, stayId);
  });

  it('keeps an end that a person set after the waking', async () => {
    const stayId = await stay();
    const entry = await woken('2026-12-02T09:00:00.000Z');
    const { endEntryId: _, ...kept } = await read(database, SCOPE, STAY, stayId);
    await change(database, SCOPE, STAY, { ...kept, toDay: '2026-12-04', endReason: 'another-box' });
    await remove(database, SCOPE, DIARY, entry.id);
    expect(await endOf(stayId)).toEqual({ ...open, toDay: '2026-12-04', endReason: 'another-box' });
    await remove(database, SCOPE, STAY, stayId);
  });

  it('is told to the watch, at the waking and at its undoing', async () => {
    const stayId = await stay();
    const heard: Announcement[] = [];
    const stop = onRecorded(database, (one) => heard.push(one));
    const entry = await woken('2026-12-02T09:00:00.000Z');
    await remove(database, SCOPE, DIARY, entry.id);
    stop();
    expect(heard.map((one) => one.kind)).toEqual(['diary', 'stay', 'diary', 'stay']);
    await remove(database, SCOPE, STAY, stayId);
  });

  it('leaves nothing half done: when the stay cannot be written, the waking is not kept either', async () => {
    const stayId = await stay();
    const entry = { id: id(next++), animalId: SEDGE.id, at: '2026-12-02T09:00:00.000Z', kind: 'woken' as const };
    const broken = `create trigger no_end before update on stays ${
      store === 'sqlite' ? "begin select raise(abort, 'full'); end" : 'for each row execute function no_end()'
    }`;
    const run = (text: string) =>
      database.kysely.executeQuery({ sql: text, parameters: [], query: { kind: 'RawNode' } } as never);
    if (store === 'postgres')
      await run("create function no_end() returns trigger language plpgsql as $$ begin raise exception 'full'; end $$");
    await run(broken);
    await expect(make(database, SCOPE, DIARY, entry)).rejects.toThrow('full');
    await run(store === 'sqlite' ? 'drop trigger no_end' : 'drop trigger no_end on stays');
    expect(await endOf(stayId)).toEqual(open);
    await expect(read(database, SCOPE, DIARY, entry.id)).rejects.toMatchObject({ type: 'not-found' });
  });
});

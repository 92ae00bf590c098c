import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compose } from '../../src/notices/sender.ts';
import { watchedStays } from '../../src/notices/watched.ts';
import { calendarPlan } from '../../src/papers/calendar-view.ts';
import { type Announcement, onRecorded } from '../../src/records/announce.ts';
import type { Database } from '../../src/records/database.ts';
import { change, list, make, read, remove } from '../../src/records/entries.ts';
import { exportGroup } from '../../src/records/export.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { historyOf } from '../../src/records/history.ts';
import { importExport } from '../../src/records/import.ts';
import { ANIMAL, BOX, DIARY, PLACE, STAY } from '../../src/records/kinds.ts';
import { listNotices } from '../../src/records/notices.ts';
import { planWinter } from '../../src/records/planning.ts';
import { listPlans } from '../../src/records/plans.ts';
import { roundOf } from '../../src/records/round.ts';
import type { DeliveryRow } from '../../src/records/tables.ts';
import type { Animal } from '../../src/schema/animal.ts';
import { FISH_BOX, GROUP, id, NOW_MS, SCOPE, SEDGE, SHED, smallGroup } from './given.ts';
import { freshDatabase, STORES } from './stores.ts';

const TODAY = '2026-12-10';

describe.each(STORES)('an animal that died or left, on %s', (store) => {
  let database: Database;
  beforeAll(async () => {
    database = await freshDatabase(store);
    await smallGroup(database);
    await make(database, SCOPE, PLACE, SHED);
    await make(database, SCOPE, BOX, FISH_BOX);
  });
  afterAll(() => database.close());

  let next = 100;
  const animal = async (more: Partial<Animal> = {}) => {
    const made = { ...SEDGE, id: id(next++), name: 'Bracken', ...more };
    await make(database, SCOPE, ANIMAL, made);
    return made;
  };
  const stay = async (animalId: string, more: object = {}) => {
    const made = { id: id(next++), animalId, boxId: FISH_BOX.id, placeId: SHED.id, fromDay: '2026-11-20', ...more };
    await make(database, SCOPE, STAY, made);
    return made.id;
  };
  const leave = async (who: Animal, leftOn = TODAY, leftHow: NonNullable<Animal['leftHow']> = 'died') =>
    change(database, SCOPE, ANIMAL, { ...who, leftOn, leftHow });
  const endOf = async (stayId: string) => {
    const { toDay, endReason, endEntryId } = await read(database, SCOPE, STAY, stayId);
    return { toDay, endReason, endEntryId };
  };
  const open = { toDay: undefined, endReason: undefined, endEntryId: undefined };
  const onRound = async (day: string, animalId: string) => {
    const { parts } = await roundOf(database, SCOPE, GROUP, day);
    return parts.flatMap((part) => [...part.stays, ...part.lines]).filter((line) => line.animalId === animalId).length;
  };

  it.each([
    ['died', 'died'],
    ['sold', 'left'],
  ] as const)('which %s ends its stay on that day; taken back, the stay is as it was', async (how, reason) => {
    const who = await animal();
    const stayId = await stay(who.id, { toDay: '2027-02-20' });
    await leave(who, '2026-12-08', how);
    expect(await endOf(stayId)).toEqual({ toDay: '2026-12-08', endReason: reason, endEntryId: who.id });
    await change(database, SCOPE, ANIMAL, who);
    expect(await endOf(stayId)).toEqual({ ...open, toDay: '2027-02-20' });
    await leave(who, '2026-12-07', how);
    await leave(who, '2026-12-09', how);
    expect(await endOf(stayId)).toMatchObject({ toDay: '2026-12-09' });
    await change(database, SCOPE, ANIMAL, { ...who, leftOn: '2026-12-09', leftHow: how, leftNote: 'Under the oak.' });
    expect(await endOf(stayId)).toMatchObject({ toDay: '2026-12-09' });
  });

  it('takes away a stay that was still to come, gives it back, and leaves one alone that a person deleted', async () => {
    const who = await animal();
    const coming = await stay(who.id, { fromDay: '2026-12-20' });
    const over = await stay(who.id, { fromDay: '2026-11-01', toDay: '2026-11-05' });
    await leave(who);
    await expect(read(database, SCOPE, STAY, coming)).rejects.toMatchObject({ type: 'deleted' });
    expect(await endOf(over)).toMatchObject({ toDay: '2026-11-05', endReason: undefined });
    await change(database, SCOPE, ANIMAL, who);
    expect(await endOf(coming)).toEqual(open);
    const begun = await stay(who.id, { fromDay: '2026-12-01' });
    await leave(who);
    await remove(database, SCOPE, STAY, begun);
    await change(database, SCOPE, ANIMAL, who);
    await expect(read(database, SCOPE, STAY, begun)).rejects.toMatchObject({ type: 'deleted' });
  });

  it('is on the round to the day before and not from its day on, and out of the watch at once', async () => {
    const who = await animal();
    const stayId = await stay(who.id);
    expect(await watchedStays(database, NOW_MS, stayId)).toHaveLength(1);
    await leave(who);
    expect(await onRound('2026-12-09', who.id)).toBe(1);
    expect(await onRound(TODAY, who.id)).toBe(0);
    expect(await watchedStays(database, NOW_MS, stayId)).toEqual([]);
  });

  it('has no open notice, and no letter leaves about it; what was noticed stays in its history', async () => {
    const who = await animal();
    const stayId = await stay(who.id);
    const noticeId = id(next++);
    const notice = { id: noticeId, groupId: GROUP.id, stayId, ruleId: 'frost', level: 'act-now', fromAtMs: NOW_MS };
    await database.kysely
      .insertInto('notices')
      .values({
        ...notice,
        message: JSON.stringify({ key: 'web.round.whatToDo' }),
        clearedAtMs: null,
        acknowledgedBy: null,
        acknowledgedAtMs: null,
        acknowledgedNote: null,
      } as never)
      .execute();
    const row = { step: 'first', noticeId, groupId: GROUP.id, personId: id(9), dueAtMs: NOW_MS, id: id(next++) };
    const letter = () => compose(database, row as unknown as DeliveryRow);
    const openOnes = async () => (await listNotices(database, SCOPE, true)).map((one) => one.id);
    expect(await openOnes()).toContain(noticeId);
    expect(await letter()).toBeDefined();
    await leave(who);
    expect(await openOnes()).not.toContain(noticeId);
    expect(await letter()).toBeUndefined();
    expect((await historyOf(database, SCOPE, who.id)).notices.map((one) => one.id)).toEqual([noticeId]);
  });

  it('gets no plan and no stay after that day, and may still be written about', async () => {
    const who = await animal();
    await leave(who, '2026-12-08', 'returned');
    await expect(stay(who.id, { fromDay: '2026-12-09' })).rejects.toMatchObject({
      problems: [{ where: 'animalId', what: expect.stringContaining('8 December 2026') }],
    });
    await stay(who.id, { fromDay: '2026-12-01', toDay: '2026-12-08' });
    await expect(stay(who.id, { fromDay: '2026-12-01', toDay: '2026-12-09' })).rejects.toMatchObject({
      type: 'invalid',
    });
    const asked = { animalId: who.id, id: id(next++), reason: 'first', request: {} };
    await expect(planWinter(database, SCOPE, GROUP, asked, TODAY)).rejects.toMatchObject({
      problems: [{ where: 'animalId' }],
    });
    await make(database, SCOPE, DIARY, { id: id(next++), animalId: who.id, at: '2026-12-09T10:00:00Z', kind: 'note' });
    expect((await historyOf(database, SCOPE, who.id)).changes.map((one) => one.action)).toContain('changed');
  });

  it('goes into no calendar', async () => {
    const who = await animal();
    const kept = { id: id(next++), animalId: who.id, revision: 1, madeAt: '2026-10-01T00:00:00Z', reason: '' };
    const plans = [{ ...kept, request: {}, plan: { winter: '2026', fromDay: TODAY, toDay: TODAY } }] as never;
    expect(calendarPlan(who, plans, NOW_MS)).toBeDefined();
    expect(calendarPlan(await leave(who), plans, NOW_MS)).toBeUndefined();
    expect(await listPlans(database, SCOPE, who.id)).toEqual([]);
  });

  it('cannot have left in the future, nor before it went into the box it is in, nor with half of it said', async () => {
    const who = await animal();
    await expect(leave(who, '2026-12-13')).rejects.toMatchObject({ problems: [{ where: 'leftOn' }] });
    const stayId = await stay(who.id);
    await expect(leave(who, '2026-11-19')).rejects.toMatchObject({
      problems: [{ where: 'leftOn', what: expect.stringContaining('20 November 2026') }],
    });
    expect(await read(database, SCOPE, ANIMAL, who.id)).not.toHaveProperty('leftOn');
    await leave(who, '2026-11-20');
    expect(await endOf(stayId)).toMatchObject({ toDay: '2026-11-20' });
    for (const half of [{ leftOn: TODAY }, { leftHow: 'died' }, { leftNote: 'gone' }])
      expect(ANIMAL.schema.safeParse({ ...who, ...half }).success).toBe(false);
  });

  it('is told to the watch, which then looks at the stays anew', async () => {
    const who = await animal();
    const heard: Announcement[] = [];
    const stop = onRecorded(database, (one) => heard.push(one));
    await leave(who);
    stop();
    expect(heard.map((one) => one.kind)).toEqual(['animal']);
  });

  it('keeps day, way and note in an export; handed on it is there again, unless it died', async () => {
    const given = { ...(await animal()), leftOn: TODAY, leftHow: 'given-away' as const, leftNote: 'To a friend.' };
    const dead = { ...(await animal()), leftOn: TODAY, leftHow: 'died' as const };
    for (const who of [given, dead]) await change(database, SCOPE, ANIMAL, who);
    const archiveOf = async (animalId?: string) => {
      const chunks: Uint8Array[] = [];
      const asked = { groupId: GROUP.id, nowMs: NOW_MS, ...(animalId ? { animalId } : {}) };
      await exportGroup(database, asked, (chunk) => chunks.push(chunk));
      return Buffer.concat(chunks);
    };
    const whole = await archiveOf();
    expect(Buffer.from(unzipSync(whole)['csv/animals.csv']!).toString()).toContain('To a friend.');
    const same = await freshDatabase('sqlite');
    await importExport(same, whole, { nowMs: NOW_MS });
    expect(await read(same, SCOPE, ANIMAL, given.id)).toMatchObject(given);
    await same.close();
    const other = await freshDatabase(store);
    await saveGroup(other, { ...GROUP, id: id(8) }, null, NOW_MS);
    const there = { ...SCOPE, groupId: id(8) };
    for (const who of [given, dead]) {
      const archive = await archiveOf(who.id);
      await importExport(other, archive, { intoGroupId: id(8), nowMs: NOW_MS });
      const again = await importExport(other, archive, { intoGroupId: id(8), nowMs: NOW_MS });
      expect(again.reduce((sum, part) => sum + part.differing, 0)).toBe(0);
    }
    const taken = await list(other, there, ANIMAL);
    expect(taken.find((one) => one.id === given.id)).not.toHaveProperty('leftOn');
    expect(taken.find((one) => one.id === dead.id)).toMatchObject({ leftOn: TODAY, leftHow: 'died' });
    await other.close();
  });
});

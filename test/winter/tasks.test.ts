import { describe, expect, it } from 'vitest';
import { movePlan } from '../../src/winter/move-plan.ts';
import { nextTasks, type RoundStay, roundOf, taskKeyOf } from '../../src/winter/tasks.ts';
import { adult, assessed, planned } from './plan-cases.ts';

const plan = planned({ ...adult, sleepDay: '2026-11-28' });
const stay: RoundStay = { animalId: 'a', boxId: 'box', placeId: 'shed', fromDay: '2026-11-28', toDay: '2027-02-12' };
const round = (day: string, done: Parameters<typeof roundOf>[3] = [], stays = [stay]) =>
  roundOf(day, [{ animalId: 'a', plan }], stays, done);
const keys = (day: string, done: Parameters<typeof roundOf>[3] = []) =>
  round(day, done).places.flatMap((place) => place.tasks.map((task) => `${task.taskKey} ${task.state}`));

describe('the round', () => {
  it('shows what is due today, by place, with the field it needs', () => {
    const today = round('2026-12-12', [
      { taskKey: '2026/put-down', animalId: 'a', day: '2026-11-28', outcome: 'done' },
      { taskKey: '2026/examine-going-down', animalId: 'a', day: '2026-11-28', outcome: 'done' },
    ]);
    expect(today.places).toHaveLength(1);
    expect(today.places[0]!.placeId).toBe('shed');
    expect(today.places[0]!.tasks.map((task) => [task.taskKey, task.entry, task.boxId])).toEqual([
      ['2026/look-2', 'look', 'box'],
      ['2026/weigh-asleep-2', 'weigh-in', 'box'],
    ]);
    expect(today.toDo).toBe(2);
  });

  it('keeps a missed look on the list as overdue until the next one takes its place', () => {
    expect(round('2026-12-10').places[0]!.tasks.find((task) => task.taskKey === '2026/look-1')).toMatchObject({
      state: 'overdue',
      overdueDays: 5,
    });
    expect(keys('2026-12-12').some((line) => line.startsWith('2026/look-1 '))).toBe(false);
  });

  it('shows what was done today as done, and no longer tomorrow', () => {
    const done = [{ taskKey: '2026/look-2', animalId: 'a', day: '2026-12-12', outcome: 'done' as const }];
    expect(keys('2026-12-12', done)).toContain('2026/look-2 done');
    expect(round('2026-12-12', done).toDo).toBe(round('2026-12-12').toDo - 1);
    expect(keys('2026-12-13', done).some((line) => line.startsWith('2026/look-'))).toBe(false);
  });

  it('another animal’s tick does not count', () => {
    const done = [{ taskKey: '2026/look-2', animalId: 'b', day: '2026-12-12', outcome: 'done' as const }];
    expect(keys('2026-12-12', done)).toContain('2026/look-2 to-do');
  });

  it('asks for nothing of the wind-down once the animal sleeps, nor of the sleep once it is awake', () => {
    expect(keys('2026-12-01').some((line) => line.includes('lamp') || line.includes('bath'))).toBe(false);
    expect(keys('2027-02-14').some((line) => line.includes('look') || line.includes('asleep'))).toBe(false);
    expect(keys('2027-02-14')).toContain('2026/bath-after-1 to-do');
  });

  it('gives an animal that is in no box its own group, and nothing before or after the plan', () => {
    expect(round('2026-11-10').places.map((place) => place.placeId)).toEqual([undefined]);
    expect(round('2026-08-02').total).toBe(0);
    expect(round('2027-06-01').total).toBe(0);
  });

  it('a tick survives a moved plan', () => {
    const moved = movePlan(plan, { kind: 'wake-day', to: '2027-02-01' }, '', assessed(), { today: '2026-12-12' });
    if (moved.outcome !== 'moved') expect.fail('refused');
    const key = (of: typeof plan) => taskKeyOf(of, of.tasks.find((task) => task.key === 'look-3')!);
    expect(key(moved.plan)).toBe(key(plan));
  });

  it('lists the coming days', () => {
    expect(nextTasks(plan, '2026-12-12', 7).map((task) => task.key)).toEqual(['look-2', 'weigh-asleep-2']);
    expect(nextTasks(plan, '2026-12-12', 8)).toHaveLength(4);
  });
});

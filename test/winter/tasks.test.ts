import { describe, expect, it } from 'vitest';
import { movePlan } from '../../src/winter/move-plan.ts';
import { type DoneTask, dueTasks, nextTasks } from '../../src/winter/tasks.ts';
import { adult, assessed, planned } from './plan-cases.ts';

const plan = planned({ ...adult, sleepDay: '2026-11-28' });
const down: DoneTask[] = ['put-down', 'examine-going-down', 'look-first'].map((taskKey) => ({
  taskKey,
  day: '2026-11-28',
  doneOn: '2026-11-28',
}));
const keys = (day: string, done: DoneTask[] = down, of = plan) =>
  dueTasks(of, day, done).map(
    ({ task, overdueDays, done: tick }) => `${task.key}${tick ? ' done' : overdueDays ? ` +${overdueDays}` : ''}`,
  );

describe('what a plan asks for today', () => {
  it('is what is due and not yet done', () => {
    expect(keys('2026-12-12')).toEqual(['look-2', 'weigh-asleep-2']);
  });

  it('keeps a missed look as overdue until the next one takes its place', () => {
    expect(keys('2026-12-10')).toEqual(['look-1 +5', 'weigh-asleep-1 +5']);
    expect(keys('2026-12-12')).not.toContain('look-1 +7');
  });

  it('keeps the putting down on the list until it is done', () => {
    expect(keys('2026-12-01', [])).toEqual(['examine-going-down +3', 'put-down +3', 'look-first +2']);
  });

  it('shows what was ticked today as done, and no longer tomorrow', () => {
    const done = [...down, { taskKey: 'look-2', day: '2026-12-12', doneOn: '2026-12-12' }];
    expect(keys('2026-12-12', done)).toEqual(['look-2 done', 'weigh-asleep-2']);
    expect(keys('2026-12-13', done)).toEqual(['weigh-asleep-2 +1']);
  });

  it('a task with time to spare is not late before its last day', () => {
    expect(keys('2026-11-27', []).find((line) => line.startsWith('ready-box'))).toBe('ready-box');
    expect(keys('2026-11-17', []).find((line) => line.startsWith('dry-run'))).toBe('dry-run +2');
  });

  it('asks for nothing of the wind-down once the animal sleeps, nor of the sleep once it is awake', () => {
    expect(keys('2026-12-01').some((line) => line.startsWith('lamp') || line.startsWith('bath'))).toBe(false);
    expect(keys('2027-02-14').some((line) => line.startsWith('look') || line.includes('asleep'))).toBe(false);
    expect(keys('2027-02-14')).toContain('bath-after-1');
  });

  it('asks for nothing before and after the plan, and not for what another winter ticked', () => {
    expect(keys('2026-08-02')).toEqual([]);
    expect(keys('2027-06-01')).toEqual([]);
    expect(keys('2026-12-12', [...down, { taskKey: 'look-2', day: '2025-12-12', doneOn: '2025-12-12' }])).toContain(
      'look-2',
    );
  });

  it('a tick survives a moved plan', () => {
    const moved = movePlan(plan, { kind: 'went-down', on: '2026-12-01' }, '', assessed(), { today: '2026-12-12' });
    if (moved.outcome !== 'moved') expect.fail('refused');
    const done = [...down, { taskKey: 'look-1', day: '2026-12-05', doneOn: '2026-12-05' }];
    expect(keys('2026-12-12', done, moved.plan).some((line) => line.startsWith('look-1'))).toBe(false);
  });

  it('lists the coming days', () => {
    expect(nextTasks(plan, '2026-12-12', 7).map((task) => task.key)).toEqual(['look-2', 'weigh-asleep-2']);
    expect(nextTasks(plan, '2026-12-12', 8)).toHaveLength(4);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween } from '../../src/measure/day.ts';
import { movePlan, type PlanChange } from '../../src/winter/move-plan.ts';
import type { WinterPlan } from '../../src/winter/plan-types.ts';
import { say } from '../../src/wording/say.ts';
import { adult, assessed, codes, planned } from './plan-cases.ts';

const plan = planned({ ...adult, sleepDay: '2026-11-28' });
const move = (change: PlanChange, today: string, from: WinterPlan = plan, assessment = assessed()) => {
  const outcome = movePlan(from, change, 'a reason of the keeper’s own', assessment, { today });
  if (outcome.outcome !== 'moved') expect.fail(`refused: ${outcome.reasons.map((reason) => reason.code).join()}`);
  return outcome;
};
const dayOf = (of: WinterPlan, name: string) => of.stages.find((stage) => stage.name === name)!.fromDay;

describe('moving a plan', () => {
  it('moving the sleeping day by n days moves everything by n days', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -20, max: 30 }),
        fc.boolean(),
        fc.integer({ min: -55, max: 58 }),
        (n, fridge, latitudeDeg) => {
          const before = planned({
            ...adult,
            latitudeDeg,
            method: fridge ? 'refrigerator' : 'place',
            sleepDay: '2027-01-20',
          });
          const {
            plan: after,
            moved,
            added,
            dropped,
          } = move({ kind: 'sleep-day', to: addDays('2027-01-20', n) }, '2026-08-01', before);
          const lamps = (keys: readonly string[]) => keys.filter((key) => !key.startsWith('lamp-'));
          expect([lamps(added), lamps(dropped)]).toEqual([[], []]);
          for (const one of moved.filter((item) => !item.key.startsWith('lamp-'))) expect(one.days).toBe(n);
          const still = (of: WinterPlan) => of.tasks.filter((task) => !task.key.startsWith('lamp-')).length;
          if (n !== 0)
            expect(moved.filter((item) => item.what === 'task' && !item.key.startsWith('lamp-'))).toHaveLength(
              still(before),
            );
          for (const stage of before.stages) expect(daysBetween(stage.fromDay, dayOf(after, stage.name))).toBe(n);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('moving there and back gives the plan again', () => {
    const there = move({ kind: 'sleep-day', to: '2026-12-10' }, '2026-08-01').plan;
    const back = move({ kind: 'sleep-day', to: '2026-11-28' }, '2026-08-01', there).plan;
    expect(back.stages).toEqual(plan.stages);
    expect(back.tasks).toEqual(plan.tasks);
  });

  it('moving the waking moves only what comes after, and fits the looks', () => {
    const { plan: after, moved, dropped } = move({ kind: 'wake-day', to: '2027-01-30' }, '2026-12-20');
    expect(after.wakeDay).toBe('2027-01-30');
    expect(dropped).toEqual(
      ['look-9', 'weigh-asleep-9', 'look-10', 'weigh-asleep-10'].toSorted(
        (a, b) => plan.tasks.findIndex((t) => t.key === a) - plan.tasks.findIndex((t) => t.key === b),
      ),
    );
    expect(moved.every((one) => one.days === -14)).toBe(true);
    expect(moved.find((one) => one.key === 'review')).toMatchObject({ days: -14 });
  });

  it('never moves the waking past the ceiling, and says so', () => {
    const { plan: after } = move({ kind: 'wake-day', to: '2027-04-01' }, '2026-12-20');
    expect(daysBetween(after.sleepDay!, after.wakeDay!)).toBe(91);
    expect(codes(after)).toContain('ceiling');
  });

  it('says what moved, by how many days and why', () => {
    const { summary, moved, reason } = move({ kind: 'sleep-day', to: '2026-12-01' }, '2026-08-01');
    expect(say(summary)).toContain('3 days');
    expect(reason).toMatch(/own/);
    for (const one of moved) expect(say(one.why)).toContain('3 days');
    expect(say(move({ kind: 'sleep-day', to: '2026-11-28' }, '2026-08-01').summary)).toBe('Nothing moves.');
  });
});

describe('when the animal or the weather does not follow', () => {
  it('a gut that is not clear holds the sleep back and turns the lamp up again', () => {
    const { plan: after } = move({ kind: 'gut-not-clear', clearDay: '2026-12-01' }, '2026-11-22');
    expect(after.sleepDay).toBe('2026-12-05');
    expect(dayOf(after, 'fast')).toBe(dayOf(plan, 'fast'));
    const hours = (day: string) => after.lamp.filter((step) => step.fromDay <= day).at(-1)!.hours;
    expect(hours('2026-11-20')).toBe(6);
    expect(hours('2026-11-25')).toBe(10);
    expect(hours('2026-12-02')).toBe(6);
    expect(hours('2026-12-04')).toBe(0);
    expect(after.tasks.find((task) => task.day === '2026-11-22' && task.kind === 'lamp')!.say.key).toBe(
      'winter.task.lampBack',
    );
  });

  it('a gut expected clear in time moves nothing', () => {
    expect(move({ kind: 'gut-not-clear', clearDay: '2026-11-20' }, '2026-11-15').plan.sleepDay).toBe('2026-11-28');
  });

  it('a box too warm holds the sleep back, and a fast that grows too long is named', () => {
    const short = move({ kind: 'box-too-warm', coldDay: '2026-12-05' }, '2026-11-20').plan;
    expect(short.sleepDay).toBe('2026-12-05');
    expect(codes(short)).not.toContain('fast-too-long');
    expect(codes(move({ kind: 'box-too-warm', coldDay: '2026-12-14' }, '2026-11-20').plan)).not.toContain(
      'fast-too-long',
    );
    expect(codes(move({ kind: 'box-too-warm', coldDay: '2026-12-15' }, '2026-11-20').plan)).toContain('fast-too-long');
  });

  it('a fast that has begun is never cut under three weeks', () => {
    const earlier = (to: string) => movePlan(plan, { kind: 'sleep-day', to }, '', assessed(), { today: '2026-11-10' });
    expect(earlier('2026-11-22')).toMatchObject({ outcome: 'refused', reasons: [{ code: 'fast-too-short' }] });
    expect(earlier('2026-11-23')).toMatchObject({ outcome: 'moved' });
  });

  it('an early waking starts the first days there, even for an animal that has fallen ill', () => {
    const { plan: after } = move({ kind: 'woke', on: '2026-12-30' }, '2026-12-30', plan, assessed('stay-awake'));
    expect(after.wakeDay).toBe('2026-12-30');
    expect(after.tasks.find((task) => task.key === 'feeding-7')!.day).toBe('2027-01-06');
    expect(after.tasks.filter((task) => task.kind === 'look')).toEqual([]);
  });

  it('an animal that has fallen ill is not kept asleep longer', () => {
    const change: PlanChange = { kind: 'wake-day', to: '2027-02-20' };
    expect(movePlan(plan, change, '', assessed('stay-awake'), { today: '2026-12-30' }).outcome).toBe('refused');
  });

  it('went down late: the waking follows', () => {
    const { plan: after } = move({ kind: 'went-down', on: '2026-12-02' }, '2026-12-02');
    expect(after).toMatchObject({ sleepDay: '2026-12-02', wakeDay: '2027-02-17' });
  });
});

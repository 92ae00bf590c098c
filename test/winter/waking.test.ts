import { describe, expect, it } from 'vitest';
import { summarizeWinter } from '../../src/winter/summary.ts';
import { type AfterWaking, recovery, warmingSteps } from '../../src/winter/waking.ts';
import { say } from '../../src/wording/say.ts';
import { adult, planned } from './plan-cases.ts';

const H = 3_600_000;
const D = 24 * H;
const WOKEN = Date.UTC(2027, 1, 13, 8);
const facts = (days: number, more: Partial<AfterWaking> = {}): AfterWaking => ({
  wokenMs: WOKEN,
  nowMs: WOKEN + days * D,
  fedMs: [],
  urineMs: [],
  drankMs: [],
  weighings: [],
  startMassG: 800,
  ...more,
});

describe('waking', () => {
  it('steps through about twelve hours, one after the other', () => {
    const steps = warmingSteps(WOKEN, WOKEN + 12.2 * H);
    expect(steps.map((step) => step.state)).toEqual(['past', 'past', 'now', 'coming', 'coming', 'coming']);
    expect(steps[2]!.atMs).toBe(WOKEN + 12 * H);
    for (const step of steps) expect(say(step.say).length).toBeGreaterThan(20);
  });

  it.each([
    [0, 'wait'],
    [2.99, 'wait'],
    [3, 'coax'],
    [6.99, 'coax'],
    [7, 'vet'],
    [9.99, 'vet'],
    [10, 'past-every-limit'],
  ])('day %d without food and urine: %s', (days, level) => {
    const state = recovery(facts(days));
    expect(state.level).toBe(level);
    expect(say(state.say)).toMatch(/neither/);
    expect(state.page).toBe(level === 'wait' ? null : 'not-eating');
  });

  it('food alone or urine alone is not enough by day 7', () => {
    expect(recovery(facts(8, { fedMs: [WOKEN + D] })).level).toBe('vet');
    expect(recovery(facts(8, { urineMs: [WOKEN + D] })).level).toBe('vet');
    expect(recovery(facts(8, { fedMs: [WOKEN + D], urineMs: [WOKEN + 2 * D] }))).toMatchObject({
      level: 'feeding',
      page: null,
    });
  });

  it('a meal before the sleep or after now does not count', () => {
    expect(recovery(facts(8, { fedMs: [WOKEN - 40 * D, WOKEN + 9 * D] })).hasEaten).toBe(false);
  });

  it('the winter is over when it eats and the weight is back, not before', () => {
    const eating = { fedMs: [WOKEN + D], urineMs: [WOKEN + D] };
    const weighed = (massG: number) => recovery(facts(20, { ...eating, weighings: [{ atMs: WOKEN + 19 * D, massG }] }));
    expect(weighed(799)).toMatchObject({ winterOver: false });
    expect(say(weighed(780).say)).toContain('97.5');
    expect(weighed(800)).toMatchObject({ winterOver: true, massShare: 1 });
    expect(recovery(facts(20, { weighings: [{ atMs: WOKEN + D, massG: 810 }] })).winterOver).toBe(false);
  });
});

describe('the winter’s summary', () => {
  const plan = planned({ ...adult, sleepDay: '2026-11-28' });
  const hours = (temps: number[]) => ({ timesMs: temps.map((_, h) => h * H), tempsC: temps, longestGapMs: 2 * H });
  const winter = { plan, nightsSlept: 77, startMassG: 800, wakingMassG: 780, ruleIds: [], daysToFirstFood: 1 } as const;

  it('finds nothing to change in a good winter', () => {
    const summary = summarizeWinter({ ...winter, ...hours([5, 5, 6, 5]) });
    expect(summary.lessons.map((one) => one.key)).toEqual(['winter.lesson.same']);
    expect(summary).toMatchObject({ lossG: 20, lossShare: 0.025, steadiness: 1, coldestC: 5, warmestC: 6 });
    expect(summary.next).toEqual(adult);
    for (const sentence of [...summary.sentences, ...summary.lessons]) expect(say(sentence)).not.toMatch(/\{\{|NaN/);
  });

  it('shortens the next winter after a great loss, to where 8 % would not have been reached', () => {
    const summary = summarizeWinter({ ...winter, wakingMassG: 720, ...hours([5, 5]) });
    expect(summary.next.sleepDays).toBe(61);
    expect(summary.lessons.map((one) => one.key)).toEqual(['winter.lesson.shorter', 'winter.lesson.damper']);
    expect(summarizeWinter({ ...winter, wakingMassG: 736, ...hours([5, 5]) }).next.sleepDays).toBeUndefined();
  });

  it('draws its lessons from cold, warmth, urine and a slow start', () => {
    const keys = (more: object) =>
      summarizeWinter({ ...winter, ...hours([5, 5, 5]), ...more }).lessons.map((one) => one.key);
    expect(keys(hours([5, 9, 5]))).toEqual(['winter.lesson.colder']);
    expect(keys(hours([5, 2.9, 5]))).toEqual(['winter.lesson.insulate']);
    expect(keys({ ruleIds: ['urine'] })).toEqual(['winter.lesson.awakeNext']);
    expect(keys({ daysToFirstFood: 7 })).toEqual(['winter.lesson.slowStart']);
    expect(keys({ daysToFirstFood: 6 })).toEqual(['winter.lesson.same']);
  });

  it('leaves gaps out and says what was not measured', () => {
    const summary = summarizeWinter({
      plan,
      nightsSlept: 77,
      ruleIds: [],
      timesMs: [0, H, 40 * H, 41 * H],
      tempsC: [5, 20, 5, 5],
      longestGapMs: 2 * H,
    });
    expect(summary.steadiness).toBe(1);
    expect(summary.lossShare).toBeUndefined();
    expect(summarizeWinter({ ...winter, timesMs: [], tempsC: [], longestGapMs: H }).steadiness).toBeUndefined();
  });
});

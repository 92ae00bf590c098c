import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween } from '../../src/measure/day.ts';
import { parsePlanRequest, parseWinterPlan, planRequestSchema } from '../../src/schema/plan.ts';
import { mayEverHibernate } from '../../src/tortoise/species.ts';
import { SPECIES } from '../../src/tortoise/species-table.ts';
import { makePlan } from '../../src/winter/plan.ts';
import { massLimitFor } from '../../src/winter/plan-forecasts.ts';
import type { PlanRequest, WinterPlan } from '../../src/winter/plan-types.ts';
import { say } from '../../src/wording/say.ts';
import { adult, assessed, codes, planned, refused, TODAY } from './plan-cases.ts';

const task = (plan: WinterPlan, key: string) => plan.tasks.find((one) => one.key === key);
const offsets = (plan: WinterPlan) => plan.tasks.map((one) => `${one.key} ${daysBetween(plan.sleepDay!, one.day)}`);

describe('a plan worked back from the sleeping day', () => {
  const plan = planned({ ...adult, sleepDay: '2026-11-28' });

  it('has the stages of the winter line, one after the other without gap or overlap', () => {
    expect(plan.stages.map((stage) => stage.name)).toEqual([
      'feeding-up',
      'winding-down',
      'fast',
      'asleep',
      'waking',
      'recovering',
      'back-to-full',
    ]);
    for (const [i, stage] of plan.stages.entries()) {
      if (i > 0) expect(stage.fromDay).toBe(addDays(plan.stages[i - 1]!.toDay, 1));
    }
    expect(plan).toMatchObject({ sleepDay: '2026-11-28', wakeDay: '2027-02-13', winter: '2026', hemisphere: 'north' });
  });

  it('keeps its tasks in order, with keys that occur once', () => {
    expect(new Set(plan.tasks.map((one) => one.key)).size).toBe(plan.tasks.length);
    expect(plan.tasks.map((one) => one.day)).toEqual(plan.tasks.map((one) => one.day).toSorted());
    for (const one of plan.tasks) expect(say(one.say)).not.toMatch(/\{\{/);
    for (const one of plan.notes) expect(say(one.say)).not.toMatch(/\{\{|undefined/);
  });

  it('looks and weighs every week of the sleep, and never on the day of waking', () => {
    const looks = plan.tasks.filter((one) => one.key.startsWith('look-') && one.key !== 'look-first');
    expect(looks.map((one) => daysBetween(plan.sleepDay!, one.day))).toEqual([7, 14, 21, 28, 35, 42, 49, 56, 63, 70]);
    expect(plan.tasks.filter((one) => one.key.startsWith('weigh-asleep'))).toHaveLength(10);
  });

  it('opens a refrigerator twice a week', () => {
    const fridge = planned({ ...adult, sleepDay: '2026-11-28', method: 'refrigerator' });
    expect(fridge.tasks.filter((one) => one.kind === 'look')).toHaveLength(21);
  });

  it('shows both views of the last bath and names the one in force', () => {
    expect(task(plan, 'last-bath')!.day).toBe('2026-11-27');
    const week = planned({ ...adult, sleepDay: '2026-11-28', lastBath: 'week-before' });
    expect(task(week, 'last-bath')!.day).toBe('2026-11-20');
    expect(week.tasks.filter((one) => one.kind === 'bath' && one.day > '2026-11-20' && one.day < '2026-11-28')).toEqual(
      [],
    );
    expect(codes(week)).toEqual(expect.arrayContaining(['last-bath', 'last-bath-other', 'length-advice']));
  });

  it('warns at day 7 without food or urine and shows the limit of day 10', () => {
    expect(daysBetween(plan.wakeDay!, task(plan, 'feeding-7')!.day)).toBe(7);
    expect(daysBetween(plan.wakeDay!, task(plan, 'feeding-10')!.day)).toBe(10);
  });

  it('leaves out what is past and begins today what could have begun', () => {
    const late = planned({ ...adult, sleepDay: '2026-11-28' }, assessed(), { today: '2026-10-01' });
    expect(task(late, 'feed-up')!.day).toBe('2026-10-01');
    expect(task(late, 'weigh-before-1')).toBeUndefined();
  });

  it('passes through JSON and its schema unchanged', () => {
    expect(parseWinterPlan(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
    expect(parsePlanRequest(plan.request)).toEqual(plan.request);
    expect(planRequestSchema.safeParse({ ...adult, sclMm: 6 }).success).toBe(false);
    expect(planRequestSchema.safeParse({ ...adult, sleepDay: '2026-02-30' }).success).toBe(false);
    expect(planRequestSchema.safeParse({ ...adult, climateNormals: [] }).success).toBe(false);
  });
});

describe('the season', () => {
  it('puts the middle of the sleep soon after the shortest day, in both hemispheres', () => {
    expect(planned(adult).sleepDay).toBe('2026-11-28');
    const south = planned({ ...adult, latitudeDeg: -37.8 }, assessed(), { today: '2027-02-01' });
    expect(south).toMatchObject({
      hemisphere: 'south',
      shortestDay: '2027-06-21',
      sleepDay: '2027-05-29',
      winter: '2027',
    });
  });

  it('is mirrored: the same distances from the shortest day at the same latitude north and south', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 60 }), fc.integer({ min: 30, max: 90 }), (latitudeDeg, sleepDays) => {
        const north = planned({ ...adult, latitudeDeg, sleepDays });
        const south = planned({ ...adult, latitudeDeg: -latitudeDeg, sleepDays }, assessed(), { today: '2027-02-01' });
        const distance = (plan: WinterPlan) => daysBetween(plan.shortestDay, plan.sleepDay!);
        expect(distance(south)).toBe(distance(north));
        const plain = (plan: WinterPlan) => offsets(plan).filter((line) => !line.startsWith('lamp-'));
        expect(plain(south)).toEqual(plain(north));
      }),
      { numRuns: 15 },
    );
  });

  it('follows the coldest weeks of the normals where they are given', () => {
    const swing = (coldest: number) =>
      Array.from({ length: 12 }, (_, month) => {
        const mean = 10 - 8 * Math.cos((2 * Math.PI * (month + 0.5 - coldest)) / 12);
        return { maxC: mean + 4, minC: mean - 4 };
      });
    const early = planned({ ...adult, climateNormals: swing(0.3) });
    const late = planned({ ...adult, climateNormals: swing(1.3) });
    expect(daysBetween(early.sleepDay!, late.sleepDay!)).toBeGreaterThan(25);
    expect(daysBetween(early.sleepDay!, late.sleepDay!)).toBeLessThan(36);
  });

  it('finds no season at the equator without help', () => {
    expect(refused({ ...adult, latitudeDeg: 3 }).reasons[0]!.code).toBe('no-season');
    expect(planned({ ...adult, latitudeDeg: 3, sleepDay: '2026-12-10', method: 'refrigerator' }).sleepDay).toBe(
      '2026-12-10',
    );
  });

  it('takes lamp hours from the step, or from the daylight where the step is far shorter', () => {
    expect(planned(adult).lamp.map((step) => step.hours)).toEqual([10, 8, 6, 0]);
    const south = planned({ ...adult, latitudeDeg: -25 }, assessed(), { today: '2027-02-01' });
    expect(south.lamp.every((step, i, all) => i === 0 || step.hours < all[i - 1]!.hours)).toBe(true);
    expect(south.lamp.at(-1)!.hours).toBe(0);
    expect(south.lamp.map((step) => step.hours)).not.toContain(6);
  });
});

describe('the length', () => {
  it('is the suggestion, a wish under the ceiling, the ceiling, or what the mass allows', () => {
    expect(planned(adult).length).toMatchObject({ days: 77, limitedBy: 'suggested' });
    expect(planned({ ...adult, sleepDays: 60 }).length).toMatchObject({ days: 60, limitedBy: 'wish' });
    const over = planned({ ...adult, sleepDays: 92 });
    expect(over.length).toMatchObject({ days: 91, limitedBy: 'ceiling' });
    expect(codes(over)).toContain('ceiling');
    expect(codes(planned({ ...adult, sleepDays: 91 }))).not.toContain('ceiling');
    expect(planned(adult, assessed(), { massLimit: () => 50 }).length).toMatchObject({
      days: 50,
      limitedBy: 'mass-loss',
      massLimitDays: 50,
    });
    expect(planned(adult, assessed(), { massLimit: () => 77 }).length!.limitedBy).toBe('suggested');
    expect(refused(adult, assessed(), { massLimit: () => 0 }).reasons[0]!.code).toBe('mass');
  });

  it('lets a hatchling sleep less than a grown animal by the forecast of its loss', () => {
    const nights = (massG: number) =>
      planned({ ...adult, massG }, assessed(), { massLimit: massLimitFor(massG) }).length!.days;
    expect(nights(24)).toBeLessThan(nights(300));
    expect(nights(300)).toBeLessThanOrEqual(nights(1500));
  });
});

describe('no sleep for those who must not', () => {
  it.each([...SPECIES.filter((one) => !mayEverHibernate(one.name)).map((one) => one.name), 'no such animal'])(
    '%s never gets a plan to sleep, however fit it is said to be',
    (species) => {
      for (const wish of ['sleep', 'first-cooling'] as const) {
        const no = refused({ ...adult, species, wish });
        expect(no.instead).toMatchObject({ kind: 'awake' });
        expect(no.instead!.sleepDay).toBeUndefined();
        expect(no.instead!.tasks.some((one) => one.kind === 'put-down')).toBe(false);
      }
    },
  );

  it('a verdict of stay awake gives its failed gates as reasons and a winter awake instead', () => {
    const gate = {
      name: 'eyes',
      state: 'fails',
      reason: { key: 'winter.move.nothing' },
      source: { cite: 'x', status: 'read' },
    } as const;
    const no = refused(adult, assessed('stay-awake', {}, [gate]));
    expect(no.reasons.map((reason) => reason.code)).toEqual(['eyes']);
    expect(no.instead!.kind).toBe('awake');
    expect(refused(adult, assessed('stay-awake')).reasons).toHaveLength(1);
    expect(refused(adult, assessed('may-go-down', { ceilingDays: 0 })).reasons[0]!.code).toBe('length');
  });

  it('a verdict of wait gives a provisional plan that names what is missing', () => {
    const gate = {
      name: 'vet-check',
      state: 'not-yet-known',
      reason: { key: 'winter.move.nothing' },
      source: { cite: 'x', status: 'read' },
    } as const;
    const plan = planned(adult, assessed('wait', {}, [gate]));
    expect(plan.provisional).toBe(true);
    expect(codes(plan)).toEqual(expect.arrayContaining(['provisional', 'gate-vet-check']));
  });

  it('no request of any shape makes a plan to sleep for a tropical species', () => {
    const request = fc.record(
      {
        sclMm: fc.integer({ min: 30, max: 500 }),
        latitudeDeg: fc.integer({ min: -70, max: 70 }),
        wish: fc.constantFrom('sleep' as const, 'first-cooling' as const, 'awake' as const),
        sleepDay: fc.integer({ min: -200, max: 600 }).map((n) => addDays(TODAY, n)),
        sleepDays: fc.integer({ min: 1, max: 150 }),
        shortPreparation: fc.boolean(),
      },
      { requiredKeys: ['sclMm', 'latitudeDeg'] },
    );
    fc.assert(
      fc.property(request, (shape) => {
        const outcome = makePlan({ ...shape, species: 'Stigmochelys pardalis' } as PlanRequest, assessed(), {
          today: TODAY,
        });
        expect(outcome.outcome === 'refused' || outcome.plan.kind === 'awake').toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});

describe('a plan that would start before today', () => {
  it('is refused with what has to give, and short preparation only when the fast still fits', () => {
    const today = '2026-11-05';
    const no = refused({ ...adult, sleepDay: '2026-11-28' }, assessed(), { today });
    expect(no.options.map((option) => option.code)).toEqual(['later', 'shorter-preparation', 'next-winter', 'awake']);
    const short = planned(no.options[1]!.request, assessed(), { today });
    expect(codes(short)).toContain('short-preparation');
    expect(short.stages.find((stage) => stage.name === 'fast')!.fromDay >= today).toBe(true);
    const later = planned(no.options[0]!.request, assessed(), { today });
    expect(later.sleepDay).toBe('2026-12-11');
    expect(
      refused({ ...adult, sleepDay: '2026-11-25', shortPreparation: true }, assessed(), { today }).reasons[0]!.code,
    ).toBe('too-soon');
    expect(planned({ ...adult, sleepDay: '2026-11-26', shortPreparation: true }, assessed(), { today }).sleepDay).toBe(
      '2026-11-26',
    );
  });

  it('takes the exact day on which the full preparation still fits', () => {
    expect(planned({ ...adult, sleepDay: addDays(TODAY, 36) }).sleepDay).toBe(addDays(TODAY, 36));
    expect(refused({ ...adult, sleepDay: addDays(TODAY, 35) }).reasons[0]!.code).toBe('too-soon');
  });

  it('without a given day goes down later and shorter, and next winter when this one is over', () => {
    const late = planned(adult, assessed(), { today: '2026-12-01' });
    expect(codes(late)).toContain('late-start');
    expect(late.sleepDay).toBe('2027-01-06');
    expect(late.length).toMatchObject({ limitedBy: 'season' });
    expect(planned(adult, assessed(), { today: '2027-02-15' }).winter).toBe('2027');
  });

  it('takes over an animal that is already asleep, but not one whose sleep is over', () => {
    const plan = planned({ ...adult, sleepDay: '2026-11-28' }, assessed(), { today: '2026-12-20' });
    expect(codes(plan)).toContain('already-asleep');
    expect(plan.tasks.every((one) => one.day >= '2026-12-20')).toBe(true);
    expect(refused({ ...adult, sleepDay: '2026-11-28' }, assessed(), { today: '2027-02-13' }).reasons[0]!.code).toBe(
      'past',
    );
  });
});

describe('the gut', () => {
  it('is in time in the warmth, late in the cool, never in the cold', () => {
    const code = (nightBodyTempC: number, lampBodyTempC: number) =>
      codes(planned({ ...adult, nightBodyTempC, lampBodyTempC })).find((one) => one.startsWith('gut-'));
    expect(code(25, 32)).toBe('gut-in-time');
    expect(code(15, 28)).toBe('gut-perhaps-late');
    expect(code(8, 20)).toBe('gut-late');
    expect(code(6, 9)).toBe('gut-never');
  });
});

describe('the other plans', () => {
  it('a first cooling is five nights after shorter lamp days and a fast, with a look every day', () => {
    const plan = planned({ ...adult, wish: 'first-cooling' });
    expect(plan.kind).toBe('first-cooling');
    expect(daysBetween(plan.sleepDay!, plan.wakeDay!)).toBe(5);
    expect(plan.stages.map((stage) => stage.name)).toContain('cooling');
    expect(plan.tasks.filter((one) => one.kind === 'look').map((one) => daysBetween(plan.sleepDay!, one.day))).toEqual([
      1, 2, 3, 4,
    ]);
  });

  it('a winter awake runs through the dark months with lamp, heat, food and a weekly weigh-in', () => {
    const plan = planned({ ...adult, wish: 'awake' });
    expect(plan).toMatchObject({ kind: 'awake', fromDay: '2026-10-07', toDay: '2027-03-21' });
    for (const kind of ['lamp', 'heat-check', 'feed', 'weigh'])
      expect(plan.tasks.some((one) => one.kind === kind)).toBe(true);
    expect(codes(plan)).toContain('fire');
    expect(planned({ ...adult, wish: 'awake' }, assessed(), { today: '2027-01-05' }).fromDay).toBe('2027-01-05');
  });
});

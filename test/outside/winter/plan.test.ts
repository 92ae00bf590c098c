import { Seasons } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { daysBetween } from '../../../src/measure/day.ts';
import { hibernationLength } from '../../../src/tortoise/length.ts';
import type { LengthAdvice } from '../../../src/tortoise/types.ts';
import { makePlan } from '../../../src/winter/plan.ts';
import type { PlanRequest, WinterPlan } from '../../../src/winter/plan-types.ts';
import { shortestDayNear } from '../../../src/winter/season.ts';
import { recovery } from '../../../src/winter/waking.ts';
import { adult, assessed } from '../../winter/plan-cases.ts';

const plan = (request: Partial<PlanRequest> = {}, today = '2026-08-01'): WinterPlan => {
  const outcome = makePlan({ ...adult, ...request }, assessed(), { today });
  if (outcome.outcome !== 'planned') expect.fail('refused');
  return outcome.plan;
};
const daysBefore = (of: WinterPlan, kinds: string[]) =>
  of.tasks
    .filter((task) => kinds.includes(task.kind) && task.day < of.sleepDay!)
    .map((task) => daysBetween(task.day, of.sleepDay!));

describe('the season', () => {
  // Don Cross, Astronomy Engine (open source, checked by its author against NOVAS and JPL Horizons).
  it.each(Array.from({ length: 20 }, (_, i) => 2024 + i))(
    'the shortest day of %d is the solstice of an astronomy library',
    (year) => {
      const seasons = Seasons(year);
      const day = (time: { date: Date }) => time.date.toISOString().slice(0, 10);
      expect(
        Math.abs(daysBetween(shortestDayNear(`${year}-12-10`, 52), day(seasons.dec_solstice))),
      ).toBeLessThanOrEqual(1);
      expect(
        Math.abs(daysBetween(shortestDayNear(`${year}-06-10`, -37), day(seasons.jun_solstice))),
      ).toBeLessThanOrEqual(1);
    },
  );

  // Wild T. h. hermanni in southern France sleep from mid-November to mid-March: LIFE project, tortue-hermann.eu.
  it('a sleep planned at 43.4° N lies inside the sleep of wild tortoises there', () => {
    const { sleepDay, wakeDay } = plan({ latitudeDeg: 43.4 });
    expect(sleepDay! >= '2026-11-15').toBe(true);
    expect(wakeDay! <= '2027-03-15').toBe(true);
  });

  // BVA, BVZS and BSAVA, October 2016: delay hibernation to November or December.
  it('in Britain a grown animal goes down in November or December', () => {
    expect(plan({ latitudeDeg: 52 }).sleepDay).toMatch(/^2026-1[12]/);
  });
});

describe('the wind-down', () => {
  // Common practice, no source: lamp from about 12 h to 8 h, then 6 h, then off, over two to three weeks or more, off on the last day.
  it('falls from 12 h to 8, 6 and off over two to three weeks', () => {
    const { lamp, sleepDay } = plan();
    const at = (hours: number) => daysBetween(lamp.find((step) => step.hours === hours)!.fromDay, sleepDay!);
    expect(at(8)).toBeGreaterThanOrEqual(14);
    expect(at(8)).toBeLessThanOrEqual(21);
    expect(at(6)).toBeLessThan(at(8));
    expect(at(0)).toBe(1);
  });

  // Common practice, no source: 2 to 3 weeks under about 10 cm, 3 to 4 weeks grown. Cara Vet Group and In & Around (September 2022): 2 to 4 weeks.
  it.each([
    [55, 14, 21],
    [99, 14, 21],
    [100, 21, 28],
    [200, 21, 28],
  ])('an animal of %d mm fasts %d to %d days', (sclMm, least, most) => {
    const fast = plan({ sclMm, massG: 0.2 * (sclMm / 10) ** 3 }).stages.find((stage) => stage.name === 'fast')!;
    const days = daysBetween(fast.fromDay, fast.toDay) + 1;
    expect(days).toBeGreaterThanOrEqual(least);
    expect(days).toBeLessThanOrEqual(most);
  });

  // J. Hedley, Royal Veterinary College, 2023: keep warm during the fast so that digestion goes on.
  it('keeps at least eight hours of lamp through the first half of the fast', () => {
    const { lamp, stages, sleepDay } = plan();
    const fast = stages.find((stage) => stage.name === 'fast')!;
    const middle = Math.floor(daysBetween(fast.fromDay, sleepDay!) / 2);
    for (const step of lamp)
      if (daysBetween(step.fromDay, sleepDay!) >= middle) expect(step.hours).toBeGreaterThanOrEqual(8);
  });

  // Common practice, no source: two or three baths a week, daily in the last week, the last on the day before.
  it('bathes two or three times a week, daily in the last week, to the day before', () => {
    const days = daysBefore(plan(), ['bath', 'last-bath']);
    expect(days.filter((day) => day <= 7)).toEqual([7, 6, 5, 4, 3, 2, 1]);
    for (const from of [8, 15]) {
      const week = days.filter((day) => day >= from && day < from + 7).length;
      expect(week).toBeGreaterThanOrEqual(2);
      expect(week).toBeLessThanOrEqual(3);
    }
  });

  // BVA, BVZS and BSAVA, October 2016: daily baths in the weeks before, none in the last week.
  it('the other view bathes daily before and not at all in the last week', () => {
    const days = daysBefore(plan({ lastBath: 'week-before' }), ['bath', 'last-bath']);
    expect(Math.min(...days)).toBe(8);
    expect(days.filter((day) => day > 8 && day <= 21)).toHaveLength(13);
  });
});

describe('the length', () => {
  const nights = (advice: LengthAdvice, ageYears: number, sclMm: number) => {
    const length = hibernationLength({ species: 'Testudo hermanni', sclMm, ageYears, advice });
    const outcome = makePlan({ ...adult, sclMm, sleepDays: 200 }, assessed('may-go-down', length), {
      today: '2026-08-01',
    });
    return outcome.outcome === 'planned' ? outcome.plan.length!.days : 0;
  };
  // BVA, BVZS and BSAVA, October 2016: three months at most; none before the second to fourth winter, then six weeks.
  it('follows the joint UK advice: three months at most, none in the first winter, six weeks in the early ones', () => {
    expect(nights('uk-joint-2016', 12, 165)).toBeLessThanOrEqual(92);
    expect(nights('uk-joint-2016', 0.4, 50)).toBe(0);
    expect(nights('uk-joint-2016', 2.5, 80)).toBeLessThanOrEqual(42);
  });
  // Bundestierärztekammer, by way of Westdeutsche Zeitung: three to five months, very young animals six to eight weeks. Held to 13 weeks (common practice).
  it('never passes thirteen weeks, whichever advice is followed', () => {
    for (const advice of ['uk-joint-2016', 'german-chamber', 'common-practice'] as const)
      for (const [age, size] of [
        [0.4, 50],
        [2, 70],
        [6, 120],
        [15, 170],
        [60, 200],
      ] as const)
        expect(nights(advice, age, size)).toBeLessThanOrEqual(91);
  });
});

describe('after waking', () => {
  // Beaumont Veterinary Centre; netvet.co.uk; In & Around, September 2022: vet by day 7. Ten days: common practice, no source.
  it.each([
    [6, false],
    [7, true],
  ])('day %d without food or urine calls for the vet: %s', (days, vet) => {
    const { level } = recovery({
      wokenMs: 0,
      nowMs: days * 86_400_000,
      fedMs: [],
      urineMs: [],
      drankMs: [],
      weighings: [],
    });
    expect(level === 'vet' || level === 'past-every-limit').toBe(vet);
  });

  // In & Around, September 2022: weigh weekly; German veterinary chamber: open the refrigerator once or twice a week.
  it('a refrigerator is opened, and the animal weighed, as often as published', () => {
    const { tasks, sleepDay, wakeDay } = plan({ method: 'refrigerator' });
    const asleep = tasks.filter((task) => task.day >= sleepDay! && task.day < wakeDay!);
    const weeks = daysBetween(sleepDay!, wakeDay!) / 7;
    expect(asleep.filter((task) => task.kind === 'weigh').length).toBeGreaterThanOrEqual(Math.floor(weeks) - 1);
    const opened = asleep.filter((task) => task.kind === 'look').length / weeks;
    expect(opened).toBeGreaterThanOrEqual(1);
    expect(opened).toBeLessThanOrEqual(2);
  });
});

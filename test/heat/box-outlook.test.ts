import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstPassing, outlookOf, sayPassing } from '../../src/heat/box-outlook.ts';
import { outlookLimits } from '../../src/winter/outlook-limits.ts';
import { say } from '../../src/wording/say.ts';

const HOUR = 3_600_000;
const START = 1_000_000 * HOUR;
const limits = outlookLimits();
const course = (tempsC: readonly number[], rangeK = 0.5) => ({
  startMs: START,
  stepMs: HOUR,
  tempsC,
  lowC: tempsC.map((tempC) => tempC - rangeK),
  highC: tempsC.map((tempC) => tempC + rangeK),
});
const outlook = (tempsC: readonly number[], rangeK?: number) => outlookOf(course(tempsC, rangeK), limits);
const told = (tempsC: readonly number[], unit: 'C' | 'F' = 'C', rangeK?: number) => {
  const found = outlook(tempsC, rangeK);
  return say(sayPassing(firstPassing(found)!, found.fromMs, unit));
};

describe('what a forecast of a box says', () => {
  it('takes the limits of the rules, and those that the keeper has set', () => {
    expect(limits).toEqual({ coldC: [3, 2, 0], warmC: [8, 10] });
    expect(outlookLimits({ 'under-3': { limit: 4 }, 'over-8': { limit: 7 } })).toEqual({
      coldC: [4, 2, 0],
      warmC: [7, 10],
    });
  });

  it('finds each limit passed on a straight line between the hours, and the way back', () => {
    const { passings, coldest, warmest } = outlook([5, 4, 2, 1.5, 2.5, 4, 5]);
    expect(passings.filter((one) => one.likely)).toEqual([
      {
        side: 'cold',
        limitC: 3,
        likely: true,
        already: false,
        atMs: START + 1.5 * HOUR,
        backMs: expect.closeTo(START + (4 + 1 / 3) * HOUR, 0),
      },
      { side: 'cold', limitC: 2, likely: true, already: false, atMs: START + 2 * HOUR, backMs: START + 3.5 * HOUR },
    ]);
    expect(coldest).toEqual({ atMs: START + 3 * HOUR, tempC: 1.5 });
    expect(warmest.tempC).toBe(5);
  });

  it('passes a limit a hundredth of a degree beyond it and not at it', () => {
    expect(outlook([5, 3, 5], 0).passings).toEqual([]);
    expect(outlook([5, 2.99, 5], 0).passings).toMatchObject([{ side: 'cold', limitC: 3, likely: true }]);
    expect(outlook([5, 8, 5], 0).passings).toEqual([]);
    expect(outlook([5, 8.01, 5], 0).passings).toMatchObject([{ side: 'warm', limitC: 8, likely: true }]);
  });

  it('calls possible what the range alone passes, and puts what is expected before it', () => {
    const found = outlook([5, 3.2, 5, 8.1], 0.5);
    expect(found.passings.map(({ side, limitC, likely }) => [side, limitC, likely])).toEqual([
      ['cold', 3, false],
      ['warm', 8, true],
    ]);
    expect(firstPassing(found)).toMatchObject({ side: 'warm' });
  });

  it('speaks in the units of the reader and with the right plural', () => {
    expect(told([5, 3.5, 2.5])).toBe('The box is expected to fall below 3\u00a0°C in about 2 hours.');
    expect(told([5, 2])).toBe('The box is expected to fall below 3\u00a0°C in about an hour.');
    expect(told([5, 2], 'F')).toBe('The box is expected to fall below 37.4\u00a0°F in about an hour.');
    expect(told([5, 7, 8.5], 'F')).toBe('The box is expected to rise above 46.4\u00a0°F in about 2 hours.');
    expect(told([5, 5, 3.2], 'C')).toBe('The box may fall below 3\u00a0°C in about 2 hours.');
    expect(told([2.5, 2.4])).toBe('The box is below 3\u00a0°C already.');
    expect(told([9, 9], 'F')).toBe('The box is above 46.4\u00a0°F already.');
  });

  it('passes a milder limit no later than a further one, and never outside the forecast', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -5, max: 15, noNaN: true }), { minLength: 1, maxLength: 80 }), (tempsC) => {
        const { passings, fromMs, toMs } = outlook(tempsC, 1);
        for (const side of ['cold', 'warm']) {
          const times = passings.filter((one) => one.side === side && one.likely).map((one) => one.atMs);
          expect(times).toEqual([...times].sort((a, b) => a - b));
        }
        for (const one of passings) {
          expect(one.atMs).toBeGreaterThanOrEqual(fromMs);
          expect(one.atMs).toBeLessThanOrEqual(toMs);
          if (one.backMs !== undefined) expect(one.backMs).toBeGreaterThanOrEqual(one.atMs);
        }
      }),
    );
  });

  it('refuses a course without a temperature', () => {
    expect(() => outlook([])).toThrow(RangeError);
  });
});

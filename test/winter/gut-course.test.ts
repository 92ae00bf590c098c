import { describe, expect, it } from 'vitest';
import { gutCourse, readingSeries, warmthInForce, warmthSeries, withWarmth } from '../../src/winter/gut-course.ts';

const DAY_MS = 86_400_000;
const SIZE = { sclMm: 170, massG: 1000 };
const MEAL_MS = Date.parse('2026-10-18T12:00:00Z');
const warm = { lampHours: 10, lampBodyTempC: 28, nightTempC: 16 };

describe('the course of the last meal', () => {
  it('goes on while it is warm, and stands still in the cold', () => {
    const stateAfter = (days: number, warmth: typeof warm) =>
      gutCourse(SIZE, warmthSeries(SIZE, warmth, MEAL_MS), MEAL_MS, MEAL_MS + days * DAY_MS).verdict.state;
    expect(stateAfter(3, warm)).toBe('clearing');
    expect(stateAfter(110, warm)).toBe('clear');
    expect(stateAfter(12, { ...warm, lampHours: 0, nightTempC: 8 })).toBe('too-cold-to-clear');
  });

  it('is never slower in a warmer animal', () => {
    let before = Number.POSITIVE_INFINITY;
    for (let nightTempC = 12; nightTempC <= 24; nightTempC += 2) {
      const series = warmthSeries(SIZE, { ...warm, nightTempC }, MEAL_MS);
      const expected =
        gutCourse(SIZE, series, MEAL_MS, MEAL_MS + DAY_MS).clearAtMs.expected ?? Number.POSITIVE_INFINITY;
      expect(expected).toBeLessThanOrEqual(before);
      before = expected;
    }
    expect(before).toBeLessThan(Number.POSITIVE_INFINITY);
  });

  it('is reckoned from readings where there are two, and goes on at the mean of their last three days', () => {
    expect(readingSeries([MEAL_MS], [20])).toBeUndefined();
    const atMs = Array.from({ length: 40 }, (_, i) => MEAL_MS + i * 6 * 3_600_000);
    const series = readingSeries(
      atMs,
      atMs.map((_, i) => (i < 20 ? 25 : 10)),
    )!;
    expect(series.tempC.at(-1)).toBe(10);
    expect(series.atMs.at(-1)! - atMs.at(-1)!).toBe(120 * DAY_MS);
  });
});

describe('the warmth in force', () => {
  const one = (at: string, mealDay: string) => ({ at, mealDay });
  it('is the one written last, of a meal in the last 60 days and not after today', () => {
    const early = one('2026-10-20T08:00:00Z', '2026-10-18');
    const late = one('2026-10-25T08:00:00+02:00', '2026-10-20');
    expect(warmthInForce([late, early], '2026-11-01')).toBe(late);
    expect(warmthInForce([early], '2026-12-17')).toBe(early);
    expect(warmthInForce([early], '2026-12-18')).toBeUndefined();
    expect(warmthInForce([early], '2026-10-18')).toBe(early);
    expect(warmthInForce([early], '2026-10-17')).toBeUndefined();
    expect(warmthInForce([], '2026-10-17')).toBeUndefined();
  });
  it('takes the place of the usual figures in a request, and leaves the rest', () => {
    const request = { species: 'Testudo graeca ibera', sclMm: 170, latitudeDeg: 52, lampHours: 12 };
    expect(withWarmth(request, undefined)).toBe(request);
    expect(withWarmth(request, { mealDay: '2026-10-18', ...warm })).toEqual({
      ...request,
      lampBodyTempC: 28,
      nightBodyTempC: 16,
    });
  });
});

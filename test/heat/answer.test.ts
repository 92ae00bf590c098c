import { describe, expect, it } from 'vitest';
import { answerOverWinters, answerWinter, spreadOf } from '../../src/heat/answer.ts';

const series = (...tempC: number[]) => ({ startMs: 0, stepS: 3600, tempC: Float64Array.from(tempC) });
const under = (answer: ReturnType<typeof answerWinter>, limit: number) =>
  answer.under.find((one) => one.limitC === limit)!;
const over = (answer: ReturnType<typeof answerWinter>, limit: number) =>
  answer.over.find((one) => one.limitC === limit)!;

describe('answer over one winter', () => {
  it('counts time beyond a limit along the straight line between samples', () => {
    const answer = answerWinter('w', series(4, 2, 2, 4, 4));
    expect(under(answer, 3).hours).toBeCloseTo(0.5 + 1 + 0.5, 12);
    expect(under(answer, 3).longestRunH).toBeCloseTo(2, 12);
    expect(under(answer, 3).longestRunFromMs).toBeCloseTo(0.5 * 3_600_000, 6);
    expect(under(answer, 2).hours).toBe(0);
    expect(under(answer, 2).longestRunFromMs).toBeUndefined();
    expect(answer.steadiness).toBeCloseTo(0.5, 12);
  });
  it('tells exactly at a limit from beyond it', () => {
    expect(under(answerWinter('w', series(2, 2, 2)), 2).hours).toBe(0);
    expect(under(answerWinter('w', series(1.999, 1.999, 1.999)), 2).hours).toBeCloseTo(2, 12);
    expect(over(answerWinter('w', series(10, 10, 10)), 10).hours).toBe(0);
    expect(over(answerWinter('w', series(10.001, 10.001)), 10).hours).toBeCloseTo(1, 12);
    expect(answerWinter('w', series(3, 8, 3)).steadiness).toBe(1);
  });
  it('keeps two runs apart and finds the longer', () => {
    const answer = answerWinter('w', series(9, 9, 7, 9, 9, 9, 7));
    expect(over(answer, 8).hours).toBeCloseTo(1.5 + 3, 12);
    expect(over(answer, 8).longestRunH).toBeCloseTo(3, 12);
  });
  it('counts hours it does not know as not known, and widens the answer by them', () => {
    const answer = answerWinter('w', series(5, 5, Number.NaN, Number.NaN, 5, 1, 1));
    expect(answer.hours).toBe(6);
    expect(answer.unknownHours).toBe(3);
    expect(answer.inBandHours).toBeCloseTo(1 + 0.5, 12);
    expect(answer.steadiness).toBeCloseTo(1.5 / 3, 12);
    expect(answer.steadinessRange[0]).toBeCloseTo(1.5 / 6, 12);
    expect(answer.steadinessRange[1]).toBeCloseTo(4.5 / 6, 12);
    expect(under(answer, 2).longestRunH).toBeCloseTo(1.25, 12);
  });
  it('a gap ends a run: nobody knows whether it went on', () => {
    const answer = answerWinter('w', series(1, 1, 1, Number.NaN, 1, 1));
    expect(under(answer, 2).hours).toBeCloseTo(3, 12);
    expect(under(answer, 2).longestRunH).toBeCloseTo(2, 12);
  });
  it('takes the daily swing over whole days without gaps', () => {
    const day = Array.from({ length: 24 }, (_, k) => 5 + (k === 12 ? 2 : 0));
    const gap = day.map((t, k) => (k === 3 ? Number.NaN : t));
    expect(answerWinter('w', series(...day, ...gap, ...day, 5)).meanDailySwingK).toBeCloseTo(2, 12);
  });
  it('is all unknown when nothing is known, and refuses a single value', () => {
    const answer = answerWinter('w', series(Number.NaN, Number.NaN, Number.NaN));
    expect(answer.steadiness).toBeNaN();
    expect(answer.steadinessRange).toEqual([0, 1]);
    expect(answer.coldestC).toBeNaN();
    expect(() => answerWinter('w', series(5))).toThrow(RangeError);
  });
});

describe('answer over winters', () => {
  const mild = answerWinter('mild', series(5, 5, 5));
  const frosty = answerWinter('frosty', series(1, 1, 5));
  const warm = answerWinter('warm', series(9, 9, 5));
  it('names the worst winter by danger first, then by time outside the band', () => {
    expect(answerOverWinters([mild, frosty, warm]).worstWinter).toBe('frosty');
    expect(answerOverWinters([mild, warm]).worstWinter).toBe('warm');
    expect(answerOverWinters([mild, warm, frosty]).keptShare).toBeCloseTo(2 / 3, 12);
  });
  it('gives all of few winters and nine in ten of many', () => {
    expect(spreadOf([3, 1, 2])).toEqual({ median: 2, low: 1, high: 3 });
    const many = spreadOf(Array.from({ length: 101 }, (_, k) => k));
    expect([many.low, many.median, many.high]).toEqual([5, 50, 95]);
    expect(spreadOf([Number.NaN, 4]).median).toBe(4);
  });
  it('refuses no winters', () => {
    expect(() => answerOverWinters([])).toThrow(RangeError);
  });
});

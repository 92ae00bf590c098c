import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bodyTimeConstantsH, type PlannedDay, plannedBodyTemperature } from '../../src/physiology/body-temperature.ts';
import { GUT_REFERENCE } from '../../src/physiology/constants.ts';
import { gutOf, gutProgress, gutVerdict, passagePerDay } from '../../src/physiology/gut-clearing.ts';
import { say } from '../../src/wording/say.ts';

const DAY_MS = 86_400_000;
const adult = GUT_REFERENCE.adult;
const steady = (tempC: number, days: number) => {
  const length = days * 24 + 1;
  return {
    atMs: Float64Array.from({ length }, (_, hour) => (hour * DAY_MS) / 24),
    tempC: new Float64Array(length).fill(tempC),
  };
};
const warmDay: PlannedDay = { lampHours: 8, baskingC: 30, dayC: 18, nightC: 15 };

describe('rate of passage', () => {
  it('stands still at 10 °C, moves just above, and is whole from 15 °C', () => {
    expect(passagePerDay(10, 11, 2.24)).toBe(0);
    expect(passagePerDay(-1, 11, 2.24)).toBe(0);
    expect(passagePerDay(10.1, 11, 2.24)).toBeGreaterThan(0);
    expect(passagePerDay(15, 11, 2.24)).toBeCloseTo(2.24 ** -1.3 / 11, 12);
    expect(passagePerDay(28, 11, 2.24)).toBeCloseTo(1 / 11, 12);
    expect(passagePerDay(45, 11, 2.24)).toBe(passagePerDay(34, 11, 2.24));
  });

  it('never falls with warmth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (tempC, more) => passagePerDay(tempC + more, 11, 2.24) >= passagePerDay(tempC, 11, 2.24),
      ),
    );
  });
});

describe('progress of the last meal', () => {
  it('is the same in one series as in two joined ones, and only time after the meal counts', () => {
    const whole = gutProgress(steady(20, 20), 0, adult).share.mid;
    expect(gutProgress(steady(20, 10), 0, adult).share.mid).toBeCloseTo(whole / 2, 9);
    expect(gutProgress(steady(20, 20), 10 * DAY_MS, adult).share.mid).toBeCloseTo(whole / 2, 9);
    expect(gutProgress(steady(20, 20), 30 * DAY_MS, adult).share.mid).toBe(0);
  });

  it('is later in a colder autumn, for every part of the range', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 13, max: 24, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        (tempC, colder) => {
          const warm = gutProgress(steady(tempC, 20), 0, adult).share;
          const cold = gutProgress(steady(tempC - colder, 20), 0, adult).share;
          expect(cold.low).toBeLessThanOrEqual(warm.low);
          expect(cold.mid).toBeLessThanOrEqual(warm.mid);
          expect(cold.high).toBeLessThanOrEqual(warm.high);
          expect(warm.low).toBeLessThanOrEqual(warm.mid);
          expect(warm.mid).toBeLessThanOrEqual(warm.high);
        },
      ),
    );
  });

  it('credits nothing for hours without readings and says how many they were', () => {
    const series = {
      atMs: Float64Array.from([0, 6, 7, 31].map((h) => h * 3_600_000)),
      tempC: Float64Array.from([25, 25, 25, 25]),
    };
    const found = gutProgress(series, 0, adult);
    expect(found.unknownH).toBe(24);
    expect(found.share.mid).toBeCloseTo((7 / 24) * passagePerDay(25, 11.5, 2.24), 9);
  });

  it('a small animal clears sooner; an unmeasured one is taken for an adult', () => {
    expect(gutOf(99)).toBe(GUT_REFERENCE.small);
    expect(gutOf(100)).toBe(adult);
    expect(gutOf(undefined)).toBe(adult);
  });
});

describe('verdict on the gut', () => {
  const judged = (tempC: number, days: number) => gutVerdict(gutProgress(steady(tempC, days), 0, adult), adult);

  it('is clear only when even a slow animal is', () => {
    expect(judged(26, 12).state).toBe('clearing');
    expect(judged(26, 18).state).toBe('probably-clear');
    expect(judged(26, 30).state).toBe('clear');
  });

  it('two weeks in a cold greenhouse: food is in and nothing moves', () => {
    const cold = Array.from({ length: 14 }, (): PlannedDay => ({ lampHours: 0, baskingC: 15, dayC: 14, nightC: 8 }));
    const progress = gutProgress(plannedBodyTemperature(0, cold, 1), 0, adult);
    const verdict = gutVerdict(progress, adult);
    expect(verdict.state).toBe('too-cold-to-clear');
    expect(progress.share.mid).toBeLessThan(0.2);
    expect(say(verdict.message)).toMatch(/food is still in/);
  });

  it('four weeks under a lamp clear the gut of most adults', () => {
    const days = Array.from({ length: 28 }, () => warmDay);
    const progress = gutProgress(plannedBodyTemperature(0, days, 1), 0, adult);
    expect(progress.clearAtMs.expected! / DAY_MS).toBeGreaterThan(14);
    expect(progress.clearAtMs.expected! / DAY_MS).toBeLessThan(28);
  });

  it('estimates the days left from the last three days, and has every answer in words', () => {
    const verdict = judged(20, 5);
    expect(verdict.daysLeft!.expected).toBeCloseTo(11.5 * 2.24 ** 0.8 - 5, 0);
    expect(verdict.daysLeft!.late).toBeGreaterThan(verdict.daysLeft!.expected);
    const none = gutVerdict(gutProgress(steady(20, 0), 0, adult), adult);
    expect(none.state).toBe('unknown');
    for (const one of [judged(26, 30), judged(26, 18), verdict, none])
      expect(say(one.message).length).toBeGreaterThan(20);
  });
});

describe('planned body temperature', () => {
  it('reaches the lamp and the night, and stays between them', () => {
    const { tempC, atMs } = plannedBodyTemperature(1000, [warmDay, warmDay, warmDay], 0.8);
    expect(atMs[0]).toBe(1000);
    expect(atMs[atMs.length - 1]).toBe(1000 + 3 * DAY_MS);
    expect(Math.max(...tempC)).toBeGreaterThan(29);
    expect(Math.min(...tempC)).toBeCloseTo(15, 1);
    for (const c of tempC) expect(c >= 15 && c <= 30).toBe(true);
  });

  it('more lamp is never colder, and a heavier animal is slower', () => {
    const sum = (lampHours: number) =>
      plannedBodyTemperature(0, [{ ...warmDay, lampHours }], 1).tempC.reduce((a, b) => a + b, 0);
    for (let hours = 0; hours < 14; hours++) expect(sum(hours + 1)).toBeGreaterThanOrEqual(sum(hours));
    expect(bodyTimeConstantsH(2).cooling).toBeGreaterThan(bodyTimeConstantsH(0.5).cooling);
    expect(bodyTimeConstantsH(1).warming).toBeCloseTo(34 / 60, 9);
    expect(() => plannedBodyTemperature(0, [warmDay], 0)).toThrow(/above 0 kg/);
    expect(plannedBodyTemperature(0, [], 1).tempC.length).toBe(1);
  });
});

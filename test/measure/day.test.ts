import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, completedYears, dayFromNumber, dayNumber, daysBetween, isDay } from '../../src/measure/day.ts';

describe('days', () => {
  it.each(['2026-02-30', '2026-13-01', '2026-1-1', '0000-01-01', '2025-02-29', '20260101', '2026-01-01T00:00Z', ''])(
    'refuses %s',
    (text) => {
      expect(isDay(text)).toBe(false);
      expect(() => dayNumber(text)).toThrow(RangeError);
    },
  );

  it('counts from 1970-01-01 and knows leap days', () => {
    expect(dayNumber('1970-01-01')).toBe(0);
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
    expect(daysBetween('2026-02-28', '2026-03-01')).toBe(1);
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01');
  });

  it('goes to a number and back', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -600_000, max: 2_900_000 }),
        (number) => dayNumber(dayFromNumber(number)) === number,
      ),
    );
  });

  it('completes a year of age on the birthday, not the day before', () => {
    expect(completedYears('2020-05-10', '2026-05-09')).toBe(5);
    expect(completedYears('2020-05-10', '2026-05-10')).toBe(6);
  });
});

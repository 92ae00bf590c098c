import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/measure/day.ts';
import { instantInZone } from '../../src/measure/zone.ts';
import { daysFromSeries, normalsOfDays } from '../../src/weather/daily.ts';
import { type DailyRow, hoursFromDays } from '../../src/weather/day-curve.ts';

const HOUR = 3_600_000;
const sites = [
  { zone: 'Europe/London', latitudeDeg: 52, longitudeDeg: -1 },
  { zone: 'Pacific/Auckland', latitudeDeg: -41, longitudeDeg: 175 },
  { zone: 'Europe/Oslo', latitudeDeg: 70, longitudeDeg: 25 },
  { zone: 'Australia/Lord_Howe', latitudeDeg: -31.5, longitudeDeg: 159 },
];
const run = (firstDay: string, pairs: [number, number][]): DailyRow[] =>
  pairs.map(([minC, range], i) => ({ day: addDays(firstDay, i), minC, maxC: minC + range }));
const pairs = fc.array(
  fc.tuple(fc.double({ min: -20, max: 15, noNaN: true }), fc.double({ min: 0, max: 15, noNaN: true })),
  { minLength: 1, maxLength: 12 },
);

describe('hours from daily extremes', () => {
  it('lie between the extremes of the days they join, everywhere and in any season', () => {
    fc.assert(
      fc.property(fc.constantFrom(...sites), fc.nat(364), pairs, (site, offset, values) => {
        const rows = run(addDays('2026-01-01', offset), values);
        const { airTempC, startMs } = hoursFromDays(rows, site);
        rows.forEach((row, i) => {
          const near = rows.slice(Math.max(0, i - 1), i + 2);
          const low = Math.min(...near.map((day) => day.minC));
          const high = Math.max(...near.map((day) => day.maxC));
          const first = Math.ceil((instantInZone(row.day, site.zone) - startMs) / HOUR);
          const end = Math.ceil((instantInZone(addDays(row.day, 1), site.zone) - startMs) / HOUR);
          for (let k = first; k < end; k++) {
            expect(airTempC[k]).toBeGreaterThanOrEqual(low - 1e-9);
            expect(airTempC[k]).toBeLessThanOrEqual(high + 1e-9);
          }
        });
      }),
      { numRuns: 60 },
    );
  });

  it('are all warmer when every extreme is warmer', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...sites),
        pairs,
        fc.double({ min: 0, max: 5, noNaN: true }),
        (site, values, more) => {
          const rows = run('2026-12-01', values);
          const plain = hoursFromDays(rows, site).airTempC;
          const warmer = hoursFromDays(
            rows.map((row) => ({ ...row, maxC: row.maxC + more, minC: row.minC + more })),
            site,
          ).airTempC;
          for (let i = 0; i < plain.length; i++) expect(warmer[i]!).toBeCloseTo(plain[i]! + more, 9);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('give back steady days’ extremes within 2 % of the range', () => {
    for (const site of sites.filter(({ latitudeDeg }) => Math.abs(latitudeDeg) < 60)) {
      const rows = run('2026-06-10', Array(6).fill([2, 8]));
      const back = daysFromSeries(hoursFromDays(rows, site), site.zone).slice(1, -1);
      expect(back).toHaveLength(4);
      for (const row of back) {
        expect(Math.abs(row.maxC - 10)).toBeLessThan(0.16);
        expect(Math.abs(row.minC - 2)).toBeLessThan(0.16);
      }
    }
  });

  it('leave a missing day missing, and only that day', () => {
    const rows = run('2026-11-01', Array(5).fill([3, 5])).filter((row) => row.day !== '2026-11-03');
    const { airTempC } = hoursFromDays(rows, sites[0]!);
    expect(airTempC.length).toBe(120);
    expect([...airTempC].map(Number.isNaN)).toEqual(Array.from({ length: 120 }, (_, i) => i >= 48 && i < 72));
    const known = hoursFromDays([...rows.slice(0, 2), { day: '2026-11-03', maxC: Number.NaN, minC: 1 }], sites[0]!);
    expect(Number.isNaN(known.airTempC[60]!)).toBe(true);
  });

  it('have 25 hours on the day the clocks go back and 23 on the day they go forward', () => {
    const site = sites[0]!;
    expect(hoursFromDays(run('2026-10-25', [[4, 6]]), site).airTempC.length).toBe(25);
    expect(hoursFromDays(run('2027-03-28', [[4, 6]]), site).airTempC.length).toBe(23);
    // The warmest hour follows the sun, not the clock: within an hour on both sides of the change.
    const { airTempC, startMs } = hoursFromDays(run('2026-10-24', Array(3).fill([4, 6])), site);
    const warmest = (from: number, to: number) => {
      const part = airTempC.subarray(from, to);
      return new Date(startMs + (from + part.indexOf(Math.max(...part))) * HOUR).getUTCHours();
    };
    expect(warmest(0, 24)).toBe(warmest(49, 73));
  });

  it('refuse days out of order and a maximum below its minimum', () => {
    const rows = run('2026-11-01', [
      [1, 2],
      [2, 2],
    ]);
    expect(() => hoursFromDays([...rows].reverse(), sites[0]!)).toThrow(/does not come after/);
    expect(() => hoursFromDays([{ day: '2026-11-01', maxC: 1, minC: 2 }], sites[0]!)).toThrow(/below its minimum/);
    expect(() => hoursFromDays([], sites[0]!)).toThrow(RangeError);
  });
});

describe('days from hours', () => {
  it('leave out a day with a missing hour and take the mean cloud', () => {
    const hours = hoursFromDays(
      run('2026-11-01', Array(3).fill([3, 5])).map((row) => ({ ...row, cloudShare: 0.25 })),
      sites[0]!,
    );
    hours.airTempC[30] = Number.NaN;
    const rows = daysFromSeries(hours, 'Europe/London');
    expect(rows.map((row) => row.day)).toEqual(['2026-11-01', '2026-11-03']);
    expect(rows[0]!.cloudShare).toBeCloseTo(0.25, 12);
  });

  it('make no normals from too few days of a month', () => {
    expect(normalsOfDays(run('2025-01-01', Array(364).fill([1, 4])))).toHaveLength(12);
    expect(normalsOfDays(run('2025-01-01', Array(360).fill([1, 4])))).toBeUndefined();
  });
});

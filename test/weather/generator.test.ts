import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/measure/day.ts';
import { CLIMATES } from '../../src/weather/climates.ts';
import { daysFromSeries } from '../../src/weather/daily.ts';
import { fitDepartures } from '../../src/weather/departures.ts';
import { generateDays, generateWinters } from '../../src/weather/generator.ts';
import { coldness, seasonalCurve, seasonalValue, seasonOfNormals, yearShare } from '../../src/weather/normals.ts';
import { seededRandom } from '../../src/weather/random.ts';
import { wintersOf } from '../../src/weather/weather-source.ts';
import { say } from '../../src/wording/say.ts';
import { HEATHROW, southern } from './published-normals.ts';

const site = { zone: 'Europe/London', latitudeDeg: 51.5, longitudeDeg: -0.5 };
const asked = {
  normals: HEATHROW,
  departures: CLIMATES[0]!,
  site,
  fromDay: '2026-11-01',
  days: 120,
  winters: 30,
  seed: 7,
};

describe('the seasonal curve', () => {
  it('has the monthly means that were put in, exactly', () => {
    const curve = seasonalCurve(HEATHROW.map((month) => month.minC));
    const sums = new Map<string, number[]>();
    // A four-year round holds each month 4 times, the second one with its leap day.
    for (let i = 0; i < 1461; i++) {
      const day = addDays('2024-01-01', i);
      const month = day.slice(5, 7);
      sums.set(month, [...(sums.get(month) ?? []), seasonalValue(curve, yearShare(day))]);
    }
    HEATHROW.forEach((normal, i) => {
      const values = sums.get(String(i + 1).padStart(2, '0'))!;
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      expect(Math.abs(mean - normal.minC)).toBeLessThan(0.02);
    });
  });

  it('is coldest in the coldest part of the year, on either half of the Earth', () => {
    expect(coldness(seasonOfNormals(HEATHROW).mean, yearShare('2027-01-20'))).toBeGreaterThan(0.99);
    expect(coldness(seasonOfNormals(southern(HEATHROW)).mean, yearShare('2027-07-20'))).toBeGreaterThan(0.99);
    expect(coldness(seasonalCurve(Array(12).fill(26)), 0.3)).toBe(0);
  });

  it('refuses what is not twelve months of maxima above minima', () => {
    expect(() => seasonalCurve([1, 2])).toThrow(RangeError);
    expect(() => seasonOfNormals(HEATHROW.map(({ maxC, minC }) => ({ maxC: minC, minC: maxC })))).toThrow(RangeError);
  });
});

describe('random numbers', () => {
  it('are the same for the same seed and different for the next one', () => {
    const take = (seed: number) => Array.from({ length: 5 }, seededRandom(seed).uniform);
    expect(take(1)).toEqual(take(1));
    expect(take(1)).not.toEqual(take(2));
    expect(take(0x1_0000_0001)).not.toEqual(take(1));
  });

  it('are spread evenly, and normally with mean 0 and variance 1', () => {
    const random = seededRandom(42);
    const bins = new Float64Array(10);
    for (let i = 0; i < 100_000; i++) bins[Math.floor(random.uniform() * 10)]! += 1;
    for (const count of bins) expect(Math.abs(count - 10_000)).toBeLessThan(400);
    let sum = 0;
    let square = 0;
    let fourth = 0;
    for (let i = 0; i < 100_000; i++) {
      const z = random.normal();
      sum += z;
      square += z * z;
      fourth += z ** 4;
    }
    expect(Math.abs(sum / 1e5)).toBeLessThan(0.013);
    expect(Math.abs(square / 1e5 - 1)).toBeLessThan(0.02);
    expect(Math.abs(fourth / 1e5 - 3)).toBeLessThan(0.12);
  });
});

describe('winters from monthly normals', () => {
  it('are the same for the same seed, hour by hour, and stand on the days asked', () => {
    const made = generateWinters(asked);
    expect(made).toHaveLength(30);
    expect(generateWinters(asked)).toEqual(made);
    expect(generateWinters({ ...asked, seed: 8 })[0]!.series.airTempC).not.toEqual(made[0]!.series.airTempC);
    for (const winter of made) {
      expect(winter).toMatchObject({ fromDay: '2026-11-01', origin: 'generated', missingShare: 0 });
      expect(winter.series.airTempC.length).toBe(120 * 24);
      expect(winter.series.airTempC.every(Number.isFinite)).toBe(true);
      expect(winter.series.cloudShare!.every((share) => share >= 0 && share <= 1)).toBe(true);
    }
  });

  it('adding winters does not change the ones before', () => {
    const few = generateWinters({ ...asked, winters: 3 });
    expect(generateWinters({ ...asked, winters: 5 }).slice(0, 3)).toEqual(few);
  });

  it('are clearer on days of a wide range', () => {
    for (const { minC, maxC, cloudShare } of generateDays({ ...asked, winters: 4 }))
      for (let i = 0; i < 30; i++)
        for (let k = i + 1; k < 30; k++) {
          const wider = maxC[i]! - minC[i]! > maxC[k]! - minC[k]! + 1.5;
          if (wider) expect(cloudShare[i]!).toBeLessThan(cloudShare[k]!);
        }
  });

  it('in the south half a year on look like those in the north', () => {
    const here = generateDays({ ...asked, fromDay: '2026-12-01', days: 90, winters: 200 });
    const there = generateDays({
      ...asked,
      normals: southern(HEATHROW),
      fromDay: '2026-06-01',
      days: 90,
      winters: 200,
    });
    const mean = (made: typeof here) =>
      made.reduce((sum, { minC }) => sum + minC.reduce((s, v) => s + v, 0) / minC.length / made.length, 0);
    expect(Math.abs(mean(here) - mean(there))).toBeLessThan(0.4);
  });

  it('never have a maximum below its minimum, whatever the normals and departures', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: -30, max: 30, noNaN: true }), fc.double({ min: 0, max: 20, noNaN: true })), {
          minLength: 12,
          maxLength: 12,
        }),
        fc.double({ min: 0, max: 0.98, noNaN: true }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (months, lag1, meanCloudShare, rangeSpread) => {
          const normals = months.map(([minC, range]) => ({ minC, maxC: minC + range }));
          const departures = { ...CLIMATES[0]!, lag1, meanCloudShare, rangeSpread };
          for (const { minC, maxC } of generateDays({ ...asked, normals, departures, days: 60, winters: 2 }))
            minC.forEach((low, i) => {
              expect(maxC[i]!).toBeGreaterThanOrEqual(low);
            });
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([
    ['lag1', { departures: { ...CLIMATES[0]!, lag1: 1 } }],
    ['sdK', { departures: { ...CLIMATES[0]!, sdK: -1 } }],
    ['meanCloudShare', { departures: { ...CLIMATES[0]!, meanCloudShare: 1 } }],
    ['days', { days: 0 }],
    ['days', { days: 400 }],
  ])('refuse %s out of its range', (name, change) => {
    expect(() => generateDays({ ...asked, ...change })).toThrow(name);
  });
});

describe('departures fitted from a record', () => {
  const years = (count: number, seed: number) =>
    generateDays({ ...asked, fromDay: '2026-03-01', days: 365, winters: count, seed }).flatMap(({ minC, maxC }, year) =>
      [...minC].map((low, i) => ({ day: addDays(`${2001 + year}-03-01`, i), minC: low, maxC: maxC[i]! })),
    );

  it('find the sd, lag and skewness the record was made with, within their errors', () => {
    const fitted = fitDepartures(years(30, 3));
    if (!fitted.ok) throw new Error('refused');
    const { departures, sdErrorK, lag1Error, winters } = fitted.value;
    expect(winters).toBe(30);
    expect(Math.abs(departures.sdK - 3.3)).toBeLessThan(3 * sdErrorK);
    expect(Math.abs(departures.lag1 - 0.85)).toBeLessThan(3 * lag1Error + 0.005);
    expect(Math.abs(departures.rangeSpread - 0.41)).toBeLessThan(0.05);
    expect(departures.rangeCorrelationWarm).toBeGreaterThan(0.4);
    // Winters made from it depart as widely as the record.
    const again = generateDays({ ...asked, departures, winters: 60 });
    expect(again).toHaveLength(60);
  });

  it('are refused, with the reason, for two winters and for a record of winters only', () => {
    const two = fitDepartures(years(2, 3));
    if (two.ok) throw new Error('fitted');
    expect(say(two.problems[0]!.what)).toMatch(/holds 2 winters.*At least 3/);
    const cold = fitDepartures(years(5, 3).filter((row) => /-(11|12|01|02)-/.test(row.day)));
    if (cold.ok) throw new Error('fitted');
    expect(say(cold.problems[0]!.what)).toMatch(/whole round of the year/);
  });
});

describe('a source of weather', () => {
  it('of any kind gives winters for the days asked', () => {
    const made = wintersOf({ kind: 'normals', normals: HEATHROW }, site, '2026-11-20', 60);
    expect(made).toHaveLength(30);
    const days = daysFromSeries(made[0]!.series, site.zone);
    const daily = wintersOf({ kind: 'daily', days }, site, '2030-11-25', 20);
    expect(daily.map((winter) => [winter.label, winter.missingShare])).toEqual([['2026', 0]]);
    const hourly = wintersOf({ kind: 'hourly', series: made[0]!.series }, site, '2030-11-25', 20);
    expect(hourly[0]!.fromDay).toBe('2026-11-25');
    expect(wintersOf({ kind: 'daily', days }, site, '2030-06-01', 20)).toEqual([]);
    const other = wintersOf(
      { kind: 'normals', normals: HEATHROW, climate: 'maritime-pacific-north-west', winters: 2 },
      site,
      '2026-11-20',
      60,
    );
    expect(other).toHaveLength(2);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../../src/measure/day.ts';
import { CLIMATES } from '../../../src/weather/climates.ts';
import { daysFromSeries, normalsOfDays } from '../../../src/weather/daily.ts';
import type { DailyRow } from '../../../src/weather/day-curve.ts';
import { fitDepartures } from '../../../src/weather/departures.ts';
import { generateDays, generateWinters } from '../../../src/weather/generator.ts';
import { seasonalValue, seasonOfNormals, yearShare } from '../../../src/weather/normals.ts';
import { ABERPORTH, ARMAGH, HEATHROW, OXFORD } from '../../weather/published-normals.ts';

const seattle: DailyRow[] = readFileSync('node_modules/vega-datasets/data/seattle-weather.csv', 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','))
  .map((cells) => ({ day: cells[0]!, maxC: Number(cells[2]), minC: Number(cells[3]) }));

const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
function sd(values: number[]): number {
  const centre = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - centre) ** 2)));
}
function correlate(a: number[], b: number[]): number {
  const [centreA, centreB] = [mean(a), mean(b)];
  return mean(a.map((x, i) => (x - centreA) * (b[i]! - centreB))) / (sd(a) * sd(b));
}

describe('Seattle 2012-2015 (NOAA daily record, in vega-datasets)', () => {
  it('has the published monthly means', () => {
    const normals = normalsOfDays(seattle)!;
    // Recomputed from the record by an independent script: October to March.
    const max = [16.39, 11.02, 8.19, 8.23, 9.86, 12.39];
    const min = [9.35, 4.7, 3.32, 2.7, 4.05, 4.86];
    [9, 10, 11, 0, 1, 2].forEach((month, i) => {
      expect(Math.abs(normals[month]!.maxC - max[i]!)).toBeLessThan(0.006);
      expect(Math.abs(normals[month]!.minC - min[i]!)).toBeLessThan(0.006);
    });
  });

  it('departs by sd 3.0 K with lag-1 0.79 in its cold half-year, and refuses two winters', () => {
    const fitted = fitDepartures(seattle);
    if (!fitted.ok) throw new Error('refused');
    // Independent script: December to February sd 3.11, lag-1 0.817; November to March 2.99, 0.787.
    expect(fitted.value.departures.sdK).toBeGreaterThan(2.8);
    expect(fitted.value.departures.sdK).toBeLessThan(3.12);
    expect(fitted.value.departures.lag1).toBeGreaterThan(0.76);
    expect(fitted.value.departures.lag1).toBeLessThan(0.82);
    expect(fitted.value.departures.coldSkewness).toBeLessThan(-0.1);
    expect(fitted.value.departures.rangeSpread).toBeCloseTo(0.41, 1);
    expect(fitted.value.winters).toBeGreaterThanOrEqual(3);
    const short = fitDepartures(seattle.filter((row) => row.day < '2013-11-01'));
    expect(short.ok).toBe(false);
  });
});

describe('winters made from monthly normals (Met Office station normals 1981-2010)', () => {
  const climate = CLIMATES[0]!;
  const site = { zone: 'Europe/London', latitudeDeg: 51.5, longitudeDeg: -0.45 };
  const asked = { departures: climate, site, fromDay: '2025-11-01', days: 151, winters: 240, seed: 20 };

  it.each([
    ['Heathrow', HEATHROW],
    ['Oxford', OXFORD],
    ['Armagh', ARMAGH],
    ['Aberporth', ABERPORTH],
  ])('%s: month means, spread, lag-1 and the spread of month means come back', (_name, normals) => {
    const winters = generateDays({ ...asked, normals }).map(({ minC, maxC }) =>
      [...minC].map((low, i) => ({ day: addDays(asked.fromDay, i), minC: low, maxC: maxC[i]! })),
    );
    const season = seasonOfNormals(normals);
    const departures = winters.map((rows) =>
      rows.map((row) => (row.maxC + row.minC) / 2 - seasonalValue(season.mean, yearShare(row.day))),
    );

    // W2: sd of an n-day mean of a first-order process = σ sqrt((1 + 2 Σ (1 - k/n) φ^k) / n); 1.866 K for a month.
    let sum = 1;
    for (let k = 1; k < 31; k++) sum += 2 * (1 - k / 31) * climate.lag1 ** k;
    const monthSd = climate.sdK * Math.sqrt(sum / 31);
    expect(monthSd).toBeCloseTo(1.866, 3);

    for (const [month, place] of [
      ['11', 10],
      ['12', 11],
      ['01', 0],
      ['02', 1],
      ['03', 2],
    ] as const) {
      const rows = winters.flat().filter((row) => row.day.slice(5, 7) === month);
      // Three standard errors of the mean over the winters.
      const allowed = (3 * monthSd) / Math.sqrt(winters.length);
      expect(Math.abs(mean(rows.map((row) => row.maxC)) - normals[place]!.maxC)).toBeLessThan(allowed);
      expect(Math.abs(mean(rows.map((row) => row.minC)) - normals[place]!.minC)).toBeLessThan(allowed);
    }
    const all = departures.flat();
    expect(sd(all) / climate.sdK).toBeGreaterThan(0.95);
    expect(sd(all) / climate.sdK).toBeLessThan(1.05);
    const today = departures.flatMap((winter) => winter.slice(0, -1));
    const tomorrow = departures.flatMap((winter) => winter.slice(1));
    expect(Math.abs(correlate(today, tomorrow) - climate.lag1)).toBeLessThan(0.02);
    // The third month lies in the coldest part of the year.
    const coldest = departures.map((winter) => mean(winter.slice(61, 92)));
    expect(Math.abs(sd(coldest) - monthSd)).toBeLessThan(3 * (monthSd / Math.sqrt(2 * winters.length)) + 0.05);
    const january = departures.flatMap((winter) => winter.slice(61, 92));
    const spread = sd(january);
    const centre = mean(january);
    const skewness = mean(january.map((value) => ((value - centre) / spread) ** 3));
    expect(skewness).toBeLessThan(-0.1);
    expect(skewness).toBeGreaterThan(-0.5);
  });

  it('agrees with central England that 9 to 12 % of midwinter days have a mean under 0 °C and 2 to 3 % over 10 °C, roughly', () => {
    // Parker, Legg and Folland 1992, daily file to 2014: means of December to February 4.4 to 4.6 °C in 1981-2010.
    const central = HEATHROW.map(({ maxC, minC }) => {
      const lower = 0.8;
      return { maxC: maxC - lower, minC: minC - lower };
    });
    const rows = generateWinters({ ...asked, normals: central, winters: 120 })
      .flatMap((winter) => daysFromSeries(winter.series, site.zone))
      .filter((row) => ['12', '01', '02'].includes(row.day.slice(5, 7)))
      .map((row) => (row.maxC + row.minC) / 2);
    const under = rows.filter((value) => value < 0).length / rows.length;
    const over = rows.filter((value) => value > 10).length / rows.length;
    expect(under).toBeGreaterThan(0.07);
    expect(under).toBeLessThan(0.14);
    expect(over).toBeGreaterThan(0.01);
    expect(over).toBeLessThan(0.06);
  });
});

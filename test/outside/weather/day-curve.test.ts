import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../../src/measure/day.ts';
import { instantInZone } from '../../../src/measure/zone.ts';
import { daytimeTempC, hoursFromDays, nightTempC } from '../../../src/weather/day-curve.ts';
import { DAY_CURVES, type DayCurve } from '../../../src/weather/day-curve-coefficients.ts';

const [shortgrass, carolina] = DAY_CURVES as [DayCurve, DayCurve];

const HOUR = 3_600_000;

describe('Parton and Logan 1981', () => {
  it('gives 23.92 °C at 11 h of the case in the TrenchR documentation (30 and 10 °C, sun 6 to 18 h)', () => {
    const light = { noonMs: 12 * HOUR, lengthH: 12, maxC: 30, minC: 10 };
    expect(daytimeTempC(light, -1, carolina)).toBeCloseTo(23.9195, 3);
  });

  // Sun 8 to 16 h, 9 and 2 °C: own arithmetic on the published form, the night rescaled to reach the minimum.
  const winter = { noonMs: 12 * HOUR, lengthH: 8, maxC: 9, minC: 2 };
  it.each([
    [8, 2.31],
    [12, 8.194],
    [14, 8.995],
    [16, 7.94],
  ])('at %i h of a short winter day it is %f °C', (hour, tempC) => {
    expect(daytimeTempC(winter, hour - 12, shortgrass)).toBeCloseTo(tempC, 3);
  });

  it.each([
    [0, 3.457],
    [6, 2.214],
    [-4, 5.091],
  ])('at %i h of a long winter night it is %f °C', (hour, tempC) => {
    const before = { ...winter, noonMs: -12 * HOUR };
    expect(nightTempC(before, winter, hour * HOUR, shortgrass)).toBeCloseTo(tempC, 3);
  });

  it('is warmest at 13.86 h and reaches the minimum exactly', () => {
    expect(daytimeTempC(winter, 1.86, shortgrass)).toBeCloseTo(9, 12);
    expect(nightTempC({ ...winter, noonMs: -12 * HOUR }, winter, 7.83 * HOUR, shortgrass)).toBeCloseTo(2, 12);
  });

  it('puts the mean of the day where published curves put it, 0.42 to 0.47 of the range above the minimum', () => {
    // Own arithmetic 0.429; Campbell and Norman 1998: 0.440; ASHRAE 2009 design profile 0.464 (from memory).
    const share = [...Array(2400).keys()].reduce((sum, i) => {
      const hour = i / 100;
      const tempC =
        hour < 7.83
          ? nightTempC({ ...winter, noonMs: -12 * HOUR }, winter, hour * HOUR, shortgrass)
          : hour <= 16
            ? daytimeTempC(winter, hour - 12, shortgrass)
            : nightTempC(winter, { ...winter, noonMs: 36 * HOUR }, hour * HOUR, shortgrass);
      return sum + (tempC - 2) / 7 / 2400;
    }, 0);
    expect(share).toBeCloseTo(0.429, 3);
  });
});

describe('hours of Seattle from its daily extremes (NOAA hourly normals 1981-2010, in vega-datasets)', () => {
  const normals = readFileSync('node_modules/vega-datasets/data/seattle-weather-hourly-normals.csv', 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','))
    .map((cells) => ({ time: cells[0]!, tempC: Number(cells[2]) }));
  // The file's clock is the standard time of the place, UTC-8 the whole year.
  const site = { zone: 'Etc/GMT+8', latitudeDeg: 47.45, longitudeDeg: -122.31 };
  const byDay = new Map<string, number[]>();
  for (const { time, tempC } of normals) byDay.set(time.slice(0, 10), [...(byDay.get(time.slice(0, 10)) ?? []), tempC]);
  const rows = [...byDay]
    .filter(([, hours]) => hours.length === 24)
    .map(([day, hours]) => ({ day, maxC: Math.max(...hours), minC: Math.min(...hours) }));

  function meanError(curve: DayCurve, months: readonly string[]): number {
    const made = hoursFromDays(rows, site, curve);
    let sum = 0;
    let count = 0;
    for (const { time, tempC } of normals) {
      if (!months.includes(time.slice(5, 7))) continue;
      const index = (Date.parse(`${time}Z`) + 8 * 3_600_000 - made.startMs) / 3_600_000;
      if (index < 0 || Number.isNaN(made.airTempC[index]!)) continue;
      sum += Math.abs(made.airTempC[index]! - tempC);
      count++;
    }
    expect(count).toBeGreaterThan(24 * 25 * months.length);
    return sum / count;
  }

  it.each([
    [shortgrass, ['11', '12', '01', '02', '03'], 0.24],
    [carolina, ['11', '12', '01', '02', '03'], 0.21],
    [shortgrass, ['12', '01', '02'], 0.21],
    [carolina, ['12', '01', '02'], 0.23],
  ] as const)('%o in months %j is off by %f K on average', (curve, months, expected) => {
    const found = meanError(curve, months);
    expect(Math.abs(found - expected)).toBeLessThan(0.02);
  });

  it('starts at the keeper’s midnight', () => {
    const made = hoursFromDays(rows, site);
    expect(made.startMs).toBe(instantInZone(rows[0]!.day, site.zone));
    expect(made.airTempC.length).toBe(24 * rows.length);
    expect(addDays(rows[0]!.day, rows.length - 1)).toBe(rows.at(-1)!.day);
  });
});

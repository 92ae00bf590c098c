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

/** Campbell and Norman 1998: share of the range above the minimum at `hour` of the sun's clock, two sine waves a day. */
function campbellNorman(hour: number): number {
  const wt = (Math.PI / 12) * hour;
  return 0.44 - 0.46 * Math.sin(wt + 0.9) + 0.11 * Math.sin(2 * wt + 0.9);
}
/** ASHRAE 2009 design day (from memory): percent of the range below the maximum, hours 1 to 24. */
const ASHRAE_BELOW = [88, 92, 95, 98, 100, 98, 91, 74, 55, 38, 23, 13, 5, 0, 0, 6, 14, 24, 39, 50, 59, 68, 75, 82];
function ashrae(hour: number): number {
  const at = (((hour - 1) % 24) + 24) % 24;
  const early = ASHRAE_BELOW[Math.floor(at)]!;
  const late = ASHRAE_BELOW[(Math.floor(at) + 1) % 24]!;
  return 1 - (early + (late - early) * (at - Math.floor(at))) / 100;
}

describe('published curves of another shape, for days of any length', () => {
  it('Campbell and Norman 1998 reads 0.1658 at 0 h, is lowest at 4.46 h and highest at 13.94 h', () => {
    const read = [0.1658, 0.0514, 0.0679, 0.4242, 0.8865, 0.9654, 0.6398, 0.319];
    read.forEach((share, i) => {
      expect(campbellNorman(3 * i)).toBeCloseTo(share, 4);
    });
    expect(campbellNorman(4.46)).toBeCloseTo(0.0253, 4);
    expect(campbellNorman(13.94)).toBeCloseTo(0.9974, 4);
  });

  // On a day of twelve hours all three should tell much the same tale; the curve in force follows the length of the day, they do not.
  const own = (hour: number): number => {
    const day = (number: number) => ({ noonMs: (12 + 24 * number) * HOUR, lengthH: 12, maxC: 1, minC: 0 });
    if (hour < 6 + shortgrass.minimumLagH) return nightTempC(day(-1), day(0), hour * HOUR, shortgrass);
    return hour <= 18
      ? daytimeTempC(day(0), hour - 12, shortgrass)
      : nightTempC(day(0), day(1), hour * HOUR, shortgrass);
  };
  const quarters = [...Array(96).keys()].map((i) => i / 4);
  it.each([
    ['Campbell and Norman 1998', campbellNorman],
    ['the ASHRAE design day', ashrae],
  ] as const)(
    '%s lies within a twentieth of the range of the curve in force on average, a sixth at most',
    (_name, published) => {
      const apart = quarters.map((hour) => Math.abs(own(hour) - published(hour)));
      expect(apart.reduce((a, b) => a + b) / apart.length).toBeLessThan(1 / 20);
      expect(Math.max(...apart)).toBeLessThan(1 / 6);
    },
  );
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

  it.each([
    ['Campbell and Norman 1998', campbellNorman],
    ['the ASHRAE design day', ashrae],
  ] as const)(
    '%s, by the clock of the place, is further off than the curve in force over the cold half-year',
    (_name, share) => {
      const months = ['11', '12', '01', '02', '03'];
      let sum = 0;
      let count = 0;
      for (const { day, maxC, minC } of rows) {
        if (!months.includes(day.slice(5, 7))) continue;
        byDay.get(day)!.forEach((tempC, hour) => {
          sum += Math.abs(minC + (maxC - minC) * share(hour) - tempC);
          count++;
        });
      }
      expect(sum / count).toBeGreaterThan(meanError(shortgrass, months));
      expect(sum / count).toBeLessThan(0.35);
    },
  );

  it('starts at the keeper’s midnight', () => {
    const made = hoursFromDays(rows, site);
    expect(made.startMs).toBe(instantInZone(rows[0]!.day, site.zone));
    expect(made.airTempC.length).toBe(24 * rows.length);
    expect(addDays(rows[0]!.day, rows.length - 1)).toBe(rows.at(-1)!.day);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayFromNumber } from '../../src/measure/day.ts';
import { groundSeriesC, groundTempC, groundWaveOfNormals } from '../../src/weather/ground.ts';
import { clearSkyWm2, surfaceSunWm2 } from '../../src/weather/irradiance.ts';
import { skyLongWaveLossWm2, skyLongWaveWm2 } from '../../src/weather/sky.ts';
import { dayLengthH, solarPosition, sunTimes } from '../../src/weather/sun.ts';
import { HEATHROW, southern } from './published-normals.ts';

const latitude = fc.double({ min: -65, max: 65, noNaN: true });
const dayNumber = fc.integer({ min: 18_000, max: 24_000 });

describe('the sun', () => {
  it('gives north and south together 24 hours and a little more, on every day', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 60, noNaN: true }), dayNumber, (at, number) => {
        const day = dayFromNumber(number);
        const sum = dayLengthH(day, at) + dayLengthH(day, -at);
        expect(sum).toBeGreaterThan(24);
        expect(sum).toBeLessThan(25.2);
      }),
    );
  });

  it('stands 0.833° below the horizon at sunrise and sunset, and highest between them', () => {
    fc.assert(
      fc.property(latitude, fc.double({ min: -180, max: 180, noNaN: true }), dayNumber, (lat, lon, number) => {
        const sun = sunTimes(dayFromNumber(number), 'UTC', lat, lon);
        if (sun.riseMs === undefined || sun.setMs === undefined) return;
        expect(Math.abs(solarPosition(sun.riseMs, lat, lon).elevationDeg + 0.833)).toBeLessThan(0.01);
        expect(Math.abs(solarPosition(sun.setMs, lat, lon).elevationDeg + 0.833)).toBeLessThan(0.01);
        const top = solarPosition(sun.noonMs, lat, lon).elevationDeg;
        expect(top).toBeGreaterThanOrEqual(solarPosition(sun.noonMs - 1_800_000, lat, lon).elevationDeg);
        expect(top).toBeGreaterThanOrEqual(solarPosition(sun.noonMs + 1_800_000, lat, lon).elevationDeg);
      }),
    );
  });
});

describe('sun on surfaces', () => {
  const flat = { tiltDeg: 0, azimuthDeg: 0 };
  it('on a flat surface is the horizontal sun whatever the cloud', () => {
    expect(surfaceSunWm2({ elevationDeg: 30, azimuthDeg: 120 }, 0, flat)).toBeCloseTo(clearSkyWm2(30), 9);
    expect(surfaceSunWm2({ elevationDeg: 30, azimuthDeg: 120 }, 1, flat)).toBeCloseTo(clearSkyWm2(30) / 4, 9);
    expect(surfaceSunWm2({ elevationDeg: -1, azimuthDeg: 120 }, 0, flat)).toBe(0);
  });

  it('is strongest on the wall that faces the sun, and the same on all walls when overcast', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 80, noNaN: true }),
        fc.double({ min: 0, max: 359, noNaN: true }),
        (up, to) => {
          const sun = { elevationDeg: up, azimuthDeg: to };
          const wall = (turn: number, cloud: number) =>
            surfaceSunWm2(sun, cloud, { tiltDeg: 90, azimuthDeg: to + turn });
          expect(wall(0, 0)).toBeGreaterThan(wall(60, 0));
          expect(wall(60, 0)).toBeGreaterThan(wall(90, 0) - 1e-9);
          expect(wall(180, 0)).toBeCloseTo(wall(90, 0), 9);
          expect(wall(0, 1)).toBeCloseTo(wall(180, 1), 9);
        },
      ),
    );
  });
});

describe('the sky', () => {
  it('takes most from a surface on a clear dry night, and never more than a black body gives', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (air, drier, cloud) => {
          expect(skyLongWaveWm2(air, air - drier, cloud)).toBeGreaterThan(0);
          expect(skyLongWaveLossWm2(air, air - drier, cloud)).toBeGreaterThanOrEqual(0);
          expect(skyLongWaveLossWm2(air, air - drier - 1, cloud)).toBeGreaterThanOrEqual(
            skyLongWaveLossWm2(air, air - drier, cloud),
          );
        },
      ),
    );
    expect(skyLongWaveLossWm2(0, -2, 0)).toBeGreaterThan(skyLongWaveLossWm2(0, -2, 1));
  });
});

describe('the ground', () => {
  it('is coldest some weeks into the year in the north, half a year on in the south', () => {
    const north = groundWaveOfNormals(HEATHROW);
    expect(north.meanC).toBeCloseTo(11.4, 0);
    expect(north.amplitudeK).toBeGreaterThan(6);
    expect(north.coldestDay).toBeGreaterThan(14);
    expect(north.coldestDay).toBeLessThan(30);
    const south = groundWaveOfNormals(southern(HEATHROW));
    expect(Math.abs(south.coldestDay - north.coldestDay - 182)).toBeLessThan(3);
  });

  it('swings less and later the deeper it lies, and runs on through new year without a jump', () => {
    const wave = { meanC: 10, amplitudeK: 7, coldestDay: 30 };
    const at = { startMs: Date.UTC(2026, 10, 1), stepS: 86_400, count: 730 };
    let before = 8;
    for (const depth of [0, 0.3, 1, 3]) {
      const values = [...groundSeriesC(wave, depth, 5e-7, at)];
      const swing = Math.max(...values) - Math.min(...values);
      expect(swing / 2).toBeLessThan(before);
      before = swing / 2;
      for (let i = 1; i < values.length; i++) expect(Math.abs(values[i]! - values[i - 1]!)).toBeLessThan(0.13);
    }
    expect(groundTempC(wave, 100, 10, 5e-7)).toBeCloseTo(10, 6);
  });
});

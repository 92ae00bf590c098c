import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { climateFromReadings, exposure } from '../../src/physiology/box-climate.ts';
import {
  fatGPerLitreOxygen,
  kjPerLitreOxygen,
  metabolicHeatW,
  metabolicWaterGPerLitreOxygen,
} from '../../src/physiology/fat-and-gas.ts';
import { oxygenUseMlH } from '../../src/physiology/metabolic-rate.ts';
import { evaporationM3S, vapourDeficitKgM3, waterLossGPerDay } from '../../src/physiology/water-loss.ts';

const massKg = fc.double({ min: 0.01, max: 5, noNaN: true });
const tempC = fc.double({ min: 0, max: 24, noNaN: true });
const share = fc.double({ min: 0, max: 0.95, noNaN: true });
const HOUR_MS = 3_600_000;

describe('oxygen use', () => {
  it('rises with warmth and size in every part of its range, and the range is in order', () => {
    fc.assert(
      fc.property(massKg, tempC, (kg, c) => {
        const here = oxygenUseMlH(kg, c);
        const warmer = oxygenUseMlH(kg, c + 1);
        const heavier = oxygenUseMlH(kg * 1.1, c);
        expect(here.low < here.mid && here.mid < here.high).toBe(true);
        for (const part of ['low', 'mid', 'high'] as const) {
          expect(warmer[part]).toBeGreaterThan(here[part]);
          expect(heavier[part]).toBeGreaterThan(here[part]);
          expect(heavier[part] / (1.1 * kg)).toBeLessThan(here[part] / kg);
        }
      }),
    );
    expect(() => oxygenUseMlH(0, 5)).toThrow(/above 0 kg/);
  });

  it('does not warm a box: under 0.03 W per kg at 5 °C at the upper end', () => {
    expect(metabolicHeatW(oxygenUseMlH(1, 5).high)).toBeLessThan(0.03);
  });
});

describe('fuel', () => {
  it('keeps fat and carbohydrate at their ends and between them in between', () => {
    expect(kjPerLitreOxygen(0.71)).toBe(19.6);
    expect(kjPerLitreOxygen(1)).toBeCloseTo(21.1, 9);
    expect(kjPerLitreOxygen(0.85)).toBeGreaterThan(20);
    expect(kjPerLitreOxygen(0.5)).toBe(19.6);
    expect(metabolicWaterGPerLitreOxygen() / fatGPerLitreOxygen()).toBeCloseTo(1.07, 9);
  });
});

describe('water loss', () => {
  it('falls with humidity, rises with warmth; a smaller animal loses a larger share', () => {
    fc.assert(
      fc.property(massKg, tempC, share, (kg, c, humidity) => {
        const here = waterLossGPerDay(kg, vapourDeficitKgM3(c, humidity));
        expect(waterLossGPerDay(kg, vapourDeficitKgM3(c, humidity + 0.05))).toBeLessThan(here);
        expect(waterLossGPerDay(kg, vapourDeficitKgM3(c + 1, humidity))).toBeGreaterThan(here);
        expect(waterLossGPerDay(kg / 2, vapourDeficitKgM3(c, humidity)) / (kg / 2)).toBeGreaterThan(here / kg);
      }),
    );
    expect(evaporationM3S(1) * 3.6e6).toBeCloseTo(10.07, 1);
  });
});

describe('exposure', () => {
  const climate = {
    spans: [
      { fromMs: 0, toMs: 10 * HOUR_MS, tempC: 5, relativeHumidity: 0.6 },
      { fromMs: 20 * HOUR_MS, toMs: 30 * HOUR_MS, tempC: 8 },
    ],
    usual: { tempC: 4, relativeHumidity: 0.9 },
  };

  it('adds up over any cut, and fills what is not covered with the usual air', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), (cut) => {
        const whole = exposure(climate, 0, 40 * HOUR_MS).deficitKgSM3;
        const parts =
          exposure(climate, 0, cut * HOUR_MS).deficitKgSM3 +
          exposure(climate, cut * HOUR_MS, 40 * HOUR_MS).deficitKgSM3;
        expect(parts).toBeCloseTo(whole, 9);
      }),
    );
    const expected = 36_000 * (vapourDeficitKgM3(5, 0.6) + vapourDeficitKgM3(8, 0.9) + 2 * vapourDeficitKgM3(4, 0.9));
    expect(exposure(climate, 0, 40 * HOUR_MS).deficitKgSM3).toBeCloseTo(expected, 9);
  });

  it('reports the humidity measured in the last day only, and refuses to run backwards', () => {
    expect(exposure(climate, 0, 12 * HOUR_MS).humidityAtEnd).toBeCloseTo(0.6, 9);
    expect(exposure(climate, 0, 40 * HOUR_MS).humidityAtEnd).toBeUndefined();
    expect(() => exposure(climate, HOUR_MS, 0)).toThrow(/ends after/);
  });

  it('saturated air still takes a little, so that no animal is forecast to lose nothing', () => {
    const damp = { spans: [], usual: { tempC: 5, relativeHumidity: 1 } };
    expect(exposure(damp, 0, 24 * HOUR_MS).deficitKgSM3).toBeGreaterThan(0);
  });
});

describe('climate from readings', () => {
  const readings = [
    { atMs: 0, tempC: 4, humidity: 0.8 },
    { atMs: HOUR_MS / 2, tempC: 6 },
    { atMs: 3 * HOUR_MS, tempC: 7, humidity: 0.9 },
    { atMs: 5 * HOUR_MS, tempC: 20 },
  ];

  it('takes hourly means, leaves unread hours out and knows nothing after the instant asked for', () => {
    const climate = climateFromReadings(readings, 4 * HOUR_MS);
    expect(climate.spans).toEqual([
      { fromMs: 0, toMs: HOUR_MS, tempC: 5, relativeHumidity: 0.8 },
      { fromMs: 3 * HOUR_MS, toMs: 4 * HOUR_MS, tempC: 7, relativeHumidity: 0.9 },
    ]);
    expect(climate.usual!.tempC).toBeCloseTo(17 / 3, 9);
    expect(climate.usual!.relativeHumidity).toBeCloseTo(0.85, 9);
    expect(climateFromReadings(readings, 4 * HOUR_MS, 2).spans).toHaveLength(1);
    expect(climateFromReadings([], 0)).toEqual({ spans: [] });
  });
});

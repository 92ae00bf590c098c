import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import {
  airDensityKgM3,
  dewPointC,
  humidityRatio,
  saturationPressurePa,
  vapourDensityKgM3,
  vapourPressurePa,
} from '../../../src/air/humid-air.ts';

psychrolib.SetUnitSystem(psychrolib.SI);

describe('humid air against the reference library psychrolib (ASHRAE 2017 chapter 1)', () => {
  it('agrees on the saturation pressure over ice and water from -40 to 60 °C', () => {
    for (let tempC = -40; tempC <= 60; tempC += 0.5) {
      const theirs = psychrolib.GetSatVapPres(tempC);
      expect(Math.abs(saturationPressurePa(tempC) / theirs - 1)).toBeLessThan(1e-6);
    }
  });

  it('agrees on dew point, humidity ratio and density of moist air', () => {
    for (const tempC of [-15, -2, 0.5, 5, 8, 20, 35])
      for (const humidity of [0.2, 0.5, 0.8, 0.99]) {
        const vapourPa = vapourPressurePa(tempC, humidity);
        const ratio = psychrolib.GetHumRatioFromRelHum(tempC, humidity, 101_325);
        expect(humidityRatio(vapourPa)).toBeCloseTo(ratio, 9);
        expect(dewPointC(vapourPa)).toBeCloseTo(psychrolib.GetTDewPointFromRelHum(tempC, humidity), 2);
        expect(
          Math.abs(airDensityKgM3(tempC, humidity) / psychrolib.GetMoistAirDensity(tempC, ratio, 101_325) - 1),
        ).toBeLessThan(1e-4);
      }
  });
});

describe('humid air against published tables', () => {
  // ASHRAE Handbook of Fundamentals 2017, chapter 1, table 3 (values carried by the psychrolib test file).
  it.each([
    [-20, 103.24],
    [-5, 401.74],
    [5, 872.6],
    [25, 3169.7],
    [50, 12351.3],
  ])('saturation pressure at %d °C is %d Pa within 0.03 %% (ASHRAE 2017 table 3)', (tempC, pa) => {
    expect(Math.abs(saturationPressurePa(tempC) / pa - 1)).toBeLessThan(3e-4);
  });

  // IAPWS formulation, an independent route; from memory.
  it.each([
    [-10, 259.87],
    [0, 611.15],
    [5, 872.57],
    [10, 1228.18],
  ])('saturation pressure at %d °C is %d Pa within 0.02 %% (IAPWS, from memory)', (tempC, pa) => {
    expect(Math.abs(saturationPressurePa(tempC) / pa - 1)).toBeLessThan(2e-4);
  });

  it.each([
    [-20, 0.6373],
    [-5, 2.4863],
    [5, 5.425],
    [25, 20.173],
  ])(
    'saturated humidity ratio at %d °C is %d g/kg within 0.6 %% (ASHRAE 2017 table 2, with the enhancement factor)',
    (tempC, gKg) => {
      expect(Math.abs((1000 * humidityRatio(saturationPressurePa(tempC))) / gKg - 1)).toBeLessThan(6e-3);
    },
  );

  // Smithsonian Meteorological Tables, from memory.
  it.each([
    [-10, 2.14],
    [0, 4.85],
    [5, 6.8],
    [10, 9.4],
  ])('saturated vapour density at %d °C is %d g/m3 (Smithsonian tables, from memory)', (tempC, gM3) => {
    expect(1000 * vapourDensityKgM3(tempC, 1)).toBeCloseTo(gM3, 1);
  });

  it('gives the dew points and the density of the worked states at 101,325 Pa', () => {
    expect(dewPointC(vapourPressurePa(5, 0.8))).toBeCloseTo(1.84, 2);
    expect(dewPointC(vapourPressurePa(8, 0.9))).toBeCloseTo(6.46, 2);
    expect(dewPointC(vapourPressurePa(10, 0.5))).toBeCloseTo(0.06, 2);
    expect(dewPointC(vapourPressurePa(0, 0.85))).toBeCloseTo(-1.96, 2);
    expect(airDensityKgM3(5, 0.8)).toBeCloseTo(1.2658, 3);
  });
});

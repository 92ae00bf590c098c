import { describe, expect, it } from 'vitest';
import { groundTempC } from '../../../src/weather/ground.ts';
import { clearSkyWm2, cloudTransmission, diffuseShare, solAirTempC } from '../../../src/weather/irradiance.ts';
import { cloudLongWaveFactor, skyLongWaveLossWm2, skyLongWaveWm2 } from '../../../src/weather/sky.ts';
import { SKY_MODELS } from '../../../src/weather/sky-models.ts';

describe('sun through air and cloud', () => {
  // Haurwitz 1945, as tested in pvlib.
  it.each([
    [-20, 0],
    [-0.05, 0],
    [5, 48.6298687941956],
    [10, 135.741748091813],
    [30, 487.894132885425],
    [50, 778.766689344363],
    [90, 1035.0920325345],
  ])('clear sky at %f° gives %f W/m2', (elevation, expected) => {
    expect(Math.abs(clearSkyWm2(elevation) - expected)).toBeLessThan(1e-4);
  });

  it('lets through what Kasten and Czeplak 1980 print for 0 to 8 eighths of cloud', () => {
    const expected = [1, 0.99936, 0.99327, 0.97328, 0.92895, 0.84828, 0.71799, 0.52369, 0.25];
    expected.forEach((share, eighths) => {
      expect(Math.abs(cloudTransmission(eighths / 8) - share)).toBeLessThan(1e-5);
    });
    expect([diffuseShare(0), diffuseShare(1)]).toEqual([0.3, 1]);
  });
});

describe('sky long-wave radiation', () => {
  it('gives the worked example of the EnergyPlus engineering reference: 293 K, dew point 283 K, clear: 340.6 W/m2', () => {
    // Its own rounding of the emissivity to 0.815 is 0.3 W/m2.
    expect(Math.abs(skyLongWaveWm2(293 - 273.15, 283 - 273.15, 0) - 340.6)).toBeLessThan(0.5);
  });

  it('raises it by the cloud factor quoted with Clark and Allen 1978', () => {
    for (const [tenths, factor] of [
      [2, 1.033],
      [5, 1.06],
      [8, 1.099],
      [10, 1.154],
    ] as const)
      expect(Math.abs(cloudLongWaveFactor(tenths / 10) - factor)).toBeLessThan(6e-4);
  });

  // Own arithmetic on the six published rules; two take the vapour pressure, whose published forms differ by 0.2 %.
  it.each([
    ['clark-allen', 246.8, 269.2],
    ['martin-berdahl', 236.1, 260.9],
    ['brunt', 235.3, 260.3],
    ['berdahl-martin', 221.0, 245.2],
    ['brutsaert', 222.1, 249.0],
    ['swinbank', 218.7, 243.8],
  ])('%s: %f W/m2 at 0 °C, dew point -2; %f at 5 °C, dew point 2', (id, cold, mild) => {
    const model = SKY_MODELS.find((row) => row.id === id)!;
    expect(Math.abs(skyLongWaveWm2(0, -2, 0, model) - cold)).toBeLessThan(0.8);
    expect(Math.abs(skyLongWaveWm2(5, 2, 0, model) - mild)).toBeLessThan(0.8);
  });
});

describe('sol-air temperature (ASHRAE Fundamentals, from memory)', () => {
  const light = { absorptance: 0.026 * 25, emissivity: 1, coefficientWm2K: 25 };
  const dark = { absorptance: 0.052 * 25, emissivity: 1, coefficientWm2K: 25 };
  it('is 12.8 °C on a light and 20.6 °C on a dark surface at 5 °C in 300 W/m2, 3.9 K less on a flat roof', () => {
    expect(solAirTempC(5, 300, light)).toBeCloseTo(12.8, 6);
    expect(solAirTempC(5, 300, dark)).toBeCloseTo(20.6, 6);
    expect(
      Math.abs(solAirTempC(5, 300, { ...dark, coefficientWm2K: 16.2, absorptance: 0.052 * 16.2 }, 63) - 16.7),
    ).toBeLessThan(0.05);
  });

  it('lies 2.48 K below the air on a clear night at 0 °C with dew point -2', () => {
    const loss = skyLongWaveLossWm2(0, -2, 0);
    expect(solAirTempC(0, 0, { absorptance: 0, emissivity: 0.9, coefficientWm2K: 25 }, loss)).toBeCloseTo(-2.48, 2);
  });
});

describe('ground temperature (Kasuda and Archenbach 1965)', () => {
  it('meets the Boston reference values of the Modelica Buildings library', () => {
    // There a sine of 365.2422 days with a lag of 9,944,640 s; the minimum lies three quarters of a turn later.
    const period = 365.2422;
    const wave = { meanC: 284.23, amplitudeK: 11.57, coldestDay: 9_944_640 / 86_400 - period / 4 };
    const diffusivity = 1.58 / (1600 * 1150);
    for (const [depth, expected] of [
      [0, 273.6155],
      [2, 281.523],
      [5, 285.3157],
      [9, 284.7406],
    ] as const)
      expect(Math.abs(groundTempC(wave, depth, 0, diffusivity, period) - expected)).toBeLessThan(1e-4);
  });

  it('damps the yearly wave to 1/e in 3.17 m at 1e-6 m2/s (vignette of the R package groundTemp)', () => {
    const at = (depth: number, day: number) =>
      groundTempC({ meanC: 0, amplitudeK: 1, coldestDay: 0 }, depth, day, 1e-6);
    let low = 0;
    for (let day = 0; day < 365; day += 0.05) low = Math.min(low, at(3.169, day));
    expect(-low).toBeCloseTo(Math.exp(-1), 3);
  });

  it('gives the worked table for mean 10, half-range 7, coldest on day 30, 0.05 m2 a day (own arithmetic)', () => {
    const wave = { meanC: 10, amplitudeK: 7, coldestDay: 30 };
    const table: [number, number[]][] = [
      [32, [3.004, 4.396, 5.708, 7.863]],
      [60, [3.913, 4.581, 5.401, 7.096]],
    ];
    for (const [day, row] of table)
      [0, 0.5, 1, 2].forEach((depth, i) => {
        expect(groundTempC(wave, depth, day, 0.05 / 86_400)).toBeCloseTo(row[i]!, 3);
      });
  });
});

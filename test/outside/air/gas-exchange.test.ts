import { describe, expect, it } from 'vitest';
import { conductanceForM3S, gasAfter, sealedHours, steadyGas } from '../../../src/air/box-air.ts';
import { diffusionM2S } from '../../../src/air/diffusion.ts';
import { buoyancyFlowM3S, heatLossWK, holesConductanceM3S, holesFor } from '../../../src/air/holes.ts';
import { solveAdaptively } from '../adaptive-solver.ts';

const LH = 3.6e6; // litres per hour in one m3/s

describe('diffusion of gases in air', () => {
  // CRC Handbook of Chemistry and Physics, from Marrero and Mason 1972: read.
  it.each([
    ['carbonDioxide', 20, 0.16, 0.025],
    ['waterVapour', 20, 0.242, 0.001],
    ['waterVapour', 100, 0.399, 0.003],
  ] as const)('%s at %d °C is %d cm2/s (CRC Handbook)', (gas, tempC, cm2S, share) => {
    expect(Math.abs((1e4 * diffusionM2S(gas, tempC)) / cm2S - 1)).toBeLessThan(share);
  });

  // Marrero and Mason 1972 for oxygen in nitrogen, 1.13e-5 T^1.724 cm2/s: from memory.
  it.each([0, 5, 20])('oxygen at %d °C agrees with Marrero and Mason within 1 %%', (tempC) => {
    const theirs = 1.13e-5 * (tempC + 273.15) ** 1.724;
    expect(Math.abs((1e4 * diffusionM2S('oxygen', tempC)) / theirs - 1)).toBeLessThan(0.01);
  });
});

describe('holes (Brown and Escombe 1900; worked cases derived from their end correction)', () => {
  const oxygen = diffusionM2S('oxygen', 5);
  const carbonDioxide = diffusionM2S('carbonDioxide', 5);
  const cases: [number, number, number, number, number][] = [
    [5, 3, 0.1875, 0.4329, 0.1456],
    [5, 30, 0.0383, 0.0433, 0.0297],
    [10, 3, 0.4786, 1.7317, 0.3718],
    [10, 30, 0.1372, 0.1732, 0.1066],
    [10, 120, 0.0406, 0.0433, 0.0316],
    [20, 3, 1.1108, 6.9269, 0.8627],
    [20, 30, 0.4546, 0.6927, 0.3531],
    [20, 120, 0.1531, 0.1732, 0.1189],
  ];
  it.each(cases)(
    'a hole of %d mm through %d mm passes %d l/h of oxygen at 5 °C',
    (diameterMm, depthMm, lH, bareLH, co2LH) => {
      const holes = [{ count: 1, diameterMm, depthMm }];
      expect(Math.abs((LH * holesConductanceM3S(holes, oxygen)) / lH - 1)).toBeLessThan(2e-3);
      expect(Math.abs((LH * holesConductanceM3S(holes, carbonDioxide)) / co2LH - 1)).toBeLessThan(3e-3);
      // Without the end correction the same hole would seem to pass up to six times as much.
      expect(LH * holesConductanceM3S(holes, oxygen)).toBeLessThan(bareLH);
    },
  );

  it('a hole in a sheet of no thickness passes D d, the exact result', () => {
    expect(holesConductanceM3S([{ count: 1, diameterMm: 10, depthMm: 0 }], oxygen)).toBeCloseTo(oxygen * 0.01, 12);
    expect(LH * holesConductanceM3S([{ count: 1, diameterMm: 10, depthMm: 0 }], oxygen)).toBeCloseTo(0.6615, 3);
  });
});

describe('worked case: 50 l of air, 1 kg, four holes of 10 mm through 3 mm, 5 °C, 6.949 ml/h', () => {
  const holes = [{ count: 4, diameterMm: 10, depthMm: 3 }];
  const box = {
    freeVolumeM3: 0.05,
    oxygenMlH: 6.949,
    respiratoryQuotient: 0.71,
    oxygenM3S: holesConductanceM3S(holes, diffusionM2S('oxygen', 5)),
    carbonDioxideM3S: holesConductanceM3S(holes, diffusionM2S('carbonDioxide', 5)),
  };

  it('reaches the steady shares', () => {
    expect(LH * box.oxygenM3S).toBeCloseTo(1.9146, 3);
    expect(steadyGas(box).oxygen).toBeCloseTo(0.20587, 5);
    expect(steadyGas(box).carbonDioxide).toBeCloseTo(0.0037, 4);
    expect(0.05 / box.oxygenM3S / 3600).toBeCloseTo(26.12, 1);
  });

  it.each([
    [6, 0.20875],
    [12, 0.20816],
    [24, 0.20732],
    [48, 0.20645],
  ])('after %d h oxygen stands at %d', (hours, share) => {
    expect(gasAfter(box, hours * 3600).oxygen).toBeCloseTo(share, 5);
  });

  it('follows an adaptive differential-equation solver', () => {
    const seconds = 30 * 3600;
    const use = (6.949 * 1e-6) / 3600;
    const theirs = solveAdaptively(
      (_t, x) => [(-use - box.oxygenM3S * (x[0]! - 0.2095)) / 0.05],
      0,
      [0.2095],
      seconds,
      1e-12,
    );
    expect(gasAfter(box, seconds).oxygen).toBeCloseTo(theirs[0]!, 9);
  });

  it('needs 3.23 holes for 20.5 % and falls to 19 % in 140.3 h when sealed, 149.4 h when it draws in air', () => {
    const needed = holesFor(conductanceForM3S(6.949, 0.205), { diameterMm: 10, depthMm: 3 }, diffusionM2S('oxygen', 5));
    expect(needed).toBeCloseTo(3.227, 2);
    expect(sealedHours(box).fixedVolume).toBeCloseTo(140.3, 1);
    expect(sealedHours(box).leakingIn).toBeCloseTo(149.4, 1);
  });
});

describe('buoyancy through two pairs of 10 mm holes 0.2 m apart (orifice law, derived)', () => {
  const chimney = (kelvin: number, depthMm: number) =>
    buoyancyFlowM3S({
      lower: { count: 2, diameterMm: 10, depthMm },
      upper: { count: 2, diameterMm: 10, depthMm },
      riseM: 0.2,
      insideC: 5 + kelvin,
      outsideC: 5,
    });

  it.each([
    [0.2, 13, 0.005],
    [1, 29, 0.01],
    [5, 65, 0.023],
  ])('at %d K passes %d l/h and carries %d W/K when the wall is thin', (kelvin, lH, wK) => {
    const flow = chimney(kelvin, 0);
    expect(Math.abs((LH * flow) / lH - 1)).toBeLessThan(0.02);
    expect(heatLossWK(flow)).toBeCloseTo(wK, 3);
  });

  it('passes several times what diffusion does, and less through a thick wall', () => {
    const diffusion = holesConductanceM3S([{ count: 4, diameterMm: 10, depthMm: 3 }], diffusionM2S('oxygen', 5));
    expect(chimney(0.2, 3) / diffusion).toBeGreaterThan(4);
    expect(chimney(5, 3) / diffusion).toBeLessThan(35);
    expect(chimney(1, 30)).toBeLessThan(chimney(1, 3));
  });
});

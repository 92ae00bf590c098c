import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  afterLidOpening,
  type BoxAir,
  conductanceForM3S,
  gasAfter,
  OUTDOOR_AIR,
  sealedHours,
  steadyGas,
  steadyVapourDensityKgM3,
  worstBetweenOpenings,
} from '../../src/air/box-air.ts';
import { diffusionM2S } from '../../src/air/diffusion.ts';
import { buoyancyFlowM3S, holesConductanceM3S, holesFor } from '../../src/air/holes.ts';
import {
  dewPointC,
  relativeHumidityOf,
  saturationPressurePa,
  vapourDensityKgM3,
  vapourPressurePa,
} from '../../src/air/humid-air.ts';

const box = (oxygenMlH: number, lH: number, litres = 30): BoxAir => ({
  freeVolumeM3: litres / 1000,
  oxygenMlH,
  respiratoryQuotient: 0.71,
  oxygenM3S: lH / 3.6e6,
  carbonDioxideM3S: (0.78 * lH) / 3.6e6,
});
const demand = fc.double({ min: 0.1, max: 20, noNaN: true });
const supply = fc.double({ min: 0.2, max: 50, noNaN: true });

describe('air of a box', () => {
  it('what enters equals what is used in the steady state', () => {
    fc.assert(
      fc.property(demand, supply, (mlH, lH) => {
        const one = box(mlH, lH);
        const { oxygen, carbonDioxide } = steadyGas(one);
        if (oxygen > 0) expect((OUTDOOR_AIR.oxygen - oxygen) * lH * 1000).toBeCloseTo(mlH, 6);
        if (carbonDioxide < 1)
          expect((carbonDioxide - OUTDOOR_AIR.carbonDioxide) * 0.78 * lH * 1000).toBeCloseTo(0.71 * mlH, 6);
      }),
    );
  });

  it('moves from any start towards the steady state, in two steps as in one', () => {
    fc.assert(
      fc.property(demand, supply, fc.integer({ min: 1, max: 200 }), (mlH, lH, hours) => {
        const one = box(mlH, lH);
        const direct = gasAfter(one, hours * 3600);
        const twice = gasAfter(one, hours * 1800, gasAfter(one, hours * 1800));
        if (twice.oxygen > 0) expect(twice.oxygen).toBeCloseTo(direct.oxygen, 9);
        expect(direct.oxygen).toBeGreaterThanOrEqual(steadyGas(one).oxygen - 1e-12);
        expect(direct.oxygen).toBeLessThanOrEqual(OUTDOOR_AIR.oxygen);
      }),
    );
  });

  it('a sealed box falls in a straight line and reaches 19 % when it says', () => {
    const sealed = box(1.5, 0, 20);
    const hours = sealedHours(sealed).fixedVolume;
    expect(gasAfter(sealed, hours * 3600).oxygen).toBeCloseTo(0.19, 9);
    expect(steadyGas(sealed).oxygen).toBe(0);
    expect(gasAfter(sealed, 1e9).oxygen).toBe(0);
  });

  it('an empty box holds outdoor air', () => {
    expect(steadyGas(box(0, 0))).toEqual(OUTDOOR_AIR);
    expect(gasAfter(box(0, 0), 1e6).oxygen).toBeCloseTo(OUTDOOR_AIR.oxygen, 12);
  });

  it('opening the lid repeats: the worst moment is the one the cycle returns to', () => {
    for (const lH of [0, 0.3, 2]) {
      const one = box(2, lH);
      const week = 7 * 86_400;
      const worst = worstBetweenOpenings(one, week, 0.8);
      const again = gasAfter(one, week, afterLidOpening(worst, 0.8));
      expect(again.oxygen).toBeCloseTo(worst.oxygen, 9);
      expect(again.carbonDioxide).toBeCloseTo(worst.carbonDioxide, 9);
      expect(worst.oxygen).toBeGreaterThanOrEqual(steadyGas(one).oxygen);
    }
    expect(worstBetweenOpenings(box(2, 1), 1000, 0)).toEqual(steadyGas(box(2, 1)));
  });

  it('more holes never leave less oxygen, a thicker wall never more', () => {
    const d = diffusionM2S('oxygen', 5);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.double({ min: 2, max: 40, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (count, diameterMm, depthMm) => {
          const through = (n: number, mm: number, l: number) =>
            holesConductanceM3S([{ count: n, diameterMm: mm, depthMm: l }], d);
          const here = through(count, diameterMm, depthMm);
          expect(through(count + 1, diameterMm, depthMm)).toBeGreaterThan(here);
          expect(through(count, diameterMm, depthMm + 1)).toBeLessThan(here);
          expect(through(count, diameterMm + 1, depthMm)).toBeGreaterThan(here);
          expect(holesFor(here, { diameterMm, depthMm }, d)).toBeCloseTo(count, 9);
        },
      ),
    );
  });

  it('a hole with one free end passes more than one with two', () => {
    const one = (freeEnds: 1 | 2) => holesConductanceM3S([{ count: 1, diameterMm: 10, depthMm: 3, freeEnds }], 1.8e-5);
    expect(one(1)).toBeGreaterThan(one(2));
  });

  it('no chimney without a difference, a rise or holes at both heights', () => {
    const holes = { count: 2, diameterMm: 10, depthMm: 30 };
    const chimney = { lower: holes, upper: holes, riseM: 0.2, insideC: 6, outsideC: 5 };
    expect(buoyancyFlowM3S(chimney)).toBeGreaterThan(0);
    expect(buoyancyFlowM3S({ ...chimney, insideC: 5 })).toBe(0);
    expect(buoyancyFlowM3S({ ...chimney, riseM: 0 })).toBe(0);
    expect(buoyancyFlowM3S({ ...chimney, upper: { ...holes, count: 0 } })).toBe(0);
    expect(buoyancyFlowM3S({ ...chimney, insideC: 5, outsideC: 6 })).toBeCloseTo(buoyancyFlowM3S(chimney), 12);
  });

  it('refuses what cannot be', () => {
    expect(() => steadyGas({ ...box(1, 1), freeVolumeM3: 0 })).toThrow(/air/);
    expect(() => steadyGas({ ...box(1, 1), oxygenM3S: -1 })).toThrow(/0 m3/);
    expect(() => conductanceForM3S(1, 0.21)).toThrow(/outdoors/);
    expect(() => afterLidOpening(OUTDOOR_AIR, 1.2)).toThrow(/0 to 1/);
    expect(() => worstBetweenOpenings(box(1, 1), 0, 0.5)).toThrow(/above 0 s/);
    expect(() => holesConductanceM3S([{ count: 1, diameterMm: 0, depthMm: 3 }], 1e-5)).toThrow(/diameter/);
    expect(() => holesConductanceM3S([{ count: -1, diameterMm: 5, depthMm: 3 }], 1e-5)).toThrow(/number of holes/);
  });
});

describe('humid air', () => {
  it('the dew point gives back the vapour pressure; saturation rises with warmth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 50, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (tempC, humidity) => {
          const pa = vapourPressurePa(tempC, humidity);
          const dew = dewPointC(pa);
          expect(dew).toBeLessThanOrEqual(tempC + 1e-6);
          expect(saturationPressurePa(dew) / pa).toBeCloseTo(1, 6);
          expect(saturationPressurePa(tempC + 0.5)).toBeGreaterThan(saturationPressurePa(tempC));
          expect(relativeHumidityOf(vapourDensityKgM3(tempC, humidity), tempC)).toBeCloseTo(humidity, 9);
        },
      ),
    );
  });

  it('refuses temperatures and humidities it does not know', () => {
    expect(() => saturationPressurePa(-101)).toThrow(RangeError);
    expect(() => vapourPressurePa(5, 80)).toThrow(/share from 0 to 1/);
    expect(() => dewPointC(0)).toThrow(RangeError);
  });

  it('a box settles between the damp of its animal and the damp of the outdoors', () => {
    const saturated = vapourDensityKgM3(5, 1);
    const outdoors = vapourDensityKgM3(5, 0.8);
    const inside = steadyVapourDensityKgM3(saturated, outdoors, 2.8e-6, 0.6e-6);
    expect(inside).toBeGreaterThan(outdoors);
    expect(inside).toBeLessThan(saturated);
    expect(2.8e-6 * (saturated - inside)).toBeCloseTo(0.6e-6 * (inside - outdoors), 15);
    expect(steadyVapourDensityKgM3(saturated, outdoors, 0, 0)).toBe(outdoors);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WATER, waterEnthalpyJ, waterTemperatureC } from '../../src/heat/freezing.ts';
import { freezeFromSurface, plankFreezingS } from '../../src/heat/freezing-front.ts';
import { findModes } from '../../src/heat/modes.ts';
import { NetworkBuilder } from '../../src/heat/network.ts';
import { makeRecursion, run as runLinear } from '../../src/heat/run.ts';
import { runWithFreezing } from '../support/exact-freezing.ts';

function boxWithBottles(waterKg: number) {
  const builder = new NetworkBuilder();
  const air = builder.input('air');
  const wall = builder.node('wall', 1500);
  const lining = builder.node('lining', 0);
  const inner = builder.node('inner', 6000);
  const bottles = builder.node('bottles', waterKg * WATER.liquidJkgK + 80);
  builder.boundary(air, wall, 1.6);
  builder.link(wall, lining, 1.2);
  builder.link(lining, inner, 2);
  builder.link(lining, bottles, 1.5);
  return { network: builder.build(), inner, bottles, lumps: [{ node: bottles, waterKg }] };
}

describe('water as heat content', () => {
  it('gives back the temperature it was made from, on both sides of freezing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 30, noNaN: true }),
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        (t, m) => {
          expect(waterTemperatureC(waterEnthalpyJ(t, m), m)).toBeCloseTo(t, 9);
        },
      ),
    );
  });

  it('stays at 0 °C from the first ice to the last water', () => {
    for (const share of [0, 0.3, 1]) expect(waterTemperatureC(waterEnthalpyJ(0, 2, share), 2)).toBe(0);
    expect(waterTemperatureC(waterEnthalpyJ(0, 2, 1) - 1, 2)).toBeLessThan(0);
  });
});

describe('a run with ballast that freezes', () => {
  it('equals the linear run as long as nothing freezes', () => {
    const { network, inner, lumps } = boxWithBottles(3);
    const air = Float64Array.from({ length: 200 }, (_, h) => 5 + 3 * Math.sin(h / 4));
    const frost = runWithFreezing(network, lumps, [air], 3600, new Float64Array(4).fill(5));
    const recursion = makeRecursion(findModes(network), inner, 3600, { accuracyK: 0 });
    const linear = new Float64Array(200);
    runLinear(recursion, [air], linear, new Float64Array(4).fill(5));
    expect(frost.events).toEqual([]);
    for (let h = 0; h < 200; h++) expect(Math.abs(frost.sampledC[inner]![h]! - linear[h]!)).toBeLessThan(1e-9);
  });

  it('holds the box near 0 °C where a linear run would let it freeze', () => {
    const { network, inner, bottles, lumps } = boxWithBottles(5);
    const air = Float64Array.from({ length: 72 }, (_, h) => (h < 12 ? 4 : -6));
    const frost = runWithFreezing(network, lumps, [air], 3600, new Float64Array(4).fill(4));
    const linear = new Float64Array(72);
    runLinear(makeRecursion(findModes(network), inner, 3600), [air], linear, new Float64Array(4).fill(4));
    expect(frost.sampledC[bottles]![71]).toBe(0);
    expect(frost.sampledC[inner]![71]!).toBeGreaterThan(linear[71]! + 1);
    expect(frost.endIceShare[0]).toBeGreaterThan(0.2);
    expect(frost.endIceShare[0]).toBeLessThan(1);
  });

  it('closes its energy balance to 1e-9 through any frosts and thaws', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -25, max: 15, noNaN: true }), { minLength: 2, maxLength: 60 }),
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        fc.double({ min: -5, max: 8, noNaN: true }),
        (airC, waterKg, startC) => {
          const { network, lumps } = boxWithBottles(waterKg);
          const run = runWithFreezing(network, lumps, [airC], 6 * 3600, new Float64Array(4).fill(startC));
          const size = waterKg * WATER.latentJkg + 6000 * 40;
          expect(Math.abs(run.storedJ - run.suppliedJ) / size).toBeLessThan(1e-9);
          for (const share of run.iceShare[0]!) {
            expect(share).toBeGreaterThanOrEqual(-1e-9);
            expect(share).toBeLessThanOrEqual(1 + 1e-9);
          }
        },
      ),
      { numRuns: 80 },
    );
  });

  it('starts from ballast already partly frozen', () => {
    const { network, lumps } = boxWithBottles(2);
    const start = Float64Array.of(-2, -1, -1, 0);
    const run = (share: number) =>
      runWithFreezing(network, lumps, [new Float64Array(400).fill(-4)], 3600, start, [share]).events.find(
        (event) => event.kind === 'frozen-through',
      )!.atS;
    expect(run(0.5)).toBeLessThan(run(0));
  });

  it('refuses a node too light for its water and inputs that are missing', () => {
    const { network, inner } = boxWithBottles(2);
    expect(() => runWithFreezing(network, [{ node: inner, waterKg: 2 }], [[0]], 3600, new Float64Array(4))).toThrow(
      /too small a capacity/,
    );
    expect(() => runWithFreezing(network, [], [], 3600, new Float64Array(4))).toThrow(/1 inputs, not 0/);
  });
});

describe('the front', () => {
  const setup = {
    shape: 'cylinder',
    depthM: 0.04,
    cells: 20,
    startC: 4,
    outsideC: -6,
    filmWm2K: 8,
    densityKgM3: 1000,
    latentJkg: 334_000,
    ice: { conductivityWmK: 2.2, specificHeatJkgK: 2097 },
    liquid: { conductivityWmK: 0.57, specificHeatJkgK: 4205 },
  } as const;

  it.each(['slab', 'cylinder', 'sphere'] as const)(
    'in a %s only grows in a steady frost, and loses what its surface gives',
    (shape) => {
      const hours = [0, 2, 6, 12, 24].map((h) => freezeFromSurface({ ...setup, shape }, h * 3600));
      for (let i = 1; i < hours.length; i++) {
        expect(hours[i]!.frontM).toBeGreaterThanOrEqual(hours[i - 1]!.frontM);
        expect(Math.abs(hours[i]!.surfaceJ - hours[i]!.lostJ)).toBeLessThan(1e-8 * Math.abs(hours[i]!.lostJ));
      }
      expect(hours[4]!.frozenShare).toBeGreaterThan(0.1);
    },
  );

  it('never comes in air that is not below freezing', () => {
    expect(plankFreezingS('cylinder', 0.08, 8, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(freezeFromSurface({ ...setup, outsideC: 0.5 }, 200_000).frontM).toBe(0);
  });

  it.each([{ depthM: 0 }, { cells: 2 }, { filmWm2K: -1 }])('refuses %j', (wrong) => {
    expect(() => freezeFromSurface({ ...setup, ...wrong }, 10)).toThrow(RangeError);
  });
});

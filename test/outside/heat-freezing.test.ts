import { describe, expect, it } from 'vitest';
import { WATER } from '../../src/heat/freezing.ts';
import { freezeFromSurface, plankFreezingS } from '../../src/heat/freezing-front.ts';
import { NetworkBuilder } from '../../src/heat/network.ts';
import { runWithFreezing } from '../support/exact-freezing.ts';
import { solveAdaptively } from './adaptive-solver.ts';

const ice = { conductivityWmK: 2.22, specificHeatJkgK: 2050 };
const liquid = { conductivityWmK: 0.57, specificHeatJkgK: 4200 };
const L = 334_000;

/** Error function to 1e-12 by its series (Abramowitz and Stegun 7.1.5), enough for arguments under 2. */
function erf(x: number): number {
  let sum = x;
  let term = x;
  for (let n = 1; n < 60; n++) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

function root(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 100; i++) {
    const m = (a + b) / 2;
    if (f(m) > 0 === f(b) > 0) b = m;
    else a = m;
  }
  return (a + b) / 2;
}

describe('one-phase Stefan problem (Carslaw and Jaeger, chapter 11)', () => {
  const lambda = (stefan: number) => root((x) => Math.sqrt(Math.PI) * x * Math.exp(x * x) * erf(x) - stefan, 1e-6, 1.5);

  it.each([
    [0.01, 0.07059],
    [0.05, 0.15682],
    [0.1, 0.22002],
    [0.2, 0.30642],
    [0.5, 0.46479],
    [1.0, 0.62006],
  ])('root for Stefan number %d is %d', (stefan, value) => {
    expect(lambda(stefan)).toBeCloseTo(value, 5);
  });

  // Ice on water at 0 °C after 24 h; closed form, mm.
  it.each([
    [-1, 35.36],
    [-5, 78.74],
    [-10, 110.8],
  ])('ice under a surface at %d °C grows to %d mm within one cell of 1 mm', (surfaceC, mm) => {
    const exact = 2000 * lambda((2050 * -surfaceC) / L) * Math.sqrt((2.22 / (917 * 2050)) * 86_400);
    expect(exact).toBeCloseTo(mm, 1);
    const depthM = (Math.ceil(mm) + 5) / 1000;
    const front = freezeFromSurface(
      {
        shape: 'slab',
        depthM,
        cells: Math.round(depthM * 1000),
        startC: 0,
        outsideC: surfaceC,
        filmWm2K: Number.POSITIVE_INFINITY,
        densityKgM3: 917,
        latentJkg: L,
        ice,
        liquid,
      },
      86_400,
    );
    expect(Math.abs(front.frontM * 1000 - exact)).toBeLessThan(1);
    // The quasi-steady front sqrt(2 k ΔT t / ρL) bounds it from above.
    expect(front.frontM).toBeLessThan(Math.sqrt((2 * 2.22 * -surfaceC * 86_400) / (917 * L)));
    expect(front.surfaceJ / front.lostJ).toBeCloseTo(1, 9);
  });
});

describe('two-phase Neumann problem, water at 5 °C, equal densities', () => {
  // λ and the front after 1 h computed from Neumann's transcendental equation apart from this code.
  it.each([
    [-10, 0.16401, 20.48],
    [-5, 0.11489, 14.35],
  ])('surface at %d °C: λ %d, %d mm after 1 h within one cell of 0.5 mm', (surfaceC, lambda, mm) => {
    const [ai, al] = [2.22 / (1000 * 2050), 0.57 / (1000 * 4200)];
    const nu = Math.sqrt(ai / al);
    const balance = (x: number) =>
      Math.exp(-x * x) / erf(x) -
      ((liquid.conductivityWmK * Math.sqrt(ai) * 5) / (ice.conductivityWmK * Math.sqrt(al) * -surfaceC)) *
        (Math.exp(-nu * nu * x * x) / (1 - erf(nu * x))) -
      (x * L * Math.sqrt(Math.PI)) / (2050 * -surfaceC);
    expect(root(balance, 1e-4, 0.5)).toBeCloseTo(lambda, 4);
    const at = (spanS: number) =>
      freezeFromSurface(
        {
          shape: 'slab',
          depthM: 0.08,
          cells: 160,
          startC: 5,
          outsideC: surfaceC,
          filmWm2K: Number.POSITIVE_INFINITY,
          densityKgM3: 1000,
          latentJkg: L,
          ice,
          liquid,
        },
        spanS,
      ).frontM * 1000;
    expect(Math.abs(at(3600) - mm)).toBeLessThan(0.5);
    // The front goes as the root of time.
    expect(at(3600) / at(900)).toBeCloseTo(2, 1);
  });
});

describe("Plank's freezing time", () => {
  it('sphere of 7 cm (Singh and Heldman, from memory): 0.72 h', () => {
    const food = { densityKgM3: 1000, latentJkg: 250_000, frozenWmK: 1.2, freezingC: -1.25 };
    expect(plankFreezingS('sphere', 0.07, 50, -40, food)).toBeCloseTo(2603, 0);
  });

  it('bottle of 80 mm in air at -5 °C, film 8 W/(m2 K): 49.7 h, and the enthalpy grid agrees within 5 %', () => {
    const plankH = plankFreezingS('cylinder', 0.08, 8, -5) / 3600;
    expect(Math.abs(plankH - 49.7)).toBeLessThan(0.1);
    // Plank takes ice without heat capacity, which makes it a little quick.
    const grid = (spanH: number) =>
      freezeFromSurface(
        {
          shape: 'cylinder',
          depthM: 0.04,
          cells: 20,
          startC: 0,
          outsideC: -5,
          filmWm2K: 8,
          densityKgM3: 1000,
          latentJkg: L,
          ice: { conductivityWmK: 2.2, specificHeatJkgK: 2097 },
          liquid,
        },
        spanH * 3600,
      ).frozenShare;
    expect(grid(plankH * 0.95)).toBeLessThan(1);
    expect(grid(plankH * 1.05)).toBe(1);
  });
});

describe('ballast as a lump', () => {
  function bottle(waterKg: number, lossWK: number) {
    const builder = new NetworkBuilder();
    const node = builder.node('bottles', waterKg * WATER.liquidJkgK);
    builder.boundary(builder.input('air'), node, lossWK);
    return { network: builder.build(), lumps: [{ node, waterKg }] };
  }

  it('2 kg behind 0.5 W/K in air at -5 °C holds 0 °C for mL/(UA ΔT) = 74.2 h, and its enthalpy loss is mL', () => {
    const { network, lumps } = bottle(2, 0.5);
    const run = runWithFreezing(network, lumps, [new Float64Array(101).fill(-5)], 3600, Float64Array.of(0));
    const frozen = run.events.find((event) => event.kind === 'frozen-through')!;
    expect(frozen.atS).toBeCloseTo((2 * L) / (0.5 * 5), 3);
    expect(frozen.atS / 3600).toBeCloseTo(74.2, 1);
    const at74 = runWithFreezing(network, lumps, [Float64Array.of(-5, -5)], frozen.atS, Float64Array.of(0));
    expect(-at74.storedJ / (2 * L)).toBeCloseTo(1, 9);
    expect(at74.suppliedJ / at74.storedJ).toBeCloseTo(1, 9);
  });

  it('a box with two lots of bottles follows an adaptive solver with a narrow melting range within 0.05 K', () => {
    // The solver needs a smooth law, so the latent heat is given over 0.02 K below zero there.
    const builder = new NetworkBuilder();
    const air = builder.input('air');
    const heat = builder.input('animal');
    const inner = builder.node('inner', 9000);
    const near = builder.node('near bottles', 1 * WATER.liquidJkgK);
    const far = builder.node('far bottles', 0.6 * WATER.liquidJkgK);
    builder.boundary(air, far, 0.4);
    builder.boundary(air, inner, 0.1);
    builder.link(inner, near, 0.6);
    builder.link(near, far, 0.3);
    builder.source(heat, inner);
    const network = builder.build();
    const lumps = [
      { node: near, waterKg: 1 },
      { node: far, waterKg: 0.6 },
    ];
    const hours = 240;
    const airC = Float64Array.from(
      { length: hours + 1 },
      (_, h) => 1 - 7 * Math.sin((2 * Math.PI * h) / 160) + 3 * Math.sin((2 * Math.PI * h) / 24),
    );
    const run = runWithFreezing(network, lumps, [airC, [0.02]], 3600, Float64Array.of(4, 4, 4));
    expect(new Set(run.events.map((event) => event.kind)).size).toBeGreaterThanOrEqual(3);
    expect(Math.abs(run.suppliedJ - run.storedJ)).toBeLessThan(1e-9 * 3e6);

    const width = 0.02;
    const waterC = (h: number, kg: number) => {
      const latent = kg * L + kg * WATER.iceJkgK * width;
      if (h >= 0) return h / (kg * WATER.liquidJkgK);
      if (h >= -latent) return (h / latent) * width;
      return (h + latent) / (kg * WATER.iceJkgK) - width;
    };
    let y = [4 * 9000, 4 * WATER.liquidJkgK, 4 * 0.6 * WATER.liquidJkgK].map((j) => j / 1000);
    let worst = 0;
    for (let h = 0; h < hours; h++) {
      y = solveAdaptively(
        (t, kj) => {
          const a = airC[h]! + (t - h) * (airC[h + 1]! - airC[h]!);
          const [ti, tn, tf] = [kj[0]! / 9, waterC(kj[1]! * 1000, 1), waterC(kj[2]! * 1000, 0.6)];
          return [
            0.1 * (a - ti) + 0.6 * (tn - ti) + 0.02,
            0.6 * (ti - tn) + 0.3 * (tf - tn),
            0.4 * (a - tf) + 0.3 * (tn - tf),
          ].map((w) => w * 3.6);
        },
        h,
        y,
        h + 1,
        1e-7,
      );
      worst = Math.max(worst, Math.abs(y[0]! / 9 - run.sampledC[inner]![h + 1]!));
    }
    expect(worst).toBeLessThan(0.05);
  });
});

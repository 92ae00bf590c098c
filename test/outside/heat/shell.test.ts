import { describe, expect, it } from 'vitest';
import { buildBox } from '../../../src/heat/box.ts';
import type { BoxDescription } from '../../../src/heat/description.ts';
import { type ExactCase, simulateExact } from '../../../src/heat/exact.ts';
import { findModes, sineResponse } from '../../../src/heat/modes.ts';
import { makeRecursion, run } from '../../../src/heat/run.ts';
import { layer } from './layers.ts';
import { byOdex } from './odex.ts';

const step = (hours: number): ExactCase['outside'] => ({ stepS: 3600, temperatureC: new Array(hours + 1).fill(1) });
const fishBox: ExactCase = {
  shell: {
    areaM2: 0.8,
    layers: [layer(30, 0.035, 20, 1450)],
    outsideResistanceM2KW: 0.13,
    insideResistanceM2KW: 0.13,
  },
  contents: [{ massKg: 5, specificHeatJkgK: 4190 }],
  heatW: 0,
  outside: step(48),
  initialC: 0,
};
const woodenBox: ExactCase = {
  ...fishBox,
  shell: {
    areaM2: 1.5,
    layers: [layer(18, 0.13, 500, 1600), layer(100, 0.042, 45, 1600), layer(12, 0.13, 500, 1600)],
    outsideResistanceM2KW: 0.13,
    insideResistanceM2KW: 0.13,
  },
  contents: [
    { massKg: 2, specificHeatJkgK: 3470 },
    { massKg: 3, specificHeatJkgK: 4190 },
  ],
};

describe('shell around well-mixed contents (transfer matrix and 300-cell modes, derived)', () => {
  it.each([
    ['polystyrene', fishBox, [0.10886, 0.30158, 0.51541, 0.76672, 0.94594, 0.9971], 8.2075, 0.42192, 4.39],
    ['wood, paper, wood', woodenBox, [0.00133, 0.0568, 0.18678, 0.40399, 0.68006, 0.90781], 19.2885, 0.18745, 7.225],
  ])('%s: step response, slowest time constant and daily response', (_n, exact, steps, slowest, share, lag) => {
    const result = simulateExact(exact);
    [1, 3, 6, 12, 24, 48].forEach((hour, i) => {
      expect(Math.abs(result.insideC[hour]! - steps[i]!), `hour ${hour}`).toBeLessThan(2e-4);
    });
    expect(result.timeConstantsH[0]!).toBeCloseTo(slowest, 2);
    expect(1 / result.dampingOneIn).toBeCloseTo(share, 4);
    expect(result.lagH).toBeCloseTo(lag, 2);
  });
  it('closes its energy balance to 1e-9 and warms by heat over the hand U-value', () => {
    const days = 40;
    const temperatureC = Array.from({ length: days * 24 + 1 }, (_, k) => 4 + 5 * Math.sin(k / 3.8) - (k % 90) / 20);
    const result = simulateExact({ ...woodenBox, heatW: 0.4, outside: { stepS: 3600, temperatureC }, initialC: 9 });
    expect(Math.abs(result.energy.closure)).toBeLessThan(1e-9);
    const u = 1 / (0.26 + 0.018 / 0.13 + 0.1 / 0.042 + 0.012 / 0.13);
    expect(result.heatingK).toBeCloseTo(0.4 / (u * 1.5), 9);
    expect(result.transmittanceWm2K).toBeCloseTo(u, 12);
  });
  it('a lumped box alone has 1/sqrt(1 + (ωτ)²) and atan(ωτ)/ω', () => {
    for (const [tau, share, lag] of [
      [5, 0.6071, 3.508],
      [10, 0.3568, 4.606],
      [20, 0.1876, 5.279],
    ] as const) {
      const lumped = simulateExact({
        ...fishBox,
        shell: { areaM2: 1, layers: [], outsideResistanceM2KW: 0.5, insideResistanceM2KW: 0.5 },
        contents: [{ massKg: 1, specificHeatJkgK: tau * 3600 }],
      });
      expect(1 / lumped.dampingOneIn).toBeCloseTo(share, 4);
      expect(lumped.lagH).toBeCloseTo(lag, 3);
    }
  });
});

describe('trajectory of a whole box against an adaptive ODE solver (odex)', () => {
  const box: BoxDescription = {
    shells: [
      {
        insideLengthMm: 600,
        insideWidthMm: 450,
        insideHeightMm: 400,
        walls: [{ material: 'polystyrene', thicknessMm: 40 }],
        fill: 'shredded-paper',
        holes: { count: 8, diameterMm: 8 },
      },
      {
        insideLengthMm: 350,
        insideWidthMm: 250,
        insideHeightMm: 200,
        walls: [{ material: 'plywood', thicknessMm: 9 }],
        holes: { count: 8, diameterMm: 8 },
      },
    ],
    bedding: { material: 'potting-soil', depthMm: 100 },
    ballast: [{ bottles: 6, litresEach: 1 }],
    animal: { massG: 1000 },
  };
  const model = buildBox(box);
  const modes = findModes(model.network);
  const n = 24 * 14 + 1;
  const air = Float64Array.from(
    { length: n },
    (_, k) => 4 + 4 * Math.sin((2 * Math.PI * k) / 24) + 3 * Math.sin(k / 31),
  );
  const floor = Float64Array.from({ length: n }, (_, k) => 6 + Math.sin((2 * Math.PI * (k - 4)) / 24));
  const heatW = 0.01;

  it('agrees within 0.01 K over a fortnight, with only the modes that matter', () => {
    const recursion = makeRecursion(modes, model.nodes.animal, 3600);
    expect(recursion.poles.length).toBeLessThan(modes.rates.length);
    const out = new Float64Array(n);
    const inputs = [air, floor, Float64Array.of(heatW)];
    run(recursion, inputs, out, new Float64Array(modes.nodeCount).fill(5));
    const other = byOdex(model.network, inputs, 3600, model.nodes.animal, 5, { samples: n });
    let worst = 0;
    for (let k = 0; k < n; k++) worst = Math.max(worst, Math.abs(out[k]! - other[k]!));
    expect(worst).toBeLessThan(0.01);
  });
  it('holds a day as its sine response says', () => {
    const { share } = sineResponse(modes, model.nodes.animal, model.inputs.placeAir, 86_400);
    expect(share).toBeGreaterThan(0);
    expect(share).toBeLessThan(0.2);
  });
});

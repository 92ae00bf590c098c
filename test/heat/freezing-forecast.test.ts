import { describe, expect, it } from 'vitest';
import { buildBox } from '../../src/heat/box.ts';
import type { BoxDescription } from '../../src/heat/description.ts';
import { forecastBox, forecastPlace } from '../../src/heat/forecast.ts';
import { runWithFreezing, WATER } from '../../src/heat/freezing.ts';
import { boxWithFreezing, frostRunner } from '../../src/heat/freezing-forecast.ts';
import { findModes } from '../../src/heat/modes.ts';
import { prepareWinters } from '../../src/heat/place-weather.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';

const box = (bottles: number): BoxDescription => ({
  shells: [
    {
      insideLengthMm: 500,
      insideWidthMm: 400,
      insideHeightMm: 350,
      walls: [{ material: 'polystyrene', thicknessMm: 30 }],
    },
  ],
  bedding: { material: 'shredded-paper', depthMm: 120 },
  ballast: [{ bottles, litresEach: 1.5 }],
  animal: { massG: 900 },
  stands: 'raised',
});
const hours = 900;
const airC = Float64Array.from({ length: hours }, (_, h) => {
  const frost = (h > 200 && h < 320) || (h > 600 && h < 650) ? -9 : 0;
  return 4 + 2 * Math.sin((h * Math.PI) / 12) + frost;
});

describe('a forecast through a frost', () => {
  const model = buildBox(box(4));
  const modes = findModes(model.network);
  const inputs = [airC, airC, Float64Array.of(0.009)];
  const { animal } = model.nodes;
  const linear = new Float64Array(hours);
  run(makeRecursion(modes, animal, 3600, { accuracyK: 0.0005 }), inputs, linear, 'settled');

  it('equals the enthalpy-aware run from beginning to end, and the linear run up to the frost', () => {
    const [joined] = boxWithFreezing(frostRunner(model, modes), inputs, 3600, [animal])!;
    const start = Float64Array.from({ length: modes.nodeCount }, (_, node) => {
      const one = new Float64Array(1);
      run(
        makeRecursion(modes, node, 3600, { accuracyK: 0 }),
        inputs.map((input) => input.subarray(0, 1)),
        one,
        'settled',
      );
      return one[0]!;
    });
    const lumps = model.nodes.ballast.map((node) => ({
      node,
      waterKg: model.network.nodes[node]!.capacityJK / WATER.liquidJkgK,
    }));
    const whole = runWithFreezing(model.network, lumps, inputs, 3600, start);
    for (let h = 0; h < hours; h++) expect(Math.abs(joined![h]! - whole.sampledC[animal]![h]!)).toBeLessThan(0.005);
    for (let h = 0; h < 200; h++) expect(Math.abs(joined![h]! - linear[h]!)).toBeLessThan(0.002);
  });

  it('holds the animal warmer in the frost and colder in the thaw than a run that knows no ice', () => {
    const [joined] = boxWithFreezing(frostRunner(model, modes), inputs, 3600, [animal])!;
    expect(Math.min(...joined!)).toBeGreaterThan(Math.min(...linear) + 0.5);
    expect(joined![345]!).toBeLessThan(linear[345]! - 0.5);
  });

  it('is not asked for when nothing freezes', () => {
    const mild = airC.map((value) => Math.max(value, 1));
    expect(
      boxWithFreezing(frostRunner(model, modes), [mild, mild, Float64Array.of(0)], 3600, [animal]),
    ).toBeUndefined();
    const dry = buildBox({ ...box(4), ballast: [] });
    expect(boxWithFreezing(frostRunner(dry, findModes(dry.network)), inputs, 3600, [dry.nodes.animal])).toBeUndefined();
  });

  it('enters the forecast of a box over the winters', () => {
    const site = { zone: 'UTC', latitudeDeg: 52, longitudeDeg: 0 };
    const series = { startMs: Date.UTC(2025, 10, 1), stepS: 3600, airTempC: airC };
    const winter = { label: '2025-26', origin: 'recorded', fromDay: '2025-11-01', series, missingShare: 0 } as const;
    const place = forecastPlace({ kind: 'readings' }, prepareWinters(site, [winter]));
    const { winters } = forecastBox({ place, box: box(4), heatW: 0.009 });
    const [joined] = boxWithFreezing(frostRunner(model, modes), inputs, 3600, [animal])!;
    expect(winters[0]!.answer.coldestC).toBeCloseTo(Math.min(...joined!), 2);
  });
});

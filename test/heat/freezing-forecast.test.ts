import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerOverWinters } from '../../src/heat/answer.ts';
import { buildBox } from '../../src/heat/box.ts';
import { BuildScorer } from '../../src/heat/build-search.ts';
import type { BoxDescription } from '../../src/heat/description.ts';
import { answersOfBuild, forecastBox, forecastPlace, sleepStretches } from '../../src/heat/forecast.ts';
import { WATER } from '../../src/heat/freezing.ts';
import { BoxFrost } from '../../src/heat/freezing-forecast.ts';
import { FrostRun } from '../../src/heat/frost-run.ts';
import { findModes } from '../../src/heat/modes.ts';
import { prepareWinters } from '../../src/heat/place-weather.ts';
import { answerRange } from '../../src/heat/range.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';
import { runWithFreezing } from '../support/exact-freezing.ts';

const box = (bottles: readonly number[], wallMm = 30): BoxDescription => ({
  shells: [
    {
      insideLengthMm: 500,
      insideWidthMm: 400,
      insideHeightMm: 350,
      walls: [{ material: 'polystyrene', thicknessMm: wallMm }],
    },
  ],
  bedding: { material: 'shredded-paper', depthMm: 120 },
  ballast: bottles.map((count) => ({ bottles: count, litresEach: 1.5 })),
  animal: { massG: 900 },
  stands: 'raised',
});
const HEAT_W = 0.009;
const hours = 900;
const airC = Float64Array.from({ length: hours }, (_, h) => {
  const frost = (h > 200 && h < 320) || (h > 600 && h < 650) ? -9 : 0;
  return 4 + 2 * Math.sin((h * Math.PI) / 12) + frost;
});

/** The box's animal and bottles by the plain way, from rest. */
function plainly(described: BoxDescription, airC: Float64Array, floorC: Float64Array) {
  const model = buildBox(described);
  const modes = findModes(model.network);
  const lumps = model.nodes.ballast.map((node) => ({
    node,
    waterKg: model.network.nodes[node]!.capacityJK / WATER.liquidJkgK,
  }));
  const inputs = [airC, floorC, Float64Array.of(HEAT_W)];
  const start = Float64Array.from({ length: modes.nodeCount }, (_, node) => {
    const one = new Float64Array(1);
    const first = inputs.map((input) => input.subarray(0, 1));
    run(makeRecursion(modes, node, 3600, { accuracyK: 0 }), first, one, 'settled');
    return one[0]!;
  });
  const { sampledC, events } = runWithFreezing(model.network, lumps, inputs, 3600, start);
  return { model, modes, lumps, sampledC, events, animal: sampledC[model.nodes.animal]! };
}

function linearly(described: BoxDescription, airC: Float64Array): Float64Array {
  const model = buildBox(described);
  const out = new Float64Array(airC.length);
  const recursion = makeRecursion(findModes(model.network), model.nodes.animal, 3600, { accuracyK: 0.0005 });
  run(recursion, [airC, airC, Float64Array.of(HEAT_W)], out, 'settled');
  return out;
}

const site = { zone: 'UTC', latitudeDeg: 52, longitudeDeg: 0 };
const prepared = (...courses: readonly Float64Array[]) =>
  prepareWinters(
    site,
    courses.map((airTempC, i) => ({
      label: String(i),
      origin: 'recorded' as const,
      fromDay: '2025-11-01' as const,
      series: { startMs: Date.UTC(2025, 10, 1), stepS: 3600, airTempC },
      missingShare: 0,
    })),
  );

describe('the quick run through a frost', () => {
  it('is the plain one within a thousandth of a kelvin, in any weather and with any bottles', () => {
    let frosts = 0;
    fc.assert(
      fc.property(
        fc.record({
          meanC: fc.double({ min: -6, max: 4, noNaN: true }),
          dayK: fc.double({ min: 0, max: 6, noNaN: true }),
          slowK: fc.double({ min: 0, max: 7, noNaN: true }),
          slowH: fc.integer({ min: 20, max: 120 }),
          floorC: fc.double({ min: -2, max: 8, noNaN: true }),
          bottles: fc.array(fc.constantFrom(0.5, 1, 3, 6), { minLength: 1, maxLength: 2 }),
          wallMm: fc.integer({ min: 10, max: 100 }),
        }),
        ({ meanC, dayK, slowK, slowH, floorC, bottles, wallMm }) => {
          const air = Float64Array.from(
            { length: 500 },
            (_, h) => meanC + dayK * Math.sin((h * Math.PI) / 12) + slowK * Math.sin(h / slowH),
          );
          const floor = air.map((value) => (value + floorC) / 2);
          const { model, modes, lumps, sampledC, events } = plainly(box(bottles, wallMm), air, floor);
          frosts += events.length;
          for (const [accuracyK, within, ofBottle] of [
            [0, 0.001, 0.004],
            [0.02, 0.01, 0.1],
          ] as const) {
            const wanted = [model.nodes.animal, model.nodes.ballast[0]!];
            const setup = { network: model.network, inputs: ['first', 'second', HEAT_W] as const, lumps, wanted };
            const out = wanted.map(() => new Float64Array(500));
            new FrostRun({ ...setup, stepS: 3600, accuracyK }, modes).run(air, floor, 0, 499, out);
            // The animal lies behind its bedding; a bottle follows its neighbours more closely than the accuracy asked for keeps them.
            for (let h = 0; h < 500; h++) {
              expect(Math.abs(out[0]![h]! - sampledC[wanted[0]!]![h]!)).toBeLessThan(within);
              expect(Math.abs(out[1]![h]! - sampledC[wanted[1]!]![h]!)).toBeLessThan(ofBottle);
            }
            // One temperature wanted of one bottle is run by a loop written out for it: the same numbers.
            const alone = new Float64Array(500);
            const one = new FrostRun({ ...setup, wanted: [wanted[0]!], stepS: 3600, accuracyK }, modes);
            const froze = one.run(air, floor, 0, 499, [alone]);
            if (events.length > 0) expect(froze).toBe(true);
            for (let h = 0; h < 500; h++)
              expect(Math.abs(alone[h]! - out[0]![h]!)).toBeLessThan(accuracyK === 0 ? 1e-9 : within);
          }
        },
      ),
      { numRuns: 40 },
    );
    expect(frosts).toBeGreaterThan(50);
  });
});

describe('the frosts of a box', () => {
  const described = box([4]);
  const plain = plainly(described, airC, airC);
  const linear = linearly(described, airC);
  const { model, modes, animal } = plain;
  const frostOf = (course: Float64Array, from = 0) => {
    const out = linear.slice();
    const frost = new BoxFrost(model, modes, HEAT_W, [model.nodes.animal]);
    return { found: frost.run(course, course, 3600, from, hours - 1, [out]), out };
  };

  it('are the plain run from beginning to end, and the linear run up to the first', () => {
    const { found, out } = frostOf(airC);
    expect(found).toBe(true);
    for (let h = 0; h < hours; h++) expect(Math.abs(out[h]! - animal[h]!)).toBeLessThan(0.005);
    for (let h = 0; h < 200; h++) expect(Math.abs(out[h]! - linear[h]!)).toBeLessThan(0.003);
  });

  it('are remembered when only what follows is asked for: ice of an earlier frost is still there', () => {
    const { out } = frostOf(airC, 330);
    for (let h = 330; h < hours; h++) expect(Math.abs(out[h]! - animal[h]!)).toBeLessThan(0.005);
    expect(out[345]!).toBeLessThan(linear[345]! - 0.5);
  });

  it('hold the animal warmer in the frost than a run that knows no ice', () => {
    expect(Math.min(...frostOf(airC).out)).toBeGreaterThan(Math.min(...linear) + 0.5);
  });

  it('leave alone what never freezes, and a box without bottles', () => {
    const mild = airC.map((value) => Math.max(value, 1));
    expect(frostOf(mild)).toEqual({ found: false, out: linear });
    const dry = buildBox(box([]));
    const frost = new BoxFrost(dry, findModes(dry.network), HEAT_W, [dry.nodes.animal]);
    expect(frost.run(airC, airC, 3600, 0, hours - 1, [new Float64Array(hours)])).toBe(false);
  });

  it('find none where the surroundings dip under 0 °C and the bottles do not', () => {
    const night = airC.map((_, h) => 5 - (h > 300 && h < 304 ? 6 : 0));
    expect(frostOf(night).found).toBe(false);
  });
});

describe('ice counts', () => {
  const described = box([4]);
  const mild = airC.map((value) => Math.max(value, 1));
  const weather = prepared(airC, mild);
  const place = forecastPlace({ kind: 'readings' }, weather);
  const sleep = { from: '11-08', days: 28 };
  const drawn = forecastBox({ place, box: described, sleep, heatW: HEAT_W });

  it('in the drawn forecast', () => {
    const plain = plainly(described, airC, airC).animal;
    const [from, to] = [7 * 24, 35 * 24];
    expect(drawn.winters[0]!.answer.coldestC).toBeCloseTo(Math.min(...plain.subarray(from, to + 1)), 2);
  });

  it('in answers over winters and in the score of a search, which agree with the drawing in frost and without', () => {
    const answers = answersOfBuild(sleepStretches(place, sleep), described);
    answers.forEach((answer, i) => {
      expect(answer.coldestC).toBeCloseTo(drawn.winters[i]!.answer.coldestC, 2);
      expect(answer.steadiness).toBeCloseTo(drawn.winters[i]!.answer.steadiness, 2);
    });
    const later = { from: '11-15', days: 20 };
    const scores = new BuildScorer(place).scores(described, [sleep, later]);
    [sleep, later].forEach((one, i) => {
      const full = forecastBox({ place, box: described, sleep: one }).winters.map(({ answer }) => answer);
      const hoursIn = full.reduce((sum, answer) => sum + answer.hours, 0);
      const inBand = full.reduce((sum, answer) => sum + answer.inBandHours, 0);
      expect(Math.abs(scores[i]!.inBandShare - inBand / hoursIn)).toBeLessThan(0.004);
      expect(Math.abs(scores[i]!.lowestC - Math.min(...full.map((answer) => answer.coldestC)))).toBeLessThan(0.03);
    });
    const linear = linearly(described, airC);
    expect(scores[0]!.lowestC).toBeGreaterThan(Math.min(...linear) + 0.5);
  });

  it('in how far an answer may lie off', () => {
    const range = answerRange({ kind: 'readings' }, { ...described, tuning: { lossFactor: 1 } }, weather, sleep);
    expect(range.coldestC[0]).toBe(range.coldestC[1]);
    expect(range.coldestC[0]).toBeCloseTo(answerOverWinters(drawn.winters.map((one) => one.answer)).coldestC.median, 1);
  });
});

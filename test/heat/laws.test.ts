import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildBox } from '../../src/heat/box.ts';
import { boxCriterion } from '../../src/heat/cells.ts';
import { checkBox } from '../../src/heat/check.ts';
import type { BoxDescription, FillId } from '../../src/heat/description.ts';
import { energyBalance } from '../../src/heat/energy.ts';
import { findModes, sineResponse, steadyGain } from '../../src/heat/modes.ts';
import { NetworkBuilder } from '../../src/heat/network.ts';
import { periodicBehaviour } from '../../src/heat/periodic.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';

const DAY = 86_400;
const runs = { numRuns: 60 };

/** Boxes a keeper could make: one or two shells, with or without bedding, bottles and animal. */
const boxes = fc
  .record({
    wallMm: fc.integer({ min: 10, max: 80 }),
    length: fc.integer({ min: 300, max: 700 }),
    width: fc.integer({ min: 250, max: 500 }),
    height: fc.integer({ min: 200, max: 450 }),
    nested: fc.boolean(),
    fill: fc.constantFrom<FillId>('air', 'shredded-paper', 'straw'),
    bottles: fc.integer({ min: 0, max: 6 }),
    bedding: fc.integer({ min: 0, max: 90 }),
    massG: fc.integer({ min: 0, max: 2000 }),
    raised: fc.boolean(),
  })
  .map((b): BoxDescription => {
    const inner = {
      insideLengthMm: b.length,
      insideWidthMm: b.width,
      insideHeightMm: b.height,
      walls: [{ material: 'plywood' as const, thicknessMm: 9 }],
    };
    const wall = [{ material: 'polystyrene' as const, thicknessMm: b.wallMm }];
    const outer = {
      insideLengthMm: b.length + 200,
      insideWidthMm: b.width + 200,
      insideHeightMm: b.height + 200,
      walls: wall,
      fill: b.fill,
      holes: { count: 8, diameterMm: 8 },
    };
    return {
      shells: b.nested ? [outer, inner] : [{ ...inner, walls: wall }],
      ...(b.bedding > 20 ? { bedding: { material: 'shredded-paper' as const, depthMm: b.bedding } } : {}),
      ...(b.bottles > 0 ? { ballast: [{ bottles: b.bottles, litresEach: 1.5 }] } : {}),
      ...(b.massG > 100 ? { animal: { massG: b.massG } } : {}),
      stands: b.raised ? 'raised' : 'floor',
    };
  })
  .filter((box) => checkBox(box).length === 0);

const swing = (box: BoxDescription) => {
  const model = buildBox(box);
  const modes = findModes(model.network);
  const part = (input: number) => {
    const { share, lagS } = sineResponse(modes, model.nodes.animal, input, DAY);
    const a = (2 * Math.PI * lagS) / DAY;
    return [share * Math.cos(a), share * Math.sin(a)] as const;
  };
  const [ar, ai] = part(model.inputs.placeAir);
  const [fr, fi] = part(model.inputs.floor);
  return { share: Math.hypot(ar + fr, ai + fi), slowest: 1 / modes.rates[0]!, model, modes };
};
const thicker = (box: BoxDescription, mm: number): BoxDescription => ({
  ...box,
  shells: box.shells.map((shell, k) =>
    k === 0 ? { ...shell, walls: [{ material: 'polystyrene', thicknessMm: shell.walls[0]!.thicknessMm + mm }] } : shell,
  ),
});

describe('laws of a box', () => {
  it('more insulation never widens the daily swing', () => {
    fc.assert(
      fc.property(boxes, fc.integer({ min: 5, max: 60 }), (box, mm) => {
        // The cells may be off by 1 % each way.
        expect(swing(thicker(box, mm)).share).toBeLessThanOrEqual(
          swing(box).share * (1 + 2 * boxCriterion.transmittance),
        );
      }),
      runs,
    );
  });
  it('more ballast never shortens the slowest time constant', () => {
    fc.assert(
      fc.property(boxes, fc.integer({ min: 1, max: 3 }), (box, more) => {
        const before = box.ballast?.[0]?.bottles ?? 0;
        // From one bottle up: an empty place has no node for the first.
        const few = { ...box, ballast: [{ bottles: Math.max(before, 1), litresEach: 1.5 }] };
        const many = { ...box, ballast: [{ bottles: Math.max(before, 1) + more, litresEach: 1.5 }] };
        fc.pre(checkBox(few).length === 0 && checkBox(many).length === 0);
        expect(swing(many).slowest).toBeGreaterThanOrEqual(swing(few).slowest * (1 - 1e-9));
      }),
      runs,
    );
  });
  it('a warmer winter never lowers the box', () => {
    const n = 24 * 20;
    fc.assert(
      fc.property(
        boxes,
        fc.integer({ min: 0, max: n - 48 }),
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        (box, from, warmth) => {
          const { model, modes } = swing(box);
          const cold = Float64Array.from({ length: n }, (_, k) => 5 + 4 * Math.sin(k / 4) + 3 * Math.sin(k / 50));
          const mild = cold.map((t, k) => (k >= from && k < from + 48 ? t + warmth : t));
          const [a, b] = [new Float64Array(n), new Float64Array(n)];
          const heat = Float64Array.of(0.01);
          // With every mode the law is exact; with few it holds to the accuracy asked.
          for (const [accuracyK, slack] of [
            [0, 1e-9],
            [0.002, 0.002],
          ] as const) {
            const recursion = makeRecursion(modes, model.nodes.animal, 3600, { accuracyK });
            run(recursion, [cold, cold, heat], a, 'settled');
            run(recursion, [mild, mild, heat], b, 'settled');
            let worst = Number.POSITIVE_INFINITY;
            for (let k = 0; k < n; k++) worst = Math.min(worst, b[k]! - a[k]!);
            expect(worst).toBeGreaterThanOrEqual(-slack);
          }
        },
      ),
      runs,
    );
  });
  it('comes to the temperature of its place in the end, and no further', () => {
    fc.assert(
      fc.property(boxes, (box) => {
        const { model, modes } = swing(box);
        for (let node = 0; node < modes.nodeCount; node++) {
          const total = steadyGain(modes, node, model.inputs.placeAir) + steadyGain(modes, node, model.inputs.floor);
          expect(total).toBeCloseTo(1, 7);
        }
      }),
      runs,
    );
  });
  it('closes the energy balance of any run to 1e-9', () => {
    fc.assert(
      fc.property(boxes, (box) => {
        const { modes } = swing(box);
        const n = 24 * 30;
        const air = Float64Array.from({ length: n }, (_, k) => 3 + 5 * Math.sin(k / 3) + ((k * 37) % 11) / 3);
        const start = new Float64Array(modes.nodeCount).fill(8);
        const balance = energyBalance(modes, [air, Float64Array.of(6), Float64Array.of(0.02)], 3600, start);
        expect(Math.abs(balance.closure)).toBeLessThan(1e-9);
      }),
      { numRuns: 25 },
    );
  });
  it('dropping modes costs no more than the accuracy asked', () => {
    fc.assert(
      fc.property(boxes, fc.constantFrom(0.002, 0.01, 0.05), (box, accuracyK) => {
        const { model, modes } = swing(box);
        const n = 24 * 20;
        // No faster than the 6 K/h the accuracy is promised for.
        const air = Float64Array.from(
          { length: n },
          (_, k) => 4 + 5 * Math.sin((2 * Math.PI * k) / 12) + 2 * Math.sin(k / 40),
        );
        const [all, few] = [new Float64Array(n), new Float64Array(n)];
        const inputs = [air, air, Float64Array.of(0.01)];
        run(makeRecursion(modes, model.nodes.animal, 3600, { accuracyK: 0 }), inputs, all, 'settled');
        run(makeRecursion(modes, model.nodes.animal, 3600, { accuracyK }), inputs, few, 'settled');
        let worst = 0;
        for (let k = 24; k < n; k++) worst = Math.max(worst, Math.abs(all[k]! - few[k]!));
        expect(worst).toBeLessThan(accuracyK);
      }),
      runs,
    );
  });
});

describe('laws of walls and networks', () => {
  const solid = fc.record({
    thicknessM: fc.double({ min: 0.005, max: 0.2, noNaN: true }),
    conductivityWmK: fc.double({ min: 0.03, max: 2, noNaN: true }),
    densityKgM3: fc.double({ min: 15, max: 2400, noNaN: true }),
    specificHeatJkgK: fc.double({ min: 700, max: 2100, noNaN: true }),
  });
  it('splitting a layer changes nothing', () => {
    fc.assert(
      fc.property(solid, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (one, share) => {
        const films = { outsideM2KW: 0.04, insideM2KW: 0.13 };
        const whole = periodicBehaviour([one], films);
        const parts = periodicBehaviour(
          [
            { ...one, thicknessM: one.thicknessM * share },
            { ...one, thicknessM: one.thicknessM * (1 - share) },
          ],
          films,
        );
        expect(parts.transmittanceWm2K / whole.transmittanceWm2K).toBeCloseTo(1, 8);
        expect(parts.insideCapacityJm2K / whole.insideCapacityJm2K).toBeCloseTo(1, 8);
      }),
      runs,
    );
  });
  it('a node without capacity gives what a very small capacity gives', () => {
    const network = (capacity: number) => {
      const b = new NetworkBuilder();
      const out = b.input('out');
      const a = b.node('a', 5000);
      const joint = b.node('joint', capacity);
      const c = b.node('c', 9000);
      b.boundary(out, a, 0.4);
      b.link(a, joint, 1.1);
      b.link(joint, c, 0.7);
      b.boundary(out, joint, 0.2);
      return findModes(b.build());
    };
    const exact = network(0);
    const small = network(1e-4);
    for (let node = 0; node < 3; node++)
      expect(sineResponse(exact, node, 0, DAY).share).toBeCloseTo(sineResponse(small, node, 0, DAY).share, 6);
  });
  it('refuses a joint that leads nowhere, a network without mass, and bad figures', () => {
    const b = new NetworkBuilder();
    b.node('lost', 0);
    b.node('mass', 10);
    expect(() => findModes(b.build())).toThrow(/lost/);
    const c = new NetworkBuilder();
    c.node('thin', 0);
    expect(() => findModes(c.build())).toThrow(RangeError);
    expect(() => c.node('bad', -1)).toThrow(RangeError);
    expect(() => c.link(0, 0, Number.NaN)).toThrow(RangeError);
    expect(() => c.boundary(0, 0, -1)).toThrow(RangeError);
  });
  it('one, two and many moving inputs take different loops to the same end', () => {
    const b = new NetworkBuilder();
    const [one, two, heat] = [b.input('one'), b.input('two'), b.input('heat')];
    const nodes = [800, 5000, 20_000, 900].map((capacity, i) => b.node(`n${i}`, capacity));
    b.boundary(one, nodes[0]!, 0.6);
    b.boundary(two, nodes[3]!, 0.3);
    b.source(heat, nodes[2]!);
    for (let i = 1; i < 4; i++) b.link(nodes[i - 1]!, nodes[i]!, 0.5 + i / 3);
    const modes = findModes(b.build());
    const recursion = makeRecursion(modes, 2, 1800, { accuracyK: 0 });
    const n = 300;
    const wave = (s: number) => Float64Array.from({ length: n }, (_, k) => 5 + 3 * Math.sin(k / s));
    const start = Float64Array.of(1, 2, 3, 4);
    const go = (...inputs: Float64Array[]) => {
      const out = new Float64Array(n);
      run(recursion, inputs, out, start);
      return out;
    };
    const flat = (value: number) => new Float64Array(n).fill(value);
    const many = go(wave(9), flat(6), flat(0.2));
    const twoMoving = go(wave(9), flat(6), Float64Array.of(0.2));
    const oneMoving = go(wave(9), Float64Array.of(6), Float64Array.of(0.2));
    const together = go(wave(9), wave(9), Float64Array.of(0.2));
    const w = wave(9);
    const same = go(w, w, Float64Array.of(0.2));
    for (let k = 0; k < n; k++) {
      expect(twoMoving[k]!).toBeCloseTo(many[k]!, 9);
      expect(oneMoving[k]!).toBeCloseTo(many[k]!, 9);
      expect(same[k]!).toBeCloseTo(together[k]!, 9);
    }
  });
  it('a run of a network that loses nothing keeps its heat', () => {
    const b = new NetworkBuilder();
    const heat = b.input('heat');
    const a = b.node('a', 1000);
    const c = b.node('c', 3000);
    b.link(a, c, 2);
    b.source(heat, a);
    const modes = findModes(b.build());
    const out = new Float64Array(101);
    run(makeRecursion(modes, a, 3600, { accuracyK: 0 }), [Float64Array.of(1)], out, Float64Array.of(4, 4));
    // 1 W for 100 h into 4 kJ/K, plus the lead of the heated node: 1 W over 2 W/K, times the far share squared.
    expect(out[100]!).toBeCloseTo(4 + 360_000 / 4000 + 0.5 * (3 / 4) ** 2, 6);
  });
});

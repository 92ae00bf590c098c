import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findModes } from '../../src/heat/modes.ts';
import type { Network } from '../../src/heat/network.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';
import { makePairRecursion, runPair } from '../../src/heat/run-pair.ts';

const conductance = fc.double({ min: 0.1, max: 5, noNaN: true });
const capacity = fc.oneof(fc.constant(0), fc.double({ min: 500, max: 200_000, noNaN: true }));
/** A chain of nodes, some without capacity, each under an input of its own; the last input is a source. */
const anyNetwork: fc.Arbitrary<Network> = fc
  .array(fc.tuple(capacity, conductance, conductance), { minLength: 2, maxLength: 6 })
  .filter((nodes) => nodes.some(([capacityJK]) => capacityJK > 0))
  .map((nodes) => ({
    nodes: nodes.map(([capacityJK], i) => ({ name: `node ${i}`, capacityJK })),
    links: nodes.slice(1).map(([, conductanceWK], i) => ({ a: i, b: i + 1, conductanceWK })),
    inputs: [...nodes.map((_, i) => `input ${i}`), 'source'],
    drives: [
      ...nodes.map(([, , gain], i) => ({ input: i, node: i, kind: 'temperature' as const, gain })),
      { input: nodes.length, node: 0, kind: 'source' as const, gain: 1 },
    ],
  }));
const SAMPLES = 60;

describe('two temperatures run together', () => {
  it('are what each is alone, with inputs that move, stand still, or are one and the same', () => {
    fc.assert(
      fc.property(
        anyNetwork,
        fc.array(fc.constantFrom('moves', 'still', 'same'), { minLength: 7, maxLength: 7 }),
        fc.boolean(),
        fc.constantFrom(0, 0.01),
        (network, kinds, known, accuracyK) => {
          const modes = findModes(network);
          const shared = Float64Array.from({ length: SAMPLES }, (_, k) => 5 + Math.sin(k / 5));
          const inputs = network.inputs.map((_, j) => {
            if (kinds[j] === 'still' || (j === 6 && kinds[j] === 'moves')) return Float64Array.of(j - 2);
            if (kinds[j] === 'same') return shared;
            return Float64Array.from({ length: SAMPLES }, (_, k) => j + 4 * Math.sin(k / (2 + j)));
          });
          const from = known ? Float64Array.from(network.nodes, (_, i) => 3 + i) : 'settled';
          const [first, second] = [new Float64Array(SAMPLES), new Float64Array(SAMPLES)];
          const last = network.nodes.length - 1;
          runPair(makePairRecursion(modes, [0, last], 3600, { accuracyK }), inputs, first, second, from);
          for (const [node, together] of [
            [0, first],
            [last, second],
          ] as const) {
            const alone = new Float64Array(SAMPLES);
            run(makeRecursion(modes, node, 3600, { accuracyK }), inputs, alone, from);
            const within = accuracyK === 0 ? 1e-8 : 0.03;
            for (let k = accuracyK === 0 ? 0 : 6; k < SAMPLES; k++)
              if (!(Math.abs(together[k]! - alone[k]!) < within))
                expect.fail(`node ${node}, sample ${k}: ${together[k]}, alone ${alone[k]}`);
          }
        },
      ),
    );
  });

  it('refuse inputs that do not fit, and more that move than a place has', () => {
    const network: Network = {
      nodes: [{ name: 'a', capacityJK: 1000 }],
      links: [],
      inputs: Array.from({ length: 7 }, (_, j) => `input ${j}`),
      drives: Array.from({ length: 7 }, (_, j) => ({ input: j, node: 0, kind: 'temperature' as const, gain: 1 })),
    };
    const pair = makePairRecursion(findModes(network), [0, 0], 3600);
    const out = () => new Float64Array(3);
    expect(() => runPair(pair, [out()], out(), out(), 'settled')).toThrow(RangeError);
    expect(() => runPair(pair, network.inputs.map(out), out(), out(), 'settled')).toThrow(/six/);
    expect(() =>
      runPair(
        pair,
        network.inputs.map(() => new Float64Array(2)),
        out(),
        out(),
        'settled',
      ),
    ).toThrow(RangeError);
  });
});

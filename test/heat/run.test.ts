import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findModes } from '../../src/heat/modes.ts';
import type { Network } from '../../src/heat/network.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';

/** A chain of cells under one input that moves and a source that stands still. */
const chain = (cells: number): Network => ({
  nodes: Array.from({ length: cells }, (_, i) => ({ name: `cell ${i}`, capacityJK: 2000 + 700 * i })),
  links: Array.from({ length: cells - 1 }, (_, i) => ({ a: i, b: i + 1, conductanceWK: 0.8 })),
  inputs: ['outside', 'heat'],
  drives: [
    { input: 0, node: 0, kind: 'temperature', gain: 1 },
    { input: 1, node: cells - 1, kind: 'source', gain: 1 },
  ],
});

describe('the blocked run of one moving input', () => {
  it('is the recursion written out, for any number of modes and samples', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 2, max: 2100 }), (cells, samples) => {
        const modes = findModes(chain(cells));
        const recursion = makeRecursion(modes, cells - 1, 3600, { accuracyK: 0 });
        const air = Float64Array.from({ length: samples }, (_, k) => 5 + 4 * Math.sin(k / 3));
        const fast = new Float64Array(samples);
        run(recursion, [air, Float64Array.of(0.3)], fast, 'settled');
        const { poles, gains, direct, settled } = recursion;
        const state = Array.from(poles, (_, i) => settled[2 * i]! * air[0]! + settled[2 * i + 1]! * 0.3);
        for (let k = 0; k < samples; k++) {
          const plain = state.reduce((sum, x) => sum + x, direct[0]! * air[k]! + direct[1]! * 0.3);
          if (!(Math.abs(fast[k]! - plain) < 1e-9)) expect.fail(`sample ${k}: ${fast[k]}, written out ${plain}`);
          for (let i = 0; i < state.length; i++)
            state[i] = poles[i]! * state[i]! + gains[2 * i]! * air[k]! + gains[2 * i + 1]! * 0.3;
        }
      }),
    );
  });
});

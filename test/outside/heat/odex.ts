import { createRequire } from 'node:module';
import { inverse, type Matrix } from 'ml-matrix';
import { networkMatrices } from '../../../src/heat/modes.ts';
import type { Network } from '../../../src/heat/network.ts';

// The package carries its TypeScript source, which this project's stricter compiler would read: its JavaScript is asked for instead.
const { Solver } = createRequire(import.meta.url)('odex') as {
  Solver: new (
    size: number,
  ) => {
    absoluteTolerance: number;
    relativeTolerance: number;
    solve(slope: (t: number, y: number[]) => number[], from: number, start: number[], to: number): { y: number[] };
  };
};

/**
 * The same network node by node by an adaptive Gragg-Bulirsch-Stoer solver (Hairer, Nørsett and Wanner 1993), restarted at
 * every sample because the inputs bend there. Nodes without capacity are solved for with an inverse matrix. Inputs are as
 * long as the run, or of one value. Returns the temperature of `node` at every sample.
 */
export function byOdex(
  network: Network,
  inputs: readonly Float64Array[],
  stepS: number,
  node: number,
  startC: number,
  options: { samples: number; tolerance?: number },
): Float64Array {
  const { conductance, drive, capacity } = networkMatrices(network);
  const all = Array.from(capacity, (_, i) => i);
  const stores = all.filter((i) => capacity[i]! > 0);
  const joints = all.filter((i) => !(capacity[i]! > 0));
  const columns = inputs.map((_, j) => j);
  let system: Matrix = conductance.selection(stores, stores);
  let driven: Matrix = drive.selection(stores, columns);
  if (joints.length > 0) {
    const across = conductance.selection(stores, joints).mmul(inverse(conductance.selection(joints, joints)));
    system = system.sub(across.mmul(conductance.selection(joints, stores)));
    driven = driven.sub(across.mmul(drive.selection(joints, columns)));
  }
  const k = system.to2DArray();
  const b = driven.to2DArray();
  const heat = stores.map((i) => capacity[i]!);
  const size = stores.length;
  const wanted = stores.indexOf(node);
  const n = options.samples;
  const out = new Float64Array(n);
  let y = new Array<number>(size).fill(startC);
  out[0] = startC;
  for (let step = 0; step + 1 < n; step++) {
    const from = step * stepS;
    const slope = (t: number, state: number[]): number[] => {
      const share = (t - from) / stepS;
      const dy = new Array<number>(size);
      for (let i = 0; i < size; i++) {
        let q = 0;
        for (let j = 0; j < inputs.length; j++) {
          const input = inputs[j]!;
          const u = input.length === 1 ? input[0]! : input[step]! + (input[step + 1]! - input[step]!) * share;
          q += b[i]![j]! * u;
        }
        for (let j = 0; j < size; j++) q -= k[i]![j]! * state[j]!;
        dy[i] = q / heat[i]!;
      }
      return dy;
    };
    const solver = new Solver(size);
    solver.absoluteTolerance = options.tolerance ?? 1e-6;
    solver.relativeTolerance = options.tolerance ?? 1e-6;
    y = solver.solve(slope, from, y, from + stepS).y;
    out[step + 1] = y[wanted]!;
  }
  return out;
}

import { type Modes, networkMatrices } from './modes.ts';
import { linearHold } from './run.ts';

/** Where the heat of a run went, J. */
export interface EnergyBalance {
  /** Heat that came in through each input, in the network's order; negative where it left. */
  readonly inJ: readonly number[];
  /** Heat the nodes hold more at the end than at the start. */
  readonly storedJ: number;
  /** What is left over, as a share of all heat moved: rounding only. */
  readonly closure: number;
}

/** ∫∫ weights: integral over one step of z for dz/dt = -rate z + u, u linear: a z[0] + b u[0] + c u[1]. */
function integralHold(rate: number, h: number): { state: number; early: number; late: number } {
  const x = rate * h;
  if (x < 0.02) {
    const h2 = h * h;
    return {
      state: h * (1 - x / 2 + (x * x) / 6 - x ** 3 / 24 + x ** 4 / 120),
      early: h2 * (1 / 3 - x / 8 + (x * x) / 30 - x ** 3 / 144 + x ** 4 / 840),
      late: h2 * (1 / 6 - x / 24 + (x * x) / 120 - x ** 3 / 720 + x ** 4 / 5040),
    };
  }
  const state = -Math.expm1(-x) / rate;
  // z0 = 0, u = 1 - s/h or s/h: ∫ (u's own integral less what is still in z at the end) / rate.
  const { early, late } = linearHold(rate, h);
  return { state, early: (h / 2 - early) / rate, late: (h / 2 - late) / rate };
}

/**
 * Heat through every input and into every node over a run, by the network's own K, B and C: integrals of the modes are
 * exact, so the two sides agree to rounding. Inputs as in `run`; `start` are the temperatures of all nodes.
 */
export function energyBalance(
  modes: Modes,
  inputs: readonly Float64Array[],
  stepS: number,
  start: Float64Array,
): EnergyBalance {
  const { nodeCount, inputCount, rates, shapes, drives, direct, projection } = modes;
  const m = rates.length;
  const n = Math.max(...inputs.map((input) => input.length));
  const value = (j: number, k: number) => (inputs[j]!.length === 1 ? inputs[j]![0]! : inputs[j]![k]!);
  const z = new Float64Array(m);
  const first = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    for (let k = 0; k < nodeCount; k++) z[i]! += projection[i * nodeCount + k]! * start[k]!;
    first[i] = z[i]!;
  }
  const area = new Float64Array(m);
  const inputArea = new Float64Array(inputCount);
  const size = Float64Array.from(rates, () => 0);
  for (let i = 0; i < m; i++) {
    const hold = linearHold(rates[i]!, stepS);
    const whole = integralHold(rates[i]!, stepS);
    let x = z[i]!;
    let sum = 0;
    for (let k = 0; k + 1 < n; k++) {
      let early = 0;
      let late = 0;
      for (let j = 0; j < inputCount; j++) {
        early += drives[i * inputCount + j]! * value(j, k);
        late += drives[i * inputCount + j]! * value(j, k + 1);
      }
      sum += whole.state * x + whole.early * early + whole.late * late;
      x = hold.pole * x + hold.early * early + hold.late * late;
    }
    area[i] = sum;
    z[i] = x;
    size[i] = Math.abs(sum);
  }
  for (let j = 0; j < inputCount; j++)
    for (let k = 0; k + 1 < n; k++) inputArea[j]! += ((value(j, k) + value(j, k + 1)) / 2) * stepS;

  const { capacity } = networkMatrices(modes.network);
  const nodeArea = new Float64Array(nodeCount);
  let storedJ = 0;
  let moved = 0;
  for (let k = 0; k < nodeCount; k++) {
    let change = 0;
    for (let i = 0; i < m; i++) {
      nodeArea[k]! += shapes[k * m + i]! * area[i]!;
      change += shapes[k * m + i]! * (z[i]! - first[i]!);
    }
    for (let j = 0; j < inputCount; j++) nodeArea[k]! += direct[k * inputCount + j]! * inputArea[j]!;
    storedJ += capacity[k]! * change;
    moved += Math.abs(capacity[k]! * change);
  }
  const inJ = new Array<number>(inputCount).fill(0);
  for (const { input, node, kind, gain } of modes.network.drives) {
    const heat = kind === 'source' ? gain * inputArea[input]! : gain * (inputArea[input]! - nodeArea[node]!);
    inJ[input]! += heat;
    moved += kind === 'source' ? Math.abs(heat) : gain * Math.abs(inputArea[input]!);
  }
  const left = inJ.reduce((sum, heat) => sum + heat, 0) - storedJ;
  return { inJ, storedJ, closure: moved > 0 ? left / moved : 0 };
}

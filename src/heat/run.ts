import type { Modes } from './modes.ts';

/**
 * Exact recursion of one temperature of a network for inputs that are linear between samples `stepS` apart:
 * X_i[n+1] = pole_i X_i[n] + Σ_j gain_ij u_j[n] and T[n] = Σ_i X_i[n] + Σ_j direct_j u_j[n].
 * Only modes that matter at the asked accuracy are run; the rest are so quick that they follow their input, and act
 * through `direct` alone.
 */
export interface Recursion {
  readonly stepS: number;
  readonly poles: Float64Array;
  /** Rows by kept mode, columns by input; row-major. */
  readonly gains: Float64Array;
  readonly direct: Float64Array;
  /** Start of each kept mode: X_i[0] = Σ_k start_ik T_k[0] - Σ_j lead_ij u_j[0]; k over all nodes. */
  readonly start: Float64Array;
  readonly lead: Float64Array;
  /** Steady gain of each kept mode for each input, so that a run can begin settled: X_i[0] = Σ_j settled_ij u_j[0]. */
  readonly settled: Float64Array;
  readonly inputCount: number;
  readonly nodeCount: number;
}

export interface RunAccuracy {
  /** Largest error the modes left out may add, K; 0 keeps every mode. Default 0.002. */
  readonly accuracyK?: number;
  /** Fastest lasting change of a temperature input, K/h; default 6. Source inputs count as steady. */
  readonly fastestKPerH?: number;
}

/** α and β of z[1] = φ z[0] + α u[0] + β u[1] for dz/dt = -rate z + u with u linear over `h`. */
export function linearHold(rate: number, h: number): { pole: number; early: number; late: number } {
  const x = rate * h;
  if (x < 1e-3) {
    const early = h * (1 / 2 - x / 3 + (x * x) / 8 - x ** 3 / 30);
    const late = h * (1 / 2 - x / 6 + (x * x) / 24 - x ** 3 / 120);
    return { pole: Math.exp(-x), early, late };
  }
  const drop = -Math.expm1(-x);
  const late = (1 - drop / x) / rate;
  return { pole: 1 - drop, early: drop / rate - late, late };
}

/** Modes that matter to the temperature of `node` at the accuracy asked for, slowest first. */
export function keptModes(modes: Modes, node: number, stepS: number, accuracy: RunAccuracy = {}): number[] {
  const { accuracyK = 0.002, fastestKPerH = 6 } = accuracy;
  const { inputCount } = modes;
  const m = modes.rates.length;
  const isTemperature = new Uint8Array(inputCount).fill(1);
  for (const drive of modes.network.drives) if (drive.kind === 'source') isTemperature[drive.input] = 0;
  // A mode replaced by its steady answer is late by 1/rate: its error is gain x rate of change / rate.
  const order = Array.from({ length: m }, (_, i) => i);
  const weight = order.map((i) => {
    let sum = 0;
    for (let j = 0; j < inputCount; j++)
      if (isTemperature[j]) sum += Math.abs(modes.shapes[node * m + i]! * modes.drives[i * inputCount + j]!);
    return modes.rates[i]! > 0 ? (sum / modes.rates[i]! ** 2) * (fastestKPerH / 3600) : Number.POSITIVE_INFINITY;
  });
  order.sort((a, b) => weight[a]! - weight[b]!);
  let spent = 0;
  let dropped = 0;
  // What is dropped must also be quick, or a start far from balance would be lost with it.
  while (dropped < m) {
    const i = order[dropped]!;
    spent += weight[i]!;
    if (!(accuracyK > 0) || spent > accuracyK || (weight[i]! > 0 && modes.rates[i]! * stepS < 0.7)) break;
    dropped++;
  }
  return order.slice(dropped).sort((a, b) => a - b);
}

/** The recursion of the temperature of `node`. */
export function makeRecursion(modes: Modes, node: number, stepS: number, accuracy: RunAccuracy = {}): Recursion {
  if (!(stepS > 0)) throw new RangeError(`a step must be longer than 0 s, not ${stepS}`);
  const { inputCount, nodeCount } = modes;
  const m = modes.rates.length;
  const kept = keptModes(modes, node, stepS, accuracy);

  const poles = new Float64Array(kept.length);
  const gains = new Float64Array(kept.length * inputCount);
  const lead = new Float64Array(kept.length * inputCount);
  const settled = new Float64Array(kept.length * inputCount);
  const start = new Float64Array(kept.length * nodeCount);
  const direct = modes.direct.slice(node * inputCount, (node + 1) * inputCount);
  kept.forEach((i, row) => {
    const shape = modes.shapes[node * m + i]!;
    const { pole, early, late } = linearHold(modes.rates[i]!, stepS);
    poles[row] = pole;
    for (let j = 0; j < inputCount; j++) {
      const gain = shape * modes.drives[i * inputCount + j]!;
      gains[row * inputCount + j] = gain * (pole * late + early);
      lead[row * inputCount + j] = gain * late;
      settled[row * inputCount + j] = modes.rates[i]! > 0 ? gain / modes.rates[i]! - gain * late : 0;
      direct[j]! += gain * late;
    }
    for (let k = 0; k < nodeCount; k++) start[row * nodeCount + k] = shape * modes.projection[i * nodeCount + k]!;
  });
  for (let i = 0; i < m; i++) {
    if (kept.includes(i)) continue;
    const shape = modes.shapes[node * m + i]!;
    for (let j = 0; j < inputCount; j++)
      if (modes.rates[i]! > 0) direct[j]! += (shape * modes.drives[i * inputCount + j]!) / modes.rates[i]!;
  }
  return { stepS, poles, gains, direct, start, lead, settled, inputCount, nodeCount };
}

/** How a run begins: at rest under its first inputs, or from known temperatures of all nodes, °C. */
export type RunStart = 'settled' | Float64Array;

function startStates(recursion: Recursion, inputs: readonly Float64Array[], from: RunStart): Float64Array {
  const { poles, inputCount, nodeCount } = recursion;
  const states = new Float64Array(poles.length);
  for (let i = 0; i < poles.length; i++) {
    let x = 0;
    if (from === 'settled')
      for (let j = 0; j < inputCount; j++) x += recursion.settled[i * inputCount + j]! * inputs[j]![0]!;
    else {
      for (let k = 0; k < nodeCount; k++) x += recursion.start[i * nodeCount + k]! * from[k]!;
      for (let j = 0; j < inputCount; j++) x -= recursion.lead[i * inputCount + j]! * inputs[j]![0]!;
    }
    states[i] = x;
  }
  return states;
}

/**
 * Runs the recursion. Each input is an array as long as `output`, or an array of one value for an input that never
 * changes. Several modes at a time run down the whole series, so that their states stay in registers; nothing is
 * allocated per sample.
 */
export function run(recursion: Recursion, inputs: readonly Float64Array[], output: Float64Array, from: RunStart): void {
  const { poles, gains, direct, inputCount } = recursion;
  if (inputs.length !== inputCount) throw new RangeError(`the network has ${inputCount} inputs, not ${inputs.length}`);
  const n = output.length;
  inputs.forEach((input, j) => {
    if (input.length !== n && input.length !== 1)
      throw new RangeError(`input ${j} has ${input.length} samples where the output has ${n}`);
  });
  if (n === 0) return;
  const states = startStates(recursion, inputs, from);
  // Inputs that never change: their share of every sample, and of every mode's step. Inputs that are one and the same
  // series act as one, and an input that reaches nothing is left out.
  let still = 0;
  const push = new Float64Array(states.length);
  const moving: Moving[] = [];
  inputs.forEach((input, j) => {
    if (input.length === 1 || n === 1) {
      still += direct[j]! * input[0]!;
      for (let i = 0; i < poles.length; i++) push[i]! += gains[i * inputCount + j]! * input[0]!;
      return;
    }
    let column = moving.find((one) => one.input === input);
    if (!column) {
      column = { input, gains: new Float64Array(poles.length), direct: 0 };
      moving.push(column);
    }
    column.direct += direct[j]!;
    for (let i = 0; i < poles.length; i++) column.gains[i]! += gains[i * inputCount + j]!;
  });
  const acting = moving.filter((one) => one.direct !== 0 || one.gains.some((gain) => gain !== 0));
  // A mode that hardly forgets cannot be run as a departure from its rest: that lies too far away.
  const forgets = poles.every((pole) => 1 - pole > 1e-6);
  const stretchOf =
    acting.length === 1 && forgets ? runOneInput : acting.length === 2 && forgets ? runTwoInputs : runManyInputs;
  for (let at = 0; at < n; at += STRETCH) {
    const to = Math.min(at + STRETCH, n);
    const here = acting.map((one) => ({ ...one, input: one.input.subarray(at, to) }));
    stretchOf(poles, here, push, states, output.subarray(at, to), still);
  }
}

/** Samples run through all modes before the next: input and output of a stretch stay in the processor's nearest cache. */
const STRETCH = 1024;

/** An input that moves, with its way into each mode and straight into the output. */
interface Moving {
  readonly input: Float64Array;
  readonly gains: Float64Array;
  direct: number;
}

/**
 * One input that moves. A constant push q on X' = pX + gu + q settles at q/(1-p): the departure from it is run, and the
 * rest added back. Blocks of five modes, or three at the end: fewer would wait for each other's arithmetic.
 */
function runOneInput(
  poles: Float64Array,
  moving: readonly Moving[],
  push: Float64Array,
  states: Float64Array,
  output: Float64Array,
  still: number,
): void {
  const { input, gains, direct: straight } = moving[0]!;
  const p = new Float64Array(5);
  const g = new Float64Array(5);
  const x = new Float64Array(5);
  // The first block writes, with what follows the input at once; the others add to it.
  for (let i = 0; i === 0 || i < poles.length; ) {
    const width = poles.length - i > 3 ? 5 : 3;
    p.fill(0);
    g.fill(0);
    x.fill(0);
    const first = i === 0;
    let rest = first ? still : 0;
    const direct = first ? straight : 0;
    const here = Math.min(width, poles.length - i);
    for (let k = 0; k < here; k++) {
      p[k] = poles[i + k]!;
      g[k] = gains[i + k]!;
      const settled = push[i + k]! / (1 - p[k]!);
      rest += settled;
      x[k] = states[i + k]! - settled;
    }
    if (width === 5) fiveModes(p, g, x, rest, direct, first, input, output);
    else threeModes(p, g, x, rest, direct, first, input, output);
    for (let k = 0; k < here; k++) states[i + k] = x[k]! + push[i + k]! / (1 - p[k]!);
    i += width;
  }
}

/** Five modes down a stretch, two samples a turn: half the turns, and half the checks of a turn. */
function fiveModes(
  p: Float64Array,
  g: Float64Array,
  x: Float64Array,
  rest: number,
  direct: number,
  first: boolean,
  input: Float64Array,
  output: Float64Array,
): void {
  const [p0, p1, p2, p3, p4] = [p[0]!, p[1]!, p[2]!, p[3]!, p[4]!];
  const [g0, g1, g2, g3, g4] = [g[0]!, g[1]!, g[2]!, g[3]!, g[4]!];
  let [x0, x1, x2, x3, x4] = [x[0]!, x[1]!, x[2]!, x[3]!, x[4]!];
  const pairs = output.length - (output.length % 2);
  for (let k = 0; k < pairs; k += 2) {
    const u = input[k]!;
    const v = input[k + 1]!;
    output[k] = (first ? direct * u : output[k]!) + (x0 + x1 + (x2 + x3) + (x4 + rest));
    x0 = p0 * x0 + g0 * u;
    x1 = p1 * x1 + g1 * u;
    x2 = p2 * x2 + g2 * u;
    x3 = p3 * x3 + g3 * u;
    x4 = p4 * x4 + g4 * u;
    output[k + 1] = (first ? direct * v : output[k + 1]!) + (x0 + x1 + (x2 + x3) + (x4 + rest));
    x0 = p0 * x0 + g0 * v;
    x1 = p1 * x1 + g1 * v;
    x2 = p2 * x2 + g2 * v;
    x3 = p3 * x3 + g3 * v;
    x4 = p4 * x4 + g4 * v;
  }
  if (pairs < output.length) {
    const u = input[pairs]!;
    output[pairs] = (first ? direct * u : output[pairs]!) + (x0 + x1 + (x2 + x3) + (x4 + rest));
    x0 = p0 * x0 + g0 * u;
    x1 = p1 * x1 + g1 * u;
    x2 = p2 * x2 + g2 * u;
    x3 = p3 * x3 + g3 * u;
    x4 = p4 * x4 + g4 * u;
  }
  x[0] = x0;
  x[1] = x1;
  x[2] = x2;
  x[3] = x3;
  x[4] = x4;
}

function threeModes(
  p: Float64Array,
  g: Float64Array,
  x: Float64Array,
  rest: number,
  direct: number,
  first: boolean,
  input: Float64Array,
  output: Float64Array,
): void {
  const [p0, p1, p2] = [p[0]!, p[1]!, p[2]!];
  const [g0, g1, g2] = [g[0]!, g[1]!, g[2]!];
  let [x0, x1, x2] = [x[0]!, x[1]!, x[2]!];
  for (let k = 0; k < output.length; k++) {
    const u = input[k]!;
    output[k] = (first ? direct * u : output[k]!) + (x0 + x1 + (x2 + rest));
    x0 = p0 * x0 + g0 * u;
    x1 = p1 * x1 + g1 * u;
    x2 = p2 * x2 + g2 * u;
  }
  x[0] = x0;
  x[1] = x1;
  x[2] = x2;
}

/** Two inputs that move, as the air and the floor beside a box do: three modes at a time, otherwise as for one. */
function runTwoInputs(
  poles: Float64Array,
  moving: readonly Moving[],
  push: Float64Array,
  states: Float64Array,
  output: Float64Array,
  still: number,
): void {
  const [first, second] = [moving[0]!, moving[1]!];
  const { input: inputA, gains: gainsA } = first;
  const { input: inputB, gains: gainsB } = second;
  for (let i = 0; i === 0 || i < poles.length; i += 3) {
    const [p0, p1, p2] = [poles[i] ?? 0, poles[i + 1] ?? 0, poles[i + 2] ?? 0];
    const [a0, a1, a2] = [gainsA[i] ?? 0, gainsA[i + 1] ?? 0, gainsA[i + 2] ?? 0];
    const [b0, b1, b2] = [gainsB[i] ?? 0, gainsB[i + 1] ?? 0, gainsB[i + 2] ?? 0];
    const rest0 = (push[i] ?? 0) / (1 - p0);
    const rest1 = (push[i + 1] ?? 0) / (1 - p1);
    const rest2 = (push[i + 2] ?? 0) / (1 - p2);
    let x0 = (states[i] ?? 0) - rest0;
    let x1 = (states[i + 1] ?? 0) - rest1;
    let x2 = (states[i + 2] ?? 0) - rest2;
    const begins = i === 0;
    const rest = rest0 + rest1 + rest2 + (begins ? still : 0);
    const [directA, directB] = begins ? [first.direct, second.direct] : [0, 0];
    for (let k = 0; k < output.length; k++) {
      const u = inputA[k]!;
      const v = inputB[k]!;
      output[k] = (begins ? directA * u + directB * v : output[k]!) + (x0 + x1 + (x2 + rest));
      x0 = p0 * x0 + (a0 * u + b0 * v);
      x1 = p1 * x1 + (a1 * u + b1 * v);
      x2 = p2 * x2 + (a2 * u + b2 * v);
    }
    states[i] = x0 + rest0;
    if (i + 1 < poles.length) states[i + 1] = x1 + rest1;
    if (i + 2 < poles.length) states[i + 2] = x2 + rest2;
  }
}

function runManyInputs(
  poles: Float64Array,
  moving: readonly Moving[],
  push: Float64Array,
  states: Float64Array,
  output: Float64Array,
  still: number,
): void {
  const n = output.length;
  output.fill(still);
  for (const { input, direct } of moving) for (let k = 0; k < n; k++) output[k] = output[k]! + direct * input[k]!;
  const driven = new Float64Array(n);
  for (let i = 0; i < poles.length; i++) {
    const p = poles[i]!;
    driven.fill(push[i]!);
    // Three inputs at a time: each pass over the stretch costs its reading and writing.
    for (let j = 0; j < moving.length; j += 3) {
      const [a, b, c] = [moving[j]!, moving[j + 1], moving[j + 2]];
      const [g, h, l] = [a.gains[i]!, b?.gains[i] ?? 0, c?.gains[i] ?? 0];
      if (g === 0 && h === 0 && l === 0) continue;
      const [u, v, w] = [a.input, b?.input ?? a.input, c?.input ?? a.input];
      for (let k = 0; k < n; k++) driven[k] = driven[k]! + (g * u[k]! + h * v[k]! + l * w[k]!);
    }
    let x = states[i]!;
    for (let k = 0; k < n; k++) {
      output[k] = output[k]! + x;
      x = p * x + driven[k]!;
    }
    states[i] = x;
  }
}

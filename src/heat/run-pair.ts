/** Two temperatures of one network together, as the air and the floor of a place: its modes run once and are read out twice. */
import type { Modes } from './modes.ts';
import { keptModes, linearHold, type RunAccuracy, type RunStart } from './run.ts';

/**
 * Exact recursion of two temperatures for inputs that are linear between samples `stepS` apart:
 * z_i[n+1] = pole_i z_i[n] + Σ_j gain_ij u_j[n] and T_o[n] = Σ_i readout_io z_i[n] + Σ_j direct_oj u_j[n].
 * The modes run are those that matter to either temperature; the others act through `direct` alone.
 */
export interface PairRecursion {
  readonly poles: Float64Array;
  /** Rows by kept mode, columns by input; row-major. */
  readonly gains: Float64Array;
  /** Rows by kept mode, a column for each temperature. */
  readonly readout: Float64Array;
  /** Rows by temperature, columns by input. */
  readonly direct: Float64Array;
  /** Start of each kept mode: z_i[0] = Σ_k start_ik T_k[0] - Σ_j lead_ij u_j[0], or at rest Σ_j settled_ij u_j[0]. */
  readonly start: Float64Array;
  readonly lead: Float64Array;
  readonly settled: Float64Array;
  readonly inputCount: number;
  readonly nodeCount: number;
}

/** Most inputs that may move in a run of two temperatures: those of a place. */
const MOST_MOVING = 6;

/** The recursion of the temperatures of two nodes. */
export function makePairRecursion(
  modes: Modes,
  nodes: readonly [number, number],
  stepS: number,
  accuracy: RunAccuracy = {},
): PairRecursion {
  const { inputCount, nodeCount } = modes;
  const m = modes.rates.length;
  const kept = [...new Set(nodes.flatMap((node) => keptModes(modes, node, stepS, accuracy)))].sort((a, b) => a - b);
  const poles = new Float64Array(kept.length);
  const gains = new Float64Array(kept.length * inputCount);
  const lead = new Float64Array(kept.length * inputCount);
  const settled = new Float64Array(kept.length * inputCount);
  const start = new Float64Array(kept.length * nodeCount);
  const readout = new Float64Array(kept.length * 2);
  const direct = new Float64Array(2 * inputCount);
  nodes.forEach((node, o) => {
    direct.set(modes.direct.subarray(node * inputCount, (node + 1) * inputCount), o * inputCount);
  });
  const follow = (i: number, j: number, delayS: number) => {
    for (let o = 0; o < 2; o++)
      direct[o * inputCount + j]! += modes.shapes[nodes[o]! * m + i]! * modes.drives[i * inputCount + j]! * delayS;
  };
  kept.forEach((i, row) => {
    const rate = modes.rates[i]!;
    const { pole, early, late } = linearHold(rate, stepS);
    poles[row] = pole;
    for (let o = 0; o < 2; o++) readout[2 * row + o] = modes.shapes[nodes[o]! * m + i]!;
    for (let j = 0; j < inputCount; j++) {
      const drive = modes.drives[i * inputCount + j]!;
      gains[row * inputCount + j] = drive * (pole * late + early);
      lead[row * inputCount + j] = drive * late;
      settled[row * inputCount + j] = rate > 0 ? drive / rate - drive * late : 0;
      follow(i, j, late);
    }
    for (let k = 0; k < nodeCount; k++) start[row * nodeCount + k] = modes.projection[i * nodeCount + k]!;
  });
  for (let i = 0; i < m; i++)
    if (modes.rates[i]! > 0 && !kept.includes(i))
      for (let j = 0; j < inputCount; j++) follow(i, j, 1 / modes.rates[i]!);
  return { poles, gains, readout, direct, start, lead, settled, inputCount, nodeCount };
}

/**
 * Runs both temperatures into `first` and `second`. Inputs as for `run`; at most six of them may move (one series given twice moves
 * once). Throws RangeError for more, or for inputs that do not fit.
 */
export function runPair(
  recursion: PairRecursion,
  inputs: readonly Float64Array[],
  first: Float64Array,
  second: Float64Array,
  from: RunStart,
): void {
  const { poles, gains, readout, direct, inputCount, nodeCount } = recursion;
  const n = first.length;
  if (inputs.length !== inputCount) throw new RangeError(`the network has ${inputCount} inputs, not ${inputs.length}`);
  if (second.length !== n || inputs.some((input) => input.length !== n && input.length !== 1))
    throw new RangeError('inputs and outputs of a run must be of one length');
  if (n === 0) return;
  const moving = [...new Set(inputs.filter((input) => input.length > 1))];
  if (moving.length > MOST_MOVING) throw new RangeError(`${moving.length} inputs move; two temperatures take six`);
  // Columns: the inputs that move, then one for all that stand still.
  const width = MOST_MOVING + 1;
  const ways = new Float64Array(poles.length * width);
  const straight = new Float64Array(2 * width);
  const states = new Float64Array(poles.length);
  inputs.forEach((input, j) => {
    const moves = input.length > 1;
    const column = moves ? moving.indexOf(input) : MOST_MOVING;
    const size = moves ? 1 : input[0]!;
    for (let i = 0; i < poles.length; i++) ways[i * width + column]! += gains[i * inputCount + j]! * size;
    for (let o = 0; o < 2; o++) straight[o * width + column]! += direct[o * inputCount + j]! * size;
    const begin = from === 'settled' ? recursion.settled : recursion.lead;
    const sign = from === 'settled' ? 1 : -1;
    for (let i = 0; i < poles.length; i++) states[i]! += sign * begin[i * inputCount + j]! * input[0]!;
  });
  if (from !== 'settled')
    for (let i = 0; i < poles.length; i++)
      for (let k = 0; k < nodeCount; k++) states[i]! += recursion.start[i * nodeCount + k]! * from[k]!;
  // A column without a series of its own has no way into anything: which one is read for it does not matter.
  const read = (j: number) => moving[j] ?? moving[0] ?? first;
  const columns = [read(0), read(1), read(2), read(3), read(4), read(5)] as const;
  readStraight(columns, straight, first, 0);
  readStraight(columns, straight, second, width);
  for (let i = 0; i < poles.length; i += 2) twoModes(columns, i, poles, ways, readout, states, first, second);
}

type Columns = readonly [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];

/** What passes straight from the inputs into one temperature. */
function readStraight(columns: Columns, straight: Float64Array, output: Float64Array, at: number): void {
  const [u0, u1, u2, u3, u4, u5] = columns;
  const [d0, d1, d2, d3] = [straight[at]!, straight[at + 1]!, straight[at + 2]!, straight[at + 3]!];
  const [d4, d5, still] = [straight[at + 4]!, straight[at + 5]!, straight[at + 6]!];
  // Where nothing moves, `output` stands in for the series and is not to be read.
  if (u0 === output) output.fill(still);
  else
    for (let k = 0; k < output.length; k++)
      output[k] = d0 * u0[k]! + d1 * u1[k]! + (d2 * u2[k]! + d3 * u3[k]!) + (d4 * u4[k]! + d5 * u5[k]! + still);
}

/** Two modes down the whole series; a lone last mode runs with a partner that is nothing. */
function twoModes(
  columns: Columns,
  i: number,
  poles: Float64Array,
  ways: Float64Array,
  readout: Float64Array,
  states: Float64Array,
  first: Float64Array,
  second: Float64Array,
): void {
  const width = MOST_MOVING + 1;
  const [u0, u1, u2, u3, u4, u5] = columns;
  const way = (at: number) => ways[i * width + at] ?? 0;
  const [a0, a1, a2, a3, a4, a5, a6] = [way(0), way(1), way(2), way(3), way(4), way(5), way(6)];
  const [b0, b1, b2, b3, b4, b5, b6] = [way(7), way(8), way(9), way(10), way(11), way(12), way(13)];
  const [p, q] = [poles[i]!, poles[i + 1] ?? 0];
  const [r0, r1] = [readout[2 * i]!, readout[2 * i + 2] ?? 0];
  const [s0, s1] = [readout[2 * i + 1]!, readout[2 * i + 3] ?? 0];
  let x = states[i]!;
  let y = states[i + 1] ?? 0;
  for (let k = 0; k < first.length; k++) {
    const v0 = u0[k]!;
    const v1 = u1[k]!;
    const v2 = u2[k]!;
    const v3 = u3[k]!;
    const v4 = u4[k]!;
    const v5 = u5[k]!;
    first[k] = first[k]! + (r0 * x + r1 * y);
    second[k] = second[k]! + (s0 * x + s1 * y);
    x = p * x + (a0 * v0 + a1 * v1 + (a2 * v2 + a3 * v3) + (a4 * v4 + a5 * v5 + a6));
    y = q * y + (b0 * v0 + b1 * v1 + (b2 * v2 + b3 * v3) + (b4 * v4 + b5 * v5 + b6));
  }
}

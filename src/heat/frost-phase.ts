/** A network whose lumps of water are each in one phase, ready to be stepped by `frost-run.ts`: linear, and so known by its modes. */
import { type FreezingNode, inflowOf, type Phase, WATER } from './freezing.ts';
import type { Modes } from './modes.ts';
import type { Network } from './network.ts';
import { keptModes, linearHold } from './run.ts';

/** What drives the network, by columns: the first series that moves, the second, and all inputs that never change, together. */
export const COLUMNS = 3;
/** How an input of the network is given: as one of two series that move, or by its lasting value. */
export type FrostInput = 'first' | 'second' | number;

/** What a frost run is made for; the same in every phase. */
export interface FrostSetup {
  readonly network: Network;
  /** By input of the network. */
  readonly inputs: readonly FrostInput[];
  readonly lumps: readonly FreezingNode[];
  /** Nodes whose temperatures are read out. */
  readonly wanted: readonly number[];
  readonly stepS: number;
  readonly accuracyK: number;
}

/**
 * Matrices of one phase, row-major. Columns `by input` are those of `COLUMNS`; modes are the ones run, the others follow their inputs at
 * once. A mode z is stepped as its state x = z - lead u, whose step needs only the inputs at its beginning.
 */
export interface PhaseRun {
  readonly rates: Float64Array;
  readonly poles: Float64Array;
  /** Mode by input: drive, gain of one step, and lead. */
  readonly drives: Float64Array;
  readonly gains: Float64Array;
  readonly lead: Float64Array;
  /** Node by mode and by input: temperatures; and mode by node: modes from temperatures. */
  readonly nodeShapes: Float64Array;
  readonly nodeStill: Float64Array;
  readonly projection: Float64Array;
  /**
   * Wanted nodes, then lumps, by mode and by input: their temperatures from modes (`still`) or from states (`straight`). A mixed lump
   * reads, in their place, the heat the modes have yet to give it, J.
   */
  readonly readout: Float64Array;
  readonly still: Float64Array;
  readonly straight: Float64Array;
  /** Lump by input: J over one step of heat that passes through no mode, for the sum of both ends of an input. */
  readonly passing: Float64Array;
  readonly mixed: Uint8Array;
  /** Joules that raise each lump by 1 K. */
  readonly capacityJK: Float64Array;
  /** A lump whose temperature (heat, while mixed) lies beyond these has left its phase. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/** A lump changes phase this far beyond its limit, so that one standing on it does not flicker. */
const BEYOND_K = 1e-9;
/** The heat that reaches a mixed lump is summed over hours: what its neighbours do within one matters ten times less. */
const NEIGHBOURS = 10;

/** Modes that matter to what is read. */
function modesRun({ network, lumps, wanted, stepS, accuracyK }: FrostSetup, modes: Modes, phase: readonly Phase[]) {
  const kept = new Set<number>();
  const keep = (node: number, within: number) => {
    for (const mode of keptModes(modes, node, stepS, { accuracyK: within })) kept.add(mode);
  };
  for (const node of wanted) keep(node, accuracyK);
  lumps.forEach(({ node }, f) => {
    if (phase[f] !== 'mixed') keep(node, accuracyK);
    else
      for (const { a, b } of network.links)
        if (a === node || b === node) keep(a === node ? b : a, NEIGHBOURS * accuracyK);
  });
  return [...kept].sort((a, b) => a - b);
}

/** Rows of `matrix` (columns by input of the network) with the inputs taken together to `COLUMNS`. */
function together(matrix: Float64Array, rows: number, width: number, inputs: readonly FrostInput[]): Float64Array {
  const out = new Float64Array(rows * COLUMNS);
  inputs.forEach((input, j) => {
    const column = input === 'first' ? 0 : input === 'second' ? 1 : 2;
    const size = typeof input === 'number' ? input : 1;
    for (let row = 0; row < rows; row++) out[row * COLUMNS + column]! += size * matrix[row * width + j]!;
  });
  return out;
}

/** Makes the matrices. `frozen` is the network in this phase, `modes` its modes. */
export function makePhaseRun(setup: FrostSetup, phase: readonly Phase[], frozen: Network, modes: Modes): PhaseRun {
  const { network, inputs, lumps, wanted, stepS } = setup;
  const m = modes.rates.length;
  const n = modes.nodeCount;
  const kept = modesRun(setup, modes, phase);
  const rows = kept.length;
  const allDrives = together(modes.drives, m, modes.inputCount, inputs);
  const rates = Float64Array.from(kept, (i) => modes.rates[i]!);
  const poles = new Float64Array(rows);
  const drives = new Float64Array(rows * COLUMNS);
  const gains = new Float64Array(rows * COLUMNS);
  const lead = new Float64Array(rows * COLUMNS);
  const projection = new Float64Array(rows * n);
  const nodeShapes = new Float64Array(n * rows);
  const nodeStill = together(modes.direct, n, modes.inputCount, inputs);
  kept.forEach((i, row) => {
    const { pole, early, late } = linearHold(rates[row]!, stepS);
    poles[row] = pole;
    for (let j = 0; j < COLUMNS; j++) {
      const drive = allDrives[i * COLUMNS + j]!;
      drives[row * COLUMNS + j] = drive;
      gains[row * COLUMNS + j] = drive * (pole * late + early);
      lead[row * COLUMNS + j] = drive * late;
    }
    projection.set(modes.projection.subarray(i * n, (i + 1) * n), row * n);
    for (let node = 0; node < n; node++) nodeShapes[node * rows + row] = modes.shapes[node * m + i]!;
  });
  for (let i = 0; i < m; i++) {
    if (kept.includes(i)) continue;
    for (let node = 0; node < n; node++)
      for (let j = 0; j < COLUMNS; j++)
        nodeStill[node * COLUMNS + j]! += (modes.shapes[node * m + i]! * allDrives[i * COLUMNS + j]!) / modes.rates[i]!;
  }

  const reads = wanted.length + lumps.length;
  const readout = new Float64Array(reads * rows);
  const still = new Float64Array(reads * COLUMNS);
  const straight = new Float64Array(reads * COLUMNS);
  const passing = new Float64Array(lumps.length * COLUMNS);
  const mixed = Uint8Array.from(phase, (one) => (one === 'mixed' ? 1 : 0));
  for (let o = 0; o < reads; o++) {
    const f = o - wanted.length;
    const node = f < 0 ? wanted[o]! : lumps[f]!.node;
    if (f >= 0 && mixed[f]) {
      const inflow = inflowOf(network, node);
      const straightIn = together(inflow.ofInputs, 1, inputs.length, inputs);
      for (let at = 0; at < n; at++) {
        for (let row = 0; row < rows; row++)
          readout[o * rows + row]! += (inflow.weights[at]! * nodeShapes[at * rows + row]!) / rates[row]!;
        for (let j = 0; j < COLUMNS; j++) straightIn[j]! += inflow.weights[at]! * nodeStill[at * COLUMNS + j]!;
      }
      // A mode's heat over a step is (z before - z after + what drove it) / rate.
      for (let j = 0; j < COLUMNS; j++) {
        for (let row = 0; row < rows; row++) straightIn[j]! += readout[o * rows + row]! * drives[row * COLUMNS + j]!;
        passing[f * COLUMNS + j] = (straightIn[j]! * stepS) / 2;
      }
    } else {
      readout.set(nodeShapes.subarray(node * rows, (node + 1) * rows), o * rows);
      still.set(nodeStill.subarray(node * COLUMNS, (node + 1) * COLUMNS), o * COLUMNS);
    }
    for (let j = 0; j < COLUMNS; j++) {
      straight[o * COLUMNS + j] = still[o * COLUMNS + j]!;
      for (let row = 0; row < rows; row++)
        straight[o * COLUMNS + j]! += readout[o * rows + row]! * lead[row * COLUMNS + j]!;
    }
  }
  const capacityJK = Float64Array.from(lumps, ({ node }) => frozen.nodes[node]!.capacityJK);
  const tolerance = capacityJK.map((capacity, f) => BEYOND_K * (mixed[f] ? capacity : 1));
  const lower = tolerance.map((one, f) =>
    phase[f] === 'ice' ? Number.NEGATIVE_INFINITY : -one - (mixed[f] ? lumps[f]!.waterKg * WATER.latentJkg : 0),
  );
  const upper = tolerance.map((one, f) => (phase[f] === 'water' ? Number.POSITIVE_INFINITY : one));
  return {
    ...{ rates, poles, drives, gains, lead, nodeShapes, nodeStill, projection },
    ...{ readout, still, straight, passing, mixed, capacityJK, lower, upper },
  };
}

import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import type { Network } from './network.ts';

/**
 * A network in its modes: dz_i/dt = -rate_i z_i + Σ_j drive_ij u_j, and the temperature of node k is
 * Σ_i shape_ki z_i + Σ_j direct_kj u_j. Real because C^-1/2 K C^-1/2 is symmetric.
 */
export interface Modes {
  /** Slowest first, 1/s, never negative. */
  readonly rates: Float64Array;
  /** Rows by node (all nodes, those without capacity too), columns by mode; row-major. */
  readonly shapes: Float64Array;
  /** Rows by mode, columns by input; row-major. */
  readonly drives: Float64Array;
  /** Rows by node, columns by input; only nodes without capacity have entries. */
  readonly direct: Float64Array;
  /** Takes node temperatures to mode amplitudes: rows by mode, columns by node; zero for nodes without capacity. */
  readonly projection: Float64Array;
  readonly nodeCount: number;
  readonly inputCount: number;
  readonly network: Network;
}

/** K (nodes x nodes, W/K), B (nodes x inputs) and C (J/K) of a network. */
export function networkMatrices(network: Network): { conductance: Matrix; drive: Matrix; capacity: Float64Array } {
  const n = network.nodes.length;
  const conductance = Matrix.zeros(n, n);
  const drive = Matrix.zeros(n, network.inputs.length);
  const add = (r: number, c: number, value: number) => conductance.set(r, c, conductance.get(r, c) + value);
  for (const { a, b, conductanceWK } of network.links) {
    add(a, a, conductanceWK);
    add(b, b, conductanceWK);
    add(a, b, -conductanceWK);
    add(b, a, -conductanceWK);
  }
  for (const { input, node, kind, gain } of network.drives) {
    if (kind === 'temperature') add(node, node, gain);
    drive.set(node, input, drive.get(node, input) + gain);
  }
  return { conductance, drive, capacity: Float64Array.from(network.nodes, (node) => node.capacityJK) };
}

/** Solves the small symmetric positive system of the nodes without capacity by Cholesky; `right` is replaced. */
function solveInPlace(system: Matrix, right: Matrix, names: readonly string[]): Matrix {
  const n = system.rows;
  for (let j = 0; j < n; j++) {
    let pivot = system.get(j, j);
    for (let k = 0; k < j; k++) pivot -= system.get(j, k) ** 2;
    if (!(pivot > 1e-12)) throw new RangeError(`node ${names[j]} has neither capacity nor a way for heat to leave`);
    const root = Math.sqrt(pivot);
    system.set(j, j, root);
    for (let i = j + 1; i < n; i++) {
      let sum = system.get(i, j);
      for (let k = 0; k < j; k++) sum -= system.get(i, k) * system.get(j, k);
      system.set(i, j, sum / root);
    }
  }
  for (let c = 0; c < right.columns; c++) {
    for (let i = 0; i < n; i++) {
      let sum = right.get(i, c);
      for (let k = 0; k < i; k++) sum -= system.get(i, k) * right.get(k, c);
      right.set(i, c, sum / system.get(i, i));
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = right.get(i, c);
      for (let k = i + 1; k < n; k++) sum -= system.get(k, i) * right.get(k, c);
      right.set(i, c, sum / system.get(i, i));
    }
  }
  return right;
}

/**
 * Modes of a network. Nodes without capacity are eliminated exactly first. Throws RangeError when a node without
 * capacity is joined to nothing, or when no node has a capacity.
 */
export function findModes(network: Network): Modes {
  const { conductance, drive, capacity } = networkMatrices(network);
  const n = network.nodes.length;
  const inputCount = network.inputs.length;
  const stores: number[] = [];
  const joints: number[] = [];
  capacity.forEach((c, i) => {
    (c > 0 ? stores : joints).push(i);
  });
  const m = stores.length;
  if (m === 0) throw new RangeError('a network needs at least one node with a heat capacity');

  // T_joint = follow T_store + direct u, from K_jj T_j = -K_js T_s + B_j u.
  let follow = Matrix.zeros(0, m);
  let jointDirect = Matrix.zeros(0, inputCount);
  if (joints.length > 0) {
    const right = Matrix.zeros(joints.length, m + inputCount);
    joints.forEach((j, r) => {
      stores.forEach((s, c) => {
        right.set(r, c, -conductance.get(j, s));
      });
      for (let u = 0; u < inputCount; u++) right.set(r, m + u, drive.get(j, u));
    });
    const names = joints.map((j) => network.nodes[j]!.name);
    const solved = solveInPlace(conductance.selection(joints, joints), right, names);
    follow = solved.subMatrix(0, joints.length - 1, 0, m - 1);
    if (inputCount > 0) jointDirect = solved.subMatrix(0, joints.length - 1, m, m + inputCount - 1);
  }
  // Schur complement, scaled by sqrt(C) on both sides and made exactly symmetric.
  const root = stores.map((s) => Math.sqrt(capacity[s]!));
  const scaled = Matrix.zeros(m, m);
  const driven = Matrix.zeros(m, inputCount);
  for (let r = 0; r < m; r++) {
    const s = stores[r]!;
    for (let c = 0; c < m; c++) {
      let k = conductance.get(s, stores[c]!);
      for (let j = 0; j < joints.length; j++) k += conductance.get(s, joints[j]!) * follow.get(j, c);
      scaled.set(r, c, k / (root[r]! * root[c]!));
    }
    for (let u = 0; u < inputCount; u++) {
      let b = drive.get(s, u);
      for (let j = 0; j < joints.length; j++) b -= conductance.get(s, joints[j]!) * jointDirect.get(j, u);
      driven.set(r, u, b / root[r]!);
    }
  }
  for (let r = 0; r < m; r++)
    for (let c = 0; c < r; c++) {
      const mean = (scaled.get(r, c) + scaled.get(c, r)) / 2;
      scaled.set(r, c, mean);
      scaled.set(c, r, mean);
    }
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(scaled, { assumeSymmetric: true });
  const order = realEigenvalues.map((_, i) => i).sort((a, b) => realEigenvalues[a]! - realEigenvalues[b]!);

  const rates = Float64Array.from(order, (i) => Math.max(realEigenvalues[i]!, 0));
  const shapes = new Float64Array(n * m);
  const projection = new Float64Array(m * n);
  const drives = new Float64Array(m * inputCount);
  const direct = new Float64Array(n * inputCount);
  order.forEach((from, i) => {
    for (let r = 0; r < m; r++) {
      const v = eigenvectorMatrix.get(r, from);
      shapes[stores[r]! * m + i] = v / root[r]!;
      projection[i * n + stores[r]!] = v * root[r]!;
      for (let u = 0; u < inputCount; u++) drives[i * inputCount + u]! += v * driven.get(r, u);
    }
    for (let j = 0; j < joints.length; j++) {
      let sum = 0;
      for (let r = 0; r < m; r++) sum += follow.get(j, r) * shapes[stores[r]! * m + i]!;
      shapes[joints[j]! * m + i] = sum;
    }
  });
  joints.forEach((node, j) => {
    for (let u = 0; u < inputCount; u++) direct[node * inputCount + u] = jointDirect.get(j, u);
  });
  return { rates, shapes, drives, direct, projection, nodeCount: n, inputCount, network };
}

/** Steady temperatures change of node `node` for a lasting change of one in input `input`: K per K, or K per W. */
export function steadyGain(modes: Modes, node: number, input: number): number {
  const m = modes.rates.length;
  let gain = modes.direct[node * modes.inputCount + input]!;
  for (let i = 0; i < m; i++)
    gain += (modes.shapes[node * m + i]! * modes.drives[i * modes.inputCount + input]!) / modes.rates[i]!;
  return gain;
}

/** Answer of node `node` to a sine of `periodS` in input `input`: share of the amplitude, and lag in s. */
export function sineResponse(
  modes: Modes,
  node: number,
  input: number,
  periodS: number,
): { share: number; lagS: number } {
  const m = modes.rates.length;
  const omega = (2 * Math.PI) / periodS;
  let re = modes.direct[node * modes.inputCount + input]!;
  let im = 0;
  for (let i = 0; i < m; i++) {
    const gain = modes.shapes[node * m + i]! * modes.drives[i * modes.inputCount + input]!;
    const rate = modes.rates[i]!;
    const size = rate * rate + omega * omega;
    re += (gain * rate) / size;
    im -= (gain * omega) / size;
  }
  const lag = Math.atan2(-im, re) / omega;
  return { share: Math.hypot(re, im), lagS: lag < 0 ? lag + periodS : lag };
}

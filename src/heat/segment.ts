/**
 * One stretch of a linear heat network whose inputs run straight: every temperature is a line plus decaying exponentials,
 * and so the moment at which one of them crosses a limit can be found to any accuracy without stepping.
 *
 * C dT/dt = -K T + s0 + s1 t, made symmetric by sqrt(C): T = C^(-1/2) V z, dz/dt = -λ z + V' C^(-1/2) (s0 + s1 t).
 * Each mode: z = α + β t + (z0 - α) exp(-λ t), β = g1/λ, α = (g0 - β)/λ.
 */
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/** A network of n nodes, all of which can lose heat in the end to a boundary (K positive definite). */
export interface Spectrum {
  readonly nodes: number;
  /** Rates λ of the modes, 1/s. */
  readonly rates: Float64Array;
  /** n x n, row by row: temperature of node i per unit of mode k (V over sqrt(C)). */
  readonly shape: Float64Array;
  /** n x n, row by row: mode k per unit of heat into node i, in K/J (transpose of `shape`). */
  readonly intake: Float64Array;
  readonly capacityJK: Float64Array;
}

/**
 * Modes of a network. `capacityJK`: n heat capacities, J/K, all above 0. `conductanceWK`: n x n row by row, symmetric, W/K:
 * minus the conductance between two nodes off the diagonal, the sum of all conductances of a node (boundaries included) on it.
 * Throws RangeError when a node has no way to a boundary, for then there is no steady temperature.
 */
export function spectrumOf(capacityJK: Float64Array, conductanceWK: Float64Array): Spectrum {
  const n = capacityJK.length;
  if (n === 0) return { nodes: 0, rates: capacityJK, shape: capacityJK, intake: capacityJK, capacityJK };
  const scaled = Matrix.zeros(n, n);
  for (let i = 0; i < n; i++) {
    if (!(capacityJK[i]! > 0)) throw new RangeError('every node of a heat network needs a heat capacity above 0');
    for (let j = 0; j < n; j++)
      scaled.set(i, j, conductanceWK[i * n + j]! / Math.sqrt(capacityJK[i]! * capacityJK[j]!));
  }
  const decomposition = new EigenvalueDecomposition(scaled, { assumeSymmetric: true });
  const rates = Float64Array.from(decomposition.realEigenvalues);
  const fastest = rates.reduce((a, b) => Math.max(a, b), 0);
  if (rates.some((rate) => !(rate > 1e-12 * fastest)))
    throw new RangeError('a node of the heat network has no way to give its heat away');
  const shape = new Float64Array(n * n);
  const intake = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let k = 0; k < n; k++) {
      const v = decomposition.eigenvectorMatrix.get(i, k) / Math.sqrt(capacityJK[i]!);
      shape[i * n + k] = v;
      intake[k * n + i] = v;
    }
  return { nodes: n, rates, shape, intake, capacityJK };
}

/** Line, parabola and exponentials of one watched quantity: a + b t + c t^2 + Σ amplitude[k] exp(-rates[k] t). */
export interface Curve {
  a: number;
  b: number;
  c: number;
  readonly amplitude: Float64Array;
  readonly rates: Float64Array;
}

/** The solution of a network from one moment on, valid as long as its inputs run straight. Made once, refilled for each stretch. */
export class Segment {
  readonly spectrum: Spectrum;
  readonly #alpha: Float64Array;
  readonly #beta: Float64Array;
  readonly #excess: Float64Array;

  constructor(spectrum: Spectrum) {
    this.spectrum = spectrum;
    this.#alpha = new Float64Array(spectrum.nodes);
    this.#beta = new Float64Array(spectrum.nodes);
    this.#excess = new Float64Array(spectrum.nodes);
  }

  /** Starts at temperatures `startC` with heat `heatW` and its slope `slopeWs` (W/s) into each node. */
  begin(startC: Float64Array, heatW: Float64Array, slopeWs: Float64Array): void {
    const { nodes: n, rates, intake, capacityJK } = this.spectrum;
    for (let k = 0; k < n; k++) {
      let g0 = 0;
      let g1 = 0;
      let z = 0;
      for (let i = 0; i < n; i++) {
        const v = intake[k * n + i]!;
        g0 += v * heatW[i]!;
        g1 += v * slopeWs[i]!;
        z += v * capacityJK[i]! * startC[i]!;
      }
      const beta = g1 / rates[k]!;
      const alpha = (g0 - beta) / rates[k]!;
      this.#alpha[k] = alpha;
      this.#beta[k] = beta;
      this.#excess[k] = z - alpha;
    }
  }

  /** Temperatures of all nodes `t` seconds after the beginning, written into `out`. */
  temperatures(t: number, out: Float64Array): void {
    const { nodes: n, rates, shape } = this.spectrum;
    out.fill(0);
    for (let k = 0; k < n; k++) {
      const z = this.#alpha[k]! + this.#beta[k]! * t + this.#excess[k]! * Math.exp(-rates[k]! * t);
      for (let i = 0; i < n; i++) out[i]! += shape[i * n + k]! * z;
    }
  }

  /** Mean temperatures of all nodes over the first `t` seconds (exact), written into `out`. */
  means(t: number, out: Float64Array): void {
    const { nodes: n, rates, shape } = this.spectrum;
    out.fill(0);
    for (let k = 0; k < n; k++) {
      const x = rates[k]! * t;
      const decay = x < 1e-12 ? 1 : -Math.expm1(-x) / x;
      const z = this.#alpha[k]! + (this.#beta[k]! * t) / 2 + this.#excess[k]! * decay;
      for (let i = 0; i < n; i++) out[i]! += shape[i * n + k]! * z;
    }
  }

  /** Curve of Σ weight[i] T_i - limit. */
  curve(weight: Float64Array, limit: number): Curve {
    const { nodes: n, rates, shape } = this.spectrum;
    const amplitude = new Float64Array(n);
    let a = -limit;
    let b = 0;
    for (let k = 0; k < n; k++) {
      let h = 0;
      for (let i = 0; i < n; i++) h += weight[i]! * shape[i * n + k]!;
      a += h * this.#alpha[k]!;
      b += h * this.#beta[k]!;
      amplitude[k] = h * this.#excess[k]!;
    }
    return { a, b, c: 0, amplitude, rates };
  }
}

/** The curve of the running integral of `curve` from t = 0, plus `start`. The curve given must have no parabola. */
export function integral(curve: Curve, start: number): Curve {
  const amplitude = new Float64Array(curve.amplitude.length);
  let a = start;
  for (let k = 0; k < amplitude.length; k++) {
    amplitude[k] = -curve.amplitude[k]! / curve.rates[k]!;
    a -= amplitude[k]!;
  }
  return { a, b: curve.a, c: curve.b / 2, amplitude, rates: curve.rates };
}

/** Value of a curve at `t` seconds. */
export function valueAt(curve: Curve, t: number): number {
  let value = curve.a + (curve.b + curve.c * t) * t;
  for (let k = 0; k < curve.amplitude.length; k++) value += curve.amplitude[k]! * Math.exp(-curve.rates[k]! * t);
  return value;
}

/** Events are found to this many seconds. */
const RESOLUTION_S = 1e-6;

/**
 * The first moment in (0, spanS] at which the curve rises to 0 or above (`direction` 1) or falls to 0 or below (-1); Infinity when
 * there is none. A curve that begins beyond 0 crosses at once (0). Nothing is sampled blindly: over a stretch of length h a curve
 * leaves its chord by at most max|f''| h^2/8, so a stretch is passed over only when a crossing inside it is impossible, otherwise halved.
 */
export function firstCrossing(curve: Curve, direction: 1 | -1, spanS: number): number {
  const start = direction * valueAt(curve, 0);
  if (start >= 0) return 0;
  return crossingWithin(curve, direction, 0, start, spanS, direction * valueAt(curve, spanS));
}

function crossingWithin(curve: Curve, sign: 1 | -1, t0: number, f0: number, t1: number, f1: number): number {
  const h = t1 - t0;
  if (f1 < 0) {
    if (h <= RESOLUTION_S) return Number.POSITIVE_INFINITY;
    if (Math.max(f0, f1) + (bend(curve, t0) * h * h) / 8 < 0) return Number.POSITIVE_INFINITY;
  } else if (h <= RESOLUTION_S || h <= 4 * Number.EPSILON * t1) return t1;
  const middle = (t0 + t1) / 2;
  if (middle <= t0 || middle >= t1) return f1 >= 0 ? t1 : Number.POSITIVE_INFINITY;
  const fm = sign * valueAt(curve, middle);
  if (fm >= 0) return crossingWithin(curve, sign, t0, f0, middle, fm);
  const early = crossingWithin(curve, sign, t0, f0, middle, fm);
  return early < Number.POSITIVE_INFINITY ? early : crossingWithin(curve, sign, middle, fm, t1, f1);
}

/** Largest possible |f''| from `t` on: the exponentials only fade. */
function bend(curve: Curve, t: number): number {
  let bound = 2 * Math.abs(curve.c);
  for (let k = 0; k < curve.amplitude.length; k++) {
    const rate = curve.rates[k]!;
    bound += Math.abs(curve.amplitude[k]!) * rate * rate * Math.exp(-rate * t);
  }
  return bound;
}

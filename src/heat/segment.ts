/**
 * One stretch of a linear heat network whose inputs run straight: every temperature is a line plus decaying exponentials,
 * and so the moment at which one of them crosses a limit can be found to any accuracy without stepping.
 *
 * In modes (`modes.ts`), dz/dt = -λ z + g0 + g1 t for inputs u0 + u1 t: z = α + β t + (z0 - α) exp(-λ t), β = g1/λ, α = (g0 - β)/λ.
 */
import type { Modes } from './modes.ts';

/** Line, parabola and exponentials of one watched quantity: a + b t + c t^2 + Σ amplitude[k] exp(-rates[k] t). */
export interface Curve {
  a: number;
  b: number;
  c: number;
  readonly amplitude: number[];
  readonly rates: Float64Array;
}

/** The solution of a network from one moment on, valid as long as its inputs run straight. Made once, refilled for each stretch. */
export class Segment {
  readonly modes: Modes;
  readonly #alpha: Float64Array;
  readonly #beta: Float64Array;
  readonly #excess: Float64Array;
  readonly #inputs: Float64Array;
  readonly #slopes: Float64Array;

  /** Throws RangeError when a node has no way to a boundary, for then there is no steady temperature. */
  constructor(modes: Modes) {
    const fastest = modes.rates.reduce((a, b) => Math.max(a, b), 0);
    if (modes.rates.some((rate) => !(rate > 1e-12 * fastest)))
      throw new RangeError('a node of the heat network has no way to give its heat away');
    this.modes = modes;
    this.#alpha = new Float64Array(modes.rates.length);
    this.#beta = new Float64Array(modes.rates.length);
    this.#excess = new Float64Array(modes.rates.length);
    this.#inputs = new Float64Array(modes.inputCount);
    this.#slopes = new Float64Array(modes.inputCount);
  }

  /** Starts at node temperatures `startC` under `inputs` that rise by `slopes` a second. */
  begin(startC: Float64Array, inputs: Float64Array, slopes: Float64Array): void {
    const { rates, drives, projection, nodeCount, inputCount } = this.modes;
    this.#inputs.set(inputs);
    this.#slopes.set(slopes);
    for (let k = 0; k < rates.length; k++) {
      let g0 = 0;
      let g1 = 0;
      let z = 0;
      for (let u = 0; u < inputCount; u++) {
        const drive = drives[k * inputCount + u]!;
        g0 += drive * inputs[u]!;
        g1 += drive * slopes[u]!;
      }
      for (let i = 0; i < nodeCount; i++) z += projection[k * nodeCount + i]! * startC[i]!;
      const beta = g1 / rates[k]!;
      const alpha = (g0 - beta) / rates[k]!;
      this.#alpha[k] = alpha;
      this.#beta[k] = beta;
      this.#excess[k] = z - alpha;
    }
  }

  /** Temperatures of all nodes `t` seconds after the beginning, written into `out`. */
  temperatures(t: number, out: Float64Array): void {
    this.#spread(t, (rate) => Math.exp(-rate * t), out);
  }

  /** Mean temperatures of all nodes over the first `t` seconds (exact), written into `out`. */
  means(t: number, out: Float64Array): void {
    this.#spread(t / 2, (rate) => (rate * t < 1e-12 ? 1 : -Math.expm1(-rate * t) / (rate * t)), out);
  }

  #spread(along: number, decay: (rate: number) => number, out: Float64Array): void {
    const { rates, shapes, direct, nodeCount, inputCount } = this.modes;
    const count = rates.length;
    out.fill(0);
    for (let k = 0; k < count; k++) {
      const z = this.#alpha[k]! + this.#beta[k]! * along + this.#excess[k]! * decay(rates[k]!);
      for (let i = 0; i < nodeCount; i++) out[i]! += shapes[i * count + k]! * z;
    }
    for (let i = 0; i < nodeCount; i++)
      for (let u = 0; u < inputCount; u++)
        out[i]! += direct[i * inputCount + u]! * (this.#inputs[u]! + this.#slopes[u]! * along);
  }

  /** Curve of Σ weight[i] T_i - limit over all nodes. */
  curve(weight: Float64Array, limit: number): Curve {
    const { rates, shapes, direct, nodeCount, inputCount } = this.modes;
    const count = rates.length;
    const amplitude = new Array<number>(count).fill(0);
    let a = -limit;
    let b = 0;
    for (let i = 0; i < nodeCount; i++) {
      const w = weight[i]!;
      if (w === 0) continue;
      for (let u = 0; u < inputCount; u++) {
        a += w * direct[i * inputCount + u]! * this.#inputs[u]!;
        b += w * direct[i * inputCount + u]! * this.#slopes[u]!;
      }
      for (let k = 0; k < count; k++) amplitude[k]! += w * shapes[i * count + k]!;
    }
    for (let k = 0; k < count; k++) {
      a += amplitude[k]! * this.#alpha[k]!;
      b += amplitude[k]! * this.#beta[k]!;
      amplitude[k]! *= this.#excess[k]!;
    }
    return { a, b, c: 0, amplitude, rates };
  }
}

/** The curve of the running integral of `curve` from t = 0, plus `start`. The curve given must have no parabola. */
export function integral(curve: Curve, start: number): Curve {
  const amplitude = new Array<number>(curve.amplitude.length).fill(0);
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
  if (highest(curve, direction, spanS) < 0) return Number.POSITIVE_INFINITY;
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

/** A bound no value of sign x curve exceeds in [0, spanS]: each exponential is largest at one of its ends. */
function highest(curve: Curve, sign: 1 | -1, spanS: number): number {
  const end = (curve.b + curve.c * spanS) * spanS;
  let bound = sign * curve.a + Math.max(0, sign * end) + (Math.abs(curve.c) * spanS * spanS) / 4;
  for (let k = 0; k < curve.amplitude.length; k++) {
    const amplitude = sign * curve.amplitude[k]!;
    bound += amplitude > 0 ? amplitude : amplitude * Math.exp(-curve.rates[k]! * spanS);
  }
  return bound;
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

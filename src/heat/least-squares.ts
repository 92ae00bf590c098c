/**
 * Non-linear least squares within bounds by Levenberg (1944) and Marquardt (1963), J. Soc. Indust. Appl. Math. 11:431-441, damping
 * scaled by the diagonal of J'J, with central differences. Small problems: a handful of parameters, thousands of residuals.
 */
import { CholeskyDecomposition, EigenvalueDecomposition, Matrix } from 'ml-matrix';

export interface LeastSquaresProblem {
  readonly start: ArrayLike<number>;
  readonly low: ArrayLike<number>;
  readonly high: ArrayLike<number>;
  readonly residuals: number;
  /** Writes the residuals at `parameters` into `out`; they must be finite. */
  readonly evaluate: (parameters: Float64Array, out: Float64Array) => void;
  /** Step of the differences for each parameter; default 1e-4 of its size, at least 1e-6. */
  readonly stepOf?: (parameters: Float64Array, index: number) => number;
  /** Stop when the sum of squares falls by less than this share; default 1e-12. */
  readonly tolerance?: number;
}

export interface LeastSquaresFit {
  readonly parameters: Float64Array;
  readonly residuals: Float64Array;
  /** One column per parameter: derivative of every residual. */
  readonly jacobian: readonly Float64Array[];
  readonly sumOfSquares: number;
  readonly iterations: number;
  /** Parameters that ended on a bound. */
  readonly atBound: readonly boolean[];
}

const MOST_ITERATIONS = 60;

export function leastSquares(problem: LeastSquaresProblem): LeastSquaresFit {
  const count = problem.start.length;
  const rows = problem.residuals;
  const { evaluate } = problem;
  const tolerance = problem.tolerance ?? 1e-12;
  const clamp = (value: number, p: number) => Math.min(Math.max(value, problem.low[p]!), problem.high[p]!);
  let at = Float64Array.from({ length: count }, (_, p) => clamp(problem.start[p]!, p));
  let residuals = new Float64Array(rows);
  evaluate(at, residuals);
  let sum = dot(residuals, residuals);
  const jacobian = Array.from({ length: count }, () => new Float64Array(rows));
  const trial = new Float64Array(rows);
  let damping = 1e-3;
  let iterations = 0;
  let fresh = false;

  while (iterations < MOST_ITERATIONS) {
    differences(problem, at, jacobian);
    fresh = true;
    const normal = new Matrix(count, count);
    const gradient = new Float64Array(count);
    for (let p = 0; p < count; p++) {
      gradient[p] = dot(jacobian[p]!, residuals);
      for (let q = 0; q <= p; q++) {
        const value = dot(jacobian[p]!, jacobian[q]!);
        normal.set(p, q, value);
        normal.set(q, p, value);
      }
    }
    // A parameter held by its bound takes no part in the step.
    const free: number[] = [];
    for (let p = 0; p < count; p++) {
      const held = (at[p]! <= problem.low[p]! && gradient[p]! > 0) || (at[p]! >= problem.high[p]! && gradient[p]! < 0);
      if (!held && normal.get(p, p) > 0) free.push(p);
    }
    if (free.length === 0) break;
    let better = false;
    let gain = 0;
    while (iterations < MOST_ITERATIONS && !better && damping < 1e12) {
      iterations += 1;
      const system = normal.selection(free, free);
      for (let i = 0; i < free.length; i++) system.set(i, i, system.get(i, i) * (1 + damping));
      const cholesky = new CholeskyDecomposition(system);
      if (!cholesky.isPositiveDefinite()) {
        damping *= 10;
        continue;
      }
      const step = cholesky.solve(Matrix.columnVector(free.map((p) => -gradient[p]!)));
      const next = at.slice();
      free.forEach((p, i) => {
        next[p] = clamp(at[p]! + step.get(i, 0), p);
      });
      evaluate(next, trial);
      const sumNext = dot(trial, trial);
      if (sumNext <= sum) {
        gain = sum - sumNext;
        sum = sumNext;
        at = next;
        residuals = trial.slice();
        damping = Math.max(damping / 10, 1e-12);
        better = true;
        fresh = false;
      } else damping *= 5;
    }
    if (!better || gain <= tolerance * sum || sum === 0) break;
  }
  if (!fresh) differences(problem, at, jacobian);
  return {
    parameters: at,
    residuals,
    jacobian,
    sumOfSquares: sum,
    iterations,
    atBound: Array.from(at, (value, p) => value <= problem.low[p]! || value >= problem.high[p]!),
  };
}

function differences(problem: LeastSquaresProblem, at: Float64Array, jacobian: readonly Float64Array[]): void {
  const above = new Float64Array(problem.residuals);
  const below = new Float64Array(problem.residuals);
  for (let p = 0; p < at.length; p++) {
    const step = problem.stepOf?.(at, p) ?? Math.max(1e-4 * Math.abs(at[p]!), 1e-6);
    const moved = at.slice();
    moved[p] = at[p]! + step;
    problem.evaluate(moved, above);
    moved[p] = at[p]! - step;
    problem.evaluate(moved, below);
    const column = jacobian[p]!;
    for (let i = 0; i < column.length; i++) column[i] = (above[i]! - below[i]!) / (2 * step);
  }
}

/** Inverse of J'J; the residual variance times it is the covariance of the parameters. Throws RangeError when J'J is singular. */
export function inverseNormal(jacobian: readonly Float64Array[]): Matrix {
  const count = jacobian.length;
  // Scaled to unit columns first, so that units do not decide what is singular.
  const sizes = jacobian.map((column) => Math.sqrt(dot(column, column)));
  if (sizes.some((size) => !(size > 0))) throw new RangeError('a parameter has no effect on any reading');
  const normal = new Matrix(count, count);
  for (let p = 0; p < count; p++)
    for (let q = 0; q < count; q++) normal.set(p, q, dot(jacobian[p]!, jacobian[q]!) / (sizes[p]! * sizes[q]!));
  const { realEigenvalues } = new EigenvalueDecomposition(normal, { assumeSymmetric: true });
  if (realEigenvalues.some((value) => value < 1e-14)) throw new RangeError('parameters cannot be told apart');
  const inverse = new CholeskyDecomposition(normal).solve(Matrix.eye(count));
  for (let p = 0; p < count; p++)
    for (let q = 0; q < count; q++) inverse.set(p, q, inverse.get(p, q) / (sizes[p]! * sizes[q]!));
  return inverse;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

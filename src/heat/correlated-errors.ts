/**
 * Errors that follow one another. Residuals of a calibration from readings minutes apart are far from independent; taken as
 * independent, standard errors come out several times too small: by sqrt((1+φ)/(1-φ)), 4.4 at φ 0.9 and 14 at 0.99.
 */
import { Matrix as Matrices, type Matrix } from 'ml-matrix';
import { dot } from './least-squares.ts';

/** Correlation ρ(Δ) = share exp(-Δ/timeS) between residuals Δ seconds apart; the rest, 1 - share, is noise of each reading alone. */
interface ErrorMemory {
  readonly share: number;
  readonly timeS: number;
}

/** A run of residuals of one probe, in order of time. */
export interface ResidualRun {
  readonly atS: Float64Array;
  readonly from: number;
  readonly count: number;
}

/**
 * Memory of residuals, by the empirical autocorrelation of each probe's residuals in bins about the usual spacing apart: the time
 * at which it has fallen to 1/e of its value at the shortest lag.
 */
function errorMemory(residuals: Float64Array, runs: readonly ResidualRun[]): ErrorMemory {
  let shortest = Number.POSITIVE_INFINITY;
  let span = 0;
  for (const run of runs) {
    if (run.count < 3) continue;
    const first = run.atS[run.from]!;
    const last = run.atS[run.from + run.count - 1]!;
    shortest = Math.min(shortest, (last - first) / (run.count - 1));
    span = Math.max(span, last - first);
  }
  if (!(shortest < Number.POSITIVE_INFINITY)) return { share: 0, timeS: 1 };
  const lags = new Set<number>();
  for (let lag = 1; lag * shortest <= span / 4; lag = Math.ceil(lag * 1.25)) lags.add(lag);
  let first: { lagS: number; rho: number } | undefined;
  let before = { lagS: 0, rho: 1 };
  for (const lag of lags) {
    const rho = autocorrelation(residuals, runs, lag * shortest, shortest / 2);
    if (Number.isNaN(rho)) continue;
    const lagS = lag * shortest;
    if (!first) {
      if (rho <= 2 / Math.sqrt(residuals.length)) return { share: 0, timeS: shortest };
      first = { lagS, rho };
    }
    const target = first.rho / Math.E;
    if (rho < target) {
      const fall = before.rho - rho;
      const at = before.lagS + (fall > 0 ? ((before.rho - target) / fall) * (lagS - before.lagS) : 0);
      const timeS = Math.max(at - first.lagS, first.lagS === lagS ? -lagS / Math.log(rho) : shortest / 4);
      return { share: Math.min(1, first.rho * Math.exp(first.lagS / timeS)), timeS };
    }
    before = { lagS, rho };
  }
  return first ? { share: Math.min(1, first.rho), timeS: span / 4 } : { share: 0, timeS: shortest };
}

function autocorrelation(
  residuals: Float64Array,
  runs: readonly ResidualRun[],
  lagS: number,
  toleranceS: number,
): number {
  let products = 0;
  let pairs = 0;
  let squares = 0;
  let all = 0;
  for (const { atS, from, count } of runs) {
    let j = from;
    for (let i = from; i < from + count; i++) {
      squares += residuals[i]! * residuals[i]!;
      all += 1;
      while (j < from + count && atS[j]! - atS[i]! < lagS - toleranceS) j++;
      if (j < from + count && atS[j]! - atS[i]! <= lagS + toleranceS) {
        products += residuals[i]! * residuals[j]!;
        pairs += 1;
      }
    }
  }
  return pairs < 10 || squares === 0 ? Number.NaN : products / pairs / (squares / all);
}

/**
 * Middle of the sandwich: J' V J with V the correlation matrix of the residuals, in one pass: with F the running sum of J faded by
 * exp(-Δ/time), J' V J = (1 - share) J'J + share (J'F + F'J - J'J). Exact for uneven spacing.
 */
function correlatedScore(jacobian: readonly Float64Array[], runs: readonly ResidualRun[], memory: ErrorMemory): Matrix {
  const count = jacobian.length;
  const middle = Matrices.zeros(count, count);
  const faded = new Float64Array(count);
  for (const { atS, from, count: length } of runs) {
    faded.fill(0);
    for (let i = from; i < from + length; i++) {
      const keep = i === from ? 0 : Math.exp(-(atS[i]! - atS[i - 1]!) / memory.timeS);
      for (let p = 0; p < count; p++) {
        const own = jacobian[p]![i]!;
        for (let q = 0; q < count; q++) {
          const back = keep * faded[q]!;
          middle.set(p, q, middle.get(p, q) + own * (jacobian[q]![i]! + 2 * memory.share * back));
        }
      }
      for (let p = 0; p < count; p++) faded[p] = keep * faded[p]! + jacobian[p]![i]!;
    }
  }
  // 2 share J_t F_{t-1}' summed is symmetric only after adding its transpose: halve and add.
  const symmetric = middle.clone().add(middle.transpose()).div(2);
  return symmetric;
}

export interface CorrectedCovariance {
  readonly covariance: Matrix;
  /** Variance of one residual, corrected for what the fit has taken out. */
  readonly variance: number;
  /** How many readings say as much as one alone would. */
  readonly redundancy: number;
  /** Independent residuals the readings are worth, less the parameters. */
  readonly freedom: number;
  readonly memory: ErrorMemory;
  /** How many times larger than under independence each standard error is. */
  readonly inflation: readonly number[];
}

/** How the fit weighed its data: each row by 1/sqrt(redundancy), beside priors of these standard deviations (Infinity: none). */
export interface Weighing {
  readonly redundancy: number;
  readonly priorSds: readonly number[];
}

/**
 * Covariance of least-squares parameters with correlated residuals (sandwich): N (J'VJ σ²/r² + P) N, with N the inverse of the normal matrix
 * J'J/r + P the fit used, r its redundancy, P the precision of its priors; without them (J'J)^-1 J'VJ (J'J)^-1 σ². The residual sum of
 * squares is about σ²(n - tr(N J'VJ)/r), which gives σ². `residuals` and `jacobian` hold the data alone, each reading whole.
 */
export function correctedCovariance(
  residuals: Float64Array,
  jacobian: readonly Float64Array[],
  inverse: Matrix,
  runs: readonly ResidualRun[],
  weighing: Weighing = { redundancy: 1, priorSds: [] },
): CorrectedCovariance {
  const memory = errorMemory(residuals, runs);
  const middle = correlatedScore(jacobian, runs, memory);
  const n = residuals.length;
  const { redundancy, priorSds } = weighing;
  const taken = inverse.mmul(middle).trace() / redundancy;
  const sum = dot(residuals, residuals);
  const variance = sum / Math.max(n - taken, n / 4);
  const score = middle.mul(variance / (redundancy * redundancy));
  jacobian.forEach((_, p) => {
    const sd = priorSds[p] ?? Number.POSITIVE_INFINITY;
    if (Number.isFinite(sd)) score.set(p, p, score.get(p, p) + 1 / (sd * sd));
  });
  const covariance = inverse.mmul(score).mmul(inverse);
  // Worth of n correlated values for a mean: n / (1 + 2 Σ ρ).
  let pairs = 0;
  for (const { atS, from, count } of runs) {
    let faded = 0;
    for (let i = from + 1; i < from + count; i++) {
      faded = Math.exp(-(atS[i]! - atS[i - 1]!) / memory.timeS) * (faded + 1);
      pairs += 2 * memory.share * faded;
    }
  }
  const worth = (n * n) / Math.max(n + pairs, 1);
  const naive = sum / Math.max(n - jacobian.length, 1) / redundancy;
  return {
    covariance,
    variance,
    redundancy: n / worth,
    freedom: Math.max(worth - jacobian.length / 2, 3),
    memory,
    inflation: jacobian.map((_, p) => Math.sqrt(covariance.get(p, p) / (naive * inverse.get(p, p)))),
  };
}

/** Quantile of Student's t: `freedom` degrees, two-sided 90 % (Cornish-Fisher expansion about 1.6449; Abramowitz and Stegun 26.7.5). */
export function student90(freedom: number): number {
  const z = 1.6448536;
  const v = Math.max(freedom, 2);
  return (
    z +
    (z ** 3 + z) / (4 * v) +
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * v * v) +
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / (384 * v ** 3)
  );
}

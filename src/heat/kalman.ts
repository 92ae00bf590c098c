/**
 * Linear Kalman filter (Kalman 1960, J. Basic Eng. 82:35-45) with the covariance update of Bucy and Joseph 1968, which stays symmetric and
 * positive under rounding: P = (I - k h') P (I - k h')' + k r k'. Readings are taken one at a time; matrices are row by row.
 */
export interface KalmanState {
  readonly size: number;
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
}

export function kalmanState(mean: ArrayLike<number>, variances: ArrayLike<number>): KalmanState {
  const size = mean.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) covariance[i * size + i] = variances[i]!;
  return { size, mean: Float64Array.from(mean), covariance };
}

/** One step on, in place: x = F x + input, P = F P F' + Q. */
export function predictStep(
  state: KalmanState,
  transition: Float64Array,
  input: Float64Array,
  noise: Float64Array,
): void {
  const { size: n, mean, covariance: p } = state;
  const moved = new Float64Array(n);
  const half = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    let sum = input[i]!;
    for (let k = 0; k < n; k++) {
      const f = transition[i * n + k]!;
      if (f === 0) continue;
      sum += f * mean[k]!;
      for (let j = 0; j < n; j++) half[i * n + j]! += f * p[k * n + j]!;
    }
    moved[i] = sum;
  }
  mean.set(moved);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += half[i * n + k]! * transition[j * n + k]!;
      const value = sum + (noise[i * n + j]! + noise[j * n + i]!) / 2;
      p[i * n + j] = value;
      p[j * n + i] = value;
    }
}

/** What a reading did to the state. */
export interface Innovation {
  /** Reading minus what was expected, and the variance it was expected to have. */
  readonly surprise: number;
  readonly variance: number;
  readonly gain: Float64Array;
}

/** Takes in a reading = h'x + noise of variance `readingVariance` (Infinity: changes nothing), in place. */
export function takeReading(state: KalmanState, h: Float64Array, reading: number, readingVariance: number): Innovation {
  const { size: n, mean, covariance: p } = state;
  const ph = new Float64Array(n);
  let expected = 0;
  let variance = readingVariance;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += p[i * n + j]! * h[j]!;
    ph[i] = sum;
    expected += h[i]! * mean[i]!;
  }
  for (let i = 0; i < n; i++) variance += h[i]! * ph[i]!;
  const gain = ph.map((value) => (Number.isFinite(variance) ? value / variance : 0));
  const surprise = reading - expected;
  if (!Number.isFinite(variance)) return { surprise, variance, gain };
  for (let i = 0; i < n; i++) mean[i]! += gain[i]! * surprise;
  // (I - k h') P, then times its transpose form, plus k r k'.
  const left = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) left[i * n + j] = p[i * n + j]! - gain[i]! * ph[j]!;
  const lh = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += left[i * n + j]! * h[j]!;
    lh[i] = sum;
  }
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const one = left[i * n + j]! - lh[i]! * gain[j]!;
      const other = left[j * n + i]! - lh[j]! * gain[i]!;
      const value = (one + other) / 2 + gain[i]! * readingVariance * gain[j]!;
      p[i * n + j] = value;
      p[j * n + i] = value;
    }
  return { surprise, variance, gain };
}

/** Mean and variance of h'x. */
export function outlook(state: KalmanState, h: Float64Array): { readonly mean: number; readonly variance: number } {
  const { size: n, mean, covariance: p } = state;
  let value = 0;
  let variance = 0;
  for (let i = 0; i < n; i++) {
    if (h[i] === 0) continue;
    value += h[i]! * mean[i]!;
    for (let j = 0; j < n; j++) variance += h[i]! * h[j]! * p[i * n + j]!;
  }
  return { mean: value, variance };
}

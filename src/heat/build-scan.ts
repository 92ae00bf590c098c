/** The hot loops of the search: one build through many winters, counted as it runs, nothing allocated per hour. */
import type { Recursion } from './run.ts';

/** A stretch of one winter: where to begin so that the start is forgotten, and the samples that count. */
export interface ScanStretch {
  readonly airC: Float64Array;
  readonly floorC: Float64Array;
  readonly runFrom: number;
  readonly countFrom: number;
  readonly countTo: number;
}

export interface ScanLimits {
  readonly lowC: number;
  readonly highC: number;
  readonly coldC: number;
  readonly warmC: number;
}

/** Counts of one stretch, in samples. */
export interface ScanCount {
  inBand: number;
  cold: number;
  warm: number;
  below: number;
  above: number;
  sumC: number;
  lowestC: number;
  highestC: number;
}

/** Counts samples `from` to `to` of temperatures already run into `count`. */
export function countSamples(
  tempC: Float64Array,
  from: number,
  to: number,
  limits: ScanLimits,
  count: ScanCount,
): void {
  const { lowC, highC, coldC, warmC } = limits;
  let [inBand, cold, warm, below, above, sum] = [0, 0, 0, 0, 0, 0];
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let k = from; k <= to; k++) {
    const t = tempC[k]!;
    sum += t;
    if (t < lowC) {
      below += 1;
      if (t < coldC) cold += 1;
    } else if (t > highC) {
      above += 1;
      if (t > warmC) warm += 1;
    } else inBand += 1;
    if (t < lowest) lowest = t;
    if (t > highest) highest = t;
  }
  count.inBand = inBand;
  count.cold = cold;
  count.warm = warm;
  count.below = below;
  count.above = above;
  count.sumC = sum;
  count.lowestC = lowest;
  count.highestC = highest;
}

const WIDTH = 4;

/**
 * Runs the recursion over a stretch, settled at its first sample, `heatW` steady on its third input, and counts into `count`.
 * Inputs in the order of a box: air, floor, heat. Modes beyond the first block of four run in further blocks through `scratch`,
 * which must be as long as the stretch.
 */
export function scanStretch(
  recursion: Recursion,
  stretch: ScanStretch,
  heatW: number,
  limits: ScanLimits,
  scratch: Float64Array,
  count: ScanCount,
): void {
  const { poles, gains, direct, settled } = recursion;
  const { airC, floorC, runFrom, countFrom, countTo } = stretch;
  const { lowC, highC, coldC, warmC } = limits;
  const modes = poles.length;
  const air0 = airC[runFrom]!;
  const floor0 = floorC[runFrom]!;
  const at = (values: Float64Array, k: number) => (k < values.length ? values[k]! : 0);
  const begin = (i: number) =>
    i < modes ? settled[3 * i]! * air0 + settled[3 * i + 1]! * floor0 + settled[3 * i + 2]! * heatW : 0;
  let extra = false;
  for (let block = WIDTH; block < modes; block += WIDTH) {
    extra = true;
    for (let i = block; i < Math.min(block + WIDTH, modes); i++) {
      const [p, a, f, h] = [poles[i]!, gains[3 * i]!, gains[3 * i + 1]!, gains[3 * i + 2]! * heatW];
      let x = begin(i);
      const fresh = i === WIDTH;
      for (let k = runFrom; k <= countTo; k++) {
        scratch[k - runFrom] = fresh ? x : scratch[k - runFrom]! + x;
        x = p * x + a * airC[k]! + f * floorC[k]! + h;
      }
    }
  }
  const [p0, p1, p2, p3] = [at(poles, 0), at(poles, 1), at(poles, 2), at(poles, 3)];
  const [a0, a1, a2, a3] = [at(gains, 0), at(gains, 3), at(gains, 6), at(gains, 9)];
  const [f0, f1, f2, f3] = [at(gains, 1), at(gains, 4), at(gains, 7), at(gains, 10)];
  const [h0, h1, h2, h3] = [at(gains, 2) * heatW, at(gains, 5) * heatW, at(gains, 8) * heatW, at(gains, 11) * heatW];
  let [x0, x1, x2, x3] = [begin(0), begin(1), begin(2), begin(3)];
  const [da, df, dh] = [direct[0]!, direct[1]!, direct[2]! * heatW];
  let [inBand, cold, warm, below, above, sum] = [0, 0, 0, 0, 0, 0];
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let k = runFrom; k < countFrom; k++) {
    const u = airC[k]!;
    const v = floorC[k]!;
    x0 = p0 * x0 + a0 * u + f0 * v + h0;
    x1 = p1 * x1 + a1 * u + f1 * v + h1;
    x2 = p2 * x2 + a2 * u + f2 * v + h2;
    x3 = p3 * x3 + a3 * u + f3 * v + h3;
  }
  for (let k = countFrom; k <= countTo; k++) {
    const u = airC[k]!;
    const v = floorC[k]!;
    let t = x0 + x1 + (x2 + x3) + (da * u + df * v + dh);
    if (extra) t += scratch[k - runFrom]!;
    sum += t;
    if (t < lowC) {
      below += 1;
      if (t < coldC) cold += 1;
    } else if (t > highC) {
      above += 1;
      if (t > warmC) warm += 1;
    } else inBand += 1;
    if (t < lowest) lowest = t;
    if (t > highest) highest = t;
    x0 = p0 * x0 + a0 * u + f0 * v + h0;
    x1 = p1 * x1 + a1 * u + f1 * v + h1;
    x2 = p2 * x2 + a2 * u + f2 * v + h2;
    x3 = p3 * x3 + a3 * u + f3 * v + h3;
  }
  count.inBand = inBand;
  count.cold = cold;
  count.warm = warm;
  count.below = below;
  count.above = above;
  count.sumC = sum;
  count.lowestC = lowest;
  count.highestC = highest;
}

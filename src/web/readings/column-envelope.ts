/** One line of the chart: times rising, and lowest, mean and highest of each stretch (the same three for single readings). */
export interface LongSeries {
  readonly atMs: Float64Array;
  readonly minC: Float32Array;
  readonly meanC: Float32Array;
  readonly maxC: Float32Array;
  /** A step in time longer than this is a gap and no line is drawn over it, ms. */
  readonly gapMs: number;
}

/** What is drawn of a line: one column of pixels at a time, in runs parted by gaps. Kept and filled again for each frame. */
export interface Columns {
  readonly x: Float32Array;
  readonly low: Float32Array;
  readonly mean: Float32Array;
  readonly high: Float32Array;
  /** Index of the first column of each run. */
  readonly runs: Int32Array;
  count: number;
  runCount: number;
}

export const makeColumns = (most: number): Columns => ({
  x: new Float32Array(most),
  low: new Float32Array(most),
  mean: new Float32Array(most),
  high: new Float32Array(most),
  runs: new Int32Array(most),
  count: 0,
  runCount: 0,
});

/** Index of the first time at or after `ms`. */
export function firstAtOrAfter(atMs: Float64Array, ms: number): number {
  let [low, high] = [0, atMs.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((atMs[middle] as number) < ms) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Lowest, mean and highest of each pixel column of [fromMs, toMs) on `width` pixels, one point beyond each edge included so that lines
 * run out of the picture. Every extreme is kept, so a single cold reading stays in sight at any zoom. At most 2·width + 4 columns.
 */
export function fillColumns(series: LongSeries, fromMs: number, toMs: number, width: number, out: Columns): void {
  const { atMs, minC, meanC, maxC, gapMs } = series;
  const first = Math.max(0, firstAtOrAfter(atMs, fromMs) - 1);
  const last = Math.min(atMs.length - 1, firstAtOrAfter(atMs, toMs));
  const scale = width / (toMs - fromMs);
  let count = 0;
  let runCount = 0;
  let column = Number.NaN;
  let before = Number.NEGATIVE_INFINITY;
  let low = 0;
  let high = 0;
  let sum = 0;
  let sumX = 0;
  let points = 0;
  const most = out.x.length;
  for (let i = first; i <= last; i++) {
    const at = atMs[i] as number;
    const x = (at - fromMs) * scale;
    const here = Math.floor(x);
    const gap = at - before > gapMs;
    before = at;
    if (here !== column || gap) {
      if (points > 0 && count < most) {
        out.x[count] = sumX / points;
        out.low[count] = low;
        out.mean[count] = sum / points;
        out.high[count] = high;
        count++;
      }
      if (gap && count < most) out.runs[runCount++] = count;
      column = here;
      low = minC[i] as number;
      high = maxC[i] as number;
      sum = meanC[i] as number;
      sumX = x;
      points = 1;
      continue;
    }
    const cold = minC[i] as number;
    const warm = maxC[i] as number;
    if (cold < low) low = cold;
    if (warm > high) high = warm;
    sum += meanC[i] as number;
    sumX += x;
    points++;
  }
  if (points > 0 && count < most) {
    out.x[count] = sumX / points;
    out.low[count] = low;
    out.mean[count] = sum / points;
    out.high[count] = high;
    count++;
  }
  out.count = count;
  out.runCount = runCount;
}

/** Lowest and highest within [fromMs, toMs], or undefined when nothing was read. */
export function extremesOf(series: readonly LongSeries[], fromMs: number, toMs: number): [number, number] | undefined {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { atMs, minC, maxC } of series) {
    const end = firstAtOrAfter(atMs, toMs);
    for (let i = firstAtOrAfter(atMs, fromMs); i < end; i++) {
      if ((minC[i] as number) < low) low = minC[i] as number;
      if ((maxC[i] as number) > high) high = maxC[i] as number;
    }
  }
  return low <= high ? [low, high] : undefined;
}

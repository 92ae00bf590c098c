import type { WeatherSeries } from './series.ts';

/** Samples at uneven instants: `atMs` rising, every column of the same length, NaN where a value is missing. */
export interface Samples {
  readonly atMs: Float64Array;
  readonly airTempC: Float64Array;
  readonly cloudShare?: Float64Array;
  readonly dewPointC?: Float64Array;
  readonly relativeHumidity?: Float64Array;
  readonly windMs?: Float64Array;
}

/** The commonest spacing of rising instants, s; 3600 when there are fewer than two. */
export function commonestStepS(atMs: Float64Array): number {
  const counts = new Map<number, number>();
  for (let i = 1; i < atMs.length; i++) {
    const step = Math.round((atMs[i]! - atMs[i - 1]!) / 1000);
    counts.set(step, (counts.get(step) ?? 0) + 1);
  }
  let best = 3600;
  let most = 0;
  for (const [step, count] of counts)
    if (count > most && step > 0) {
      best = step;
      most = count;
    }
  return best;
}

/** One column on the grid: the value at the instant, or on the straight line between two samples at most `reachMs` apart; NaN elsewhere. */
function columnOnGrid(
  atMs: Float64Array,
  values: Float64Array,
  grid: { startMs: number; stepMs: number; count: number; reachMs: number },
): Float64Array {
  const out = new Float64Array(grid.count).fill(Number.NaN);
  let right = 0;
  for (let i = 0; i < grid.count; i++) {
    const at = grid.startMs + i * grid.stepMs;
    while (right < atMs.length && atMs[right]! < at) right++;
    if (right >= atMs.length) break;
    if (atMs[right] === at) {
      out[i] = values[right]!;
      continue;
    }
    if (right === 0) continue;
    const left = right - 1;
    const apart = atMs[right]! - atMs[left]!;
    if (apart > grid.reachMs) continue;
    const share = (at - atMs[left]!) / apart;
    out[i] = values[left]! * (1 - share) + values[right]! * share;
  }
  return out;
}

/**
 * Samples brought to even steps from the first sample on. A value is only drawn between neighbours at most `reachS` apart, and only when
 * both are there: what is missing stays missing.
 */
export function seriesFromSamples(samples: Samples, stepS: number, reachS: number): WeatherSeries {
  const stepMs = stepS * 1000;
  const first = samples.atMs[0];
  if (first === undefined) throw new RangeError('There are no samples');
  const count = Math.max(0, Math.floor((samples.atMs.at(-1)! - first) / stepMs) + 1);
  const grid = { startMs: first, stepMs, count, reachMs: reachS * 1000 };
  const { atMs, ...columns } = samples;
  const out: Record<string, Float64Array> = {};
  for (const [name, values] of Object.entries(columns)) out[name] = columnOnGrid(atMs, values, grid);
  return { startMs: first, stepS, ...out } as unknown as WeatherSeries;
}

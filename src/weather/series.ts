/**
 * Weather at even steps. A missing hour is NaN and stays NaN: nothing here fills a gap with a smooth line.
 * Every column has the length of `airTempC`; sample i belongs to the instant `startMs + i * stepS * 1000`.
 */
export interface WeatherSeries {
  /** Instant of the first sample, ms since 1970 UTC. */
  readonly startMs: number;
  /** Spacing of the samples, s. */
  readonly stepS: number;
  /** Air temperature, °C. */
  readonly airTempC: Float64Array;
  /** Cloud cover as a share of the sky, 0 to 1. */
  readonly cloudShare?: Float64Array;
  /** Dew point, °C. */
  readonly dewPointC?: Float64Array;
  /** Relative humidity as a share, 0 to 1. */
  readonly relativeHumidity?: Float64Array;
  /** Wind speed, m/s. */
  readonly windMs?: Float64Array;
}

type Column = 'airTempC' | 'cloudShare' | 'dewPointC' | 'relativeHumidity' | 'windMs';
const COLUMNS: readonly Column[] = ['airTempC', 'cloudShare', 'dewPointC', 'relativeHumidity', 'windMs'];

/** Instant of sample `index`, ms since 1970 UTC. */
export function sampleMs(series: WeatherSeries, index: number): number {
  return series.startMs + index * series.stepS * 1000;
}

/** Instant of the last sample, ms since 1970 UTC. Throws RangeError for an empty series. */
export function lastSampleMs(series: WeatherSeries): number {
  if (series.airTempC.length === 0) throw new RangeError('The series has no samples');
  return sampleMs(series, series.airTempC.length - 1);
}

/** The same instants with every column passed through `change`; columns the series lacks stay absent. */
function mapColumns(
  series: WeatherSeries,
  startMs: number,
  stepS: number,
  change: (column: Float64Array) => Float64Array,
): WeatherSeries {
  const columns: Partial<Record<Column, Float64Array>> = {};
  for (const name of COLUMNS) {
    const column = series[name];
    if (column) columns[name] = change(column);
  }
  return { startMs, stepS, ...columns } as WeatherSeries;
}

/**
 * The samples with `fromMs` <= instant < `toMs`, on the grid of the series. Where the asked span reaches beyond the
 * record the result holds NaN, so that a slice always covers what was asked and what is missing shows.
 */
export function sliceSeries(series: WeatherSeries, fromMs: number, toMs: number): WeatherSeries {
  if (!(toMs >= fromMs)) throw new RangeError('A slice must not end before it begins');
  const stepMs = series.stepS * 1000;
  const first = Math.ceil((fromMs - series.startMs) / stepMs);
  const end = Math.max(first, Math.ceil((toMs - series.startMs) / stepMs));
  return mapColumns(series, series.startMs + first * stepMs, series.stepS, (column) => {
    const out = new Float64Array(end - first).fill(Number.NaN);
    const from = Math.max(first, 0);
    const to = Math.min(end, column.length);
    if (to > from) out.set(column.subarray(from, to), from - first);
    return out;
  });
}

/**
 * The series at another spacing, beginning with the same sample. To a finer or odd step: straight line between neighbours,
 * and NaN wherever a neighbour is missing. To a whole multiple of the step: the value at each kept instant, or with
 * `how: 'mean'` the mean of the samples from that instant until the next (NaN when any of them is missing).
 */
export function resampleSeries(
  series: WeatherSeries,
  stepS: number,
  how: 'at-instant' | 'mean' = 'at-instant',
): WeatherSeries {
  if (!(stepS > 0)) throw new RangeError('The step must be more than 0 s');
  const length = series.airTempC.length;
  const ratio = stepS / series.stepS;
  if (how === 'mean') {
    if (!Number.isInteger(ratio)) throw new RangeError('A mean needs a step that is a whole multiple of the old one');
    const count = Math.floor(length / ratio);
    return mapColumns(series, series.startMs, stepS, (column) => {
      const out = new Float64Array(count);
      for (let i = 0; i < count; i++) {
        let sum = 0;
        for (let k = i * ratio; k < (i + 1) * ratio; k++) sum += column[k]!;
        out[i] = sum / ratio;
      }
      return out;
    });
  }
  const count = length === 0 ? 0 : Math.floor((length - 1) / ratio + 1e-9) + 1;
  return mapColumns(series, series.startMs, stepS, (column) => {
    const out = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const at = i * ratio;
      const left = Math.floor(at + 1e-9);
      const share = at - left;
      out[i] = share < 1e-9 ? column[left]! : column[left]! * (1 - share) + column[left + 1]! * share;
    }
    return out;
  });
}

/** A run of missing air temperatures: from the first missing instant until the next present one (or the end). */
interface Gap {
  readonly fromMs: number;
  readonly toMs: number;
}

/** What of a series is missing. */
export interface GapReport {
  /** Share of samples without an air temperature, 0 to 1; 1 for an empty series. */
  readonly missingShare: number;
  readonly gaps: readonly Gap[];
  /** The longest gap, h. */
  readonly longestH: number;
}

export function gapReport(series: WeatherSeries): GapReport {
  const { airTempC } = series;
  const gaps: Gap[] = [];
  let missing = 0;
  let longest = 0;
  for (let i = 0; i < airTempC.length; i++) {
    if (!Number.isNaN(airTempC[i]!)) continue;
    let end = i;
    while (end < airTempC.length && Number.isNaN(airTempC[end]!)) end++;
    gaps.push({ fromMs: sampleMs(series, i), toMs: sampleMs(series, end) });
    missing += end - i;
    longest = Math.max(longest, end - i);
    i = end;
  }
  return {
    missingShare: airTempC.length === 0 ? 1 : missing / airTempC.length,
    gaps,
    longestH: (longest * series.stepS) / 3600,
  };
}

import type { WeatherSeries } from './series.ts';

/** A weather series as JSON carries it: the first instant as ISO 8601 in UTC, a missing value as null. */
export interface WeatherSeriesJson {
  readonly startAt: string;
  readonly stepS: number;
  readonly airTempC: readonly (number | null)[];
  readonly cloudShare?: readonly (number | null)[];
  readonly dewPointC?: readonly (number | null)[];
  readonly relativeHumidity?: readonly (number | null)[];
  readonly windMs?: readonly (number | null)[];
}

const COLUMNS = ['airTempC', 'cloudShare', 'dewPointC', 'relativeHumidity', 'windMs'] as const;

/** JSON of a series, values rounded to `decimals` places. */
export function seriesToJson(series: WeatherSeries, decimals = 3): WeatherSeriesJson {
  const out: Record<string, unknown> = { startAt: new Date(series.startMs).toISOString(), stepS: series.stepS };
  const scale = 10 ** decimals;
  for (const name of COLUMNS) {
    const column = series[name];
    if (column) out[name] = Array.from(column, (v) => (Number.isFinite(v) ? Math.round(v * scale) / scale : null));
  }
  return out as unknown as WeatherSeriesJson;
}

/** The series of a JSON that has passed its schema. Throws RangeError when the columns differ in length. */
export function seriesFromJson(json: WeatherSeriesJson): WeatherSeries {
  const out: Record<string, unknown> = { startMs: Date.parse(json.startAt), stepS: json.stepS };
  for (const name of COLUMNS) {
    const column = json[name];
    if (!column) continue;
    if (column.length !== json.airTempC.length) throw new RangeError(`${name} has not the length of airTempC`);
    out[name] = Float64Array.from(column, (value) => value ?? Number.NaN);
  }
  return out as unknown as WeatherSeries;
}

import { fahrenheitToCelsius } from '../measure/units.ts';
import { type MessageKey, message } from '../wording/say.ts';
import { type Samples, seriesFromSamples } from './grid.ts';
import type { WeatherResult } from './result.ts';
import type { WeatherSeries } from './series.ts';

/** A forecast or a stretch of history as a weather service gave it. */
export interface WeatherAnswer {
  readonly series: WeatherSeries;
  /** The place the figures are for: the service's grid cell, not the place that was asked. */
  readonly latitudeDeg?: number;
  readonly longitudeDeg?: number;
  readonly elevationM?: number;
  /** When the service last worked it out, ms since 1970 UTC. */
  readonly updatedAtMs?: number;
}

type Column = Exclude<keyof Samples, 'atMs'>;

interface Quantity {
  readonly column: Column;
  /** Factor or conversion for each unit name that is known. */
  readonly units: Readonly<Record<string, (value: number) => number>>;
  readonly wanted: string;
}

const same = (value: number): number => value;
const percent = (value: number): number => value / 100;
const CELSIUS: Quantity['units'] = {
  '°C': same,
  celsius: same,
  C: same,
  '°F': fahrenheitToCelsius,
  fahrenheit: fahrenheitToCelsius,
};
const SHARE: Quantity['units'] = { '%': percent, '1': same };
const SPEED: Quantity['units'] = {
  'm/s': same,
  'km/h': (value) => value / 3.6,
  mph: (value) => value * 0.44704,
  'mp/h': (value) => value * 0.44704,
  kn: (value) => (value * 1852) / 3600,
};
const quantity = (column: Column, units: Quantity['units'], wanted: string): Quantity => ({ column, units, wanted });

/** Names of quantities in the two open forms; the first column of each is the air temperature. */
const HOURLY_LISTS: Readonly<Record<string, Quantity>> = {
  temperature_2m: quantity('airTempC', CELSIUS, '°C'),
  cloud_cover: quantity('cloudShare', SHARE, '%'),
  dew_point_2m: quantity('dewPointC', CELSIUS, '°C'),
  relative_humidity_2m: quantity('relativeHumidity', SHARE, '%'),
  wind_speed_10m: quantity('windMs', SPEED, 'm/s'),
};
const TIME_SERIES: Readonly<Record<string, Quantity>> = {
  air_temperature: quantity('airTempC', CELSIUS, 'celsius'),
  cloud_area_fraction: quantity('cloudShare', SHARE, '%'),
  dew_point_temperature: quantity('dewPointC', CELSIUS, 'celsius'),
  relative_humidity: quantity('relativeHumidity', SHARE, '%'),
  wind_speed: quantity('windMs', SPEED, 'm/s'),
};

type Json = Readonly<Record<string, unknown>>;
const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A refusal on its way out of the readers below; never leaves this file. */
class Refusal extends Error {
  readonly key: MessageKey;
  readonly values: Record<string, string | number>;
  readonly entry: number | undefined;
  constructor(key: MessageKey, values: Record<string, string | number> = {}, entry?: number) {
    super(key);
    this.key = key;
    this.values = values;
    this.entry = entry;
  }
}

function converter(name: string, known: Quantity, unit: unknown): (value: number) => number {
  const found = typeof unit === 'string' && Object.hasOwn(known.units, unit) ? known.units[unit] : undefined;
  if (!found)
    throw new Refusal('weather.forecast.unit', {
      quantity: name,
      unit: typeof unit === 'string' ? unit : '',
      wanted: known.wanted,
    });
  return found;
}

/** One value: null and absent are missing, anything else must be a number. */
function cellOf(raw: unknown, name: string, convert: (value: number) => number, entry: number): number {
  if (raw === null || raw === undefined) return Number.NaN;
  if (typeof raw !== 'number' || !Number.isFinite(raw))
    throw new Refusal('weather.forecast.number', { quantity: name }, entry);
  return convert(raw);
}

function checked(samples: Samples): void {
  let known = 0;
  samples.airTempC.forEach((value, i) => {
    if (Number.isNaN(value)) return;
    known++;
    if (value < -90 || value > 57) throw new Refusal('weather.forecast.impossible', { value }, i + 1);
  });
  if (known === 0) throw new Refusal('weather.forecast.all-missing');
  samples.atMs.forEach((at, i) => {
    if (Number.isNaN(at) || (i > 0 && at <= samples.atMs[i - 1]!))
      throw new Refusal('weather.forecast.time', {}, i + 1);
  });
}

/** Times of the hourly lists: Unix seconds, or ISO text that is only trusted at Greenwich time, since a local one is off after a clock change. */
function listTimes(raw: readonly unknown[], offsetS: unknown): Float64Array {
  const text = raw.some((value) => typeof value === 'string');
  if (text && offsetS !== 0) throw new Refusal('weather.forecast.local-time');
  return Float64Array.from(raw, (value) => {
    if (typeof value === 'number') return value * 1000;
    return typeof value === 'string' ? Date.parse(/Z$/.test(value) ? value : `${value}Z`) : Number.NaN;
  });
}

function fromHourlyLists(body: Json, hourly: Json): WeatherAnswer {
  const units = isObject(body.hourly_units) ? body.hourly_units : {};
  if (!Array.isArray(hourly.time) || hourly.time.length === 0) throw new Refusal('weather.forecast.not-forecast');
  const columns: Partial<Record<Column, Float64Array>> = {};
  for (const [name, known] of Object.entries(HOURLY_LISTS)) {
    const list = hourly[name];
    if (list === undefined) continue;
    if (!Array.isArray(list) || list.length !== hourly.time.length)
      throw new Refusal('weather.forecast.lengths', { quantity: name });
    const convert = converter(name, known, units[name]);
    columns[known.column] = Float64Array.from(list, (raw, i) => cellOf(raw, name, convert, i + 1));
  }
  if (!columns.airTempC) throw new Refusal('weather.forecast.no-temperature');
  const samples = { atMs: listTimes(hourly.time, body.utc_offset_seconds), ...columns } as Samples;
  checked(samples);
  return {
    series: seriesFromSamples(samples, 3600, 3600),
    ...(typeof body.latitude === 'number' && { latitudeDeg: body.latitude }),
    ...(typeof body.longitude === 'number' && { longitudeDeg: body.longitude }),
    ...(typeof body.elevation === 'number' && { elevationM: body.elevation }),
  };
}

function fromTimeSeries(body: Json, properties: Json, entries: readonly unknown[]): WeatherAnswer {
  const meta = isObject(properties.meta) ? properties.meta : {};
  const units = isObject(meta.units) ? meta.units : {};
  const details = entries.map((entry) => {
    const data = isObject(entry) && isObject(entry.data) ? entry.data : {};
    const instant = isObject(data.instant) ? data.instant : {};
    return isObject(instant.details) ? instant.details : {};
  });
  const atMs = Float64Array.from(entries, (entry) =>
    isObject(entry) && typeof entry.time === 'string' && entry.time.endsWith('Z') ? Date.parse(entry.time) : Number.NaN,
  );
  const columns: Partial<Record<Column, Float64Array>> = {};
  for (const [name, known] of Object.entries(TIME_SERIES)) {
    if (!details.some((detail) => detail[name] !== undefined)) continue;
    const convert = converter(name, known, units[name]);
    columns[known.column] = Float64Array.from(details, (detail, i) => cellOf(detail[name], name, convert, i + 1));
  }
  if (!columns.airTempC) throw new Refusal('weather.forecast.no-temperature');
  const samples = { atMs, ...columns } as Samples;
  checked(samples);
  const point = isObject(body.geometry) && Array.isArray(body.geometry.coordinates) ? body.geometry.coordinates : [];
  const updated = typeof meta.updated_at === 'string' ? Date.parse(meta.updated_at) : Number.NaN;
  return {
    // The service gives its later days six-hourly: the straight line between those is its forecast; a longer step is a gap.
    series: seriesFromSamples(samples, 3600, 6 * 3600),
    ...(typeof point[1] === 'number' && { latitudeDeg: point[1] }),
    ...(typeof point[0] === 'number' && { longitudeDeg: point[0] }),
    ...(typeof point[2] === 'number' && { elevationM: point[2] }),
    ...(Number.isNaN(updated) ? {} : { updatedAtMs: updated }),
  };
}

function readAnswer(body: unknown): WeatherAnswer {
  if (isObject(body) && body.error === true)
    throw new Refusal('weather.forecast.refused', {
      reason: typeof body.reason === 'string' ? body.reason.slice(0, 200) : '',
    });
  if (isObject(body) && isObject(body.hourly)) return fromHourlyLists(body, body.hourly);
  if (isObject(body) && isObject(body.properties) && Array.isArray(body.properties.timeseries)) {
    const entries = body.properties.timeseries;
    if (entries.length > 0) return fromTimeSeries(body, body.properties, entries);
  }
  throw new Refusal('weather.forecast.not-forecast');
}

/**
 * Reads the answer of a weather service, already parsed from JSON, in either of the two open forms: lists by the hour beside a list of times
 * (ask for Unix times), or a GeoJSON feature with a `timeseries`. Hourly; units are checked and converted; null is a gap. All or nothing.
 */
export function readForecastJson(body: unknown): WeatherResult<WeatherAnswer> {
  try {
    return { ok: true, value: readAnswer(body) };
  } catch (problem) {
    if (!(problem instanceof Refusal)) throw problem;
    const where =
      problem.entry === undefined
        ? message('weather.where.forecast')
        : message('weather.where.forecast-hour', { number: problem.entry });
    return { ok: false, problems: [{ where, what: message(problem.key, problem.values) }] };
  }
}

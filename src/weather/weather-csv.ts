import { type Day, dayFromNumber, dayNumber } from '../measure/day.ts';
import { fahrenheitToCelsius } from '../measure/units.ts';
import { type Message, message } from '../wording/say.ts';
import { type AskedColumns, type ColumnPlaces, findColumns } from './csv-columns.ts';
import { type CsvRow, cutCsv, unitOf } from './csv-table.ts';
import {
  type DateOrder,
  dateOrderOf,
  dayOf,
  readClock,
  readWrittenTime,
  type WrittenTime,
  wallInstant,
} from './csv-time.ts';
import { MISSING_TEXTS, type WeatherColumn } from './csv-words.ts';
import type { DailyRow } from './day-curve.ts';
import { commonestStepS, type Samples, seriesFromSamples } from './grid.ts';
import type { WeatherProblem, WeatherResult } from './result.ts';
import type { WeatherSeries } from './series.ts';

/** What the keeper says about a file; everything but the zone is only needed where the file leaves a doubt. */
export interface WeatherFileOptions {
  /** IANA zone whose wall clock the file's local times show; also `Etc/GMT-1` and the like for a clock that never changes. */
  readonly zone: string;
  readonly columns?: AskedColumns;
  readonly unit?: 'C' | 'F';
  readonly dateOrder?: DateOrder;
}

/** What a weather file held, and how it was understood. */
export type WeatherFile = {
  readonly unit: 'C' | 'F';
  /** Headings of the columns that were used. */
  readonly columns: Readonly<Partial<Record<WeatherColumn, string>>>;
} & (
  | {
      readonly kind: 'daily';
      /** Rising days, each once; days without both extremes are left out. */
      readonly days: readonly DailyRow[];
      /** First and last day of each run of days that is missing. */
      readonly gaps: readonly { readonly fromDay: Day; readonly toDay: Day }[];
    }
  | { readonly kind: 'hourly'; readonly series: WeatherSeries }
);

/** No air on Earth was measured beyond these, °C (World Meteorological Organization: -89.2 and 56.7; from memory). */
const COLDEST_C = -90;
const WARMEST_C = 57;
const MOST_PROBLEMS = 20;

const atLine = (line: number): Message => message('weather.where.line', { line });

interface ReadRow {
  readonly line: number;
  readonly time: WrittenTime;
  readonly values: Partial<Record<WeatherColumn, number>>;
}

/** Number of a cell with point or comma for the decimals; NaN for a missing value, undefined for text that is no number. */
function numberOf(cell: string): number | undefined {
  const bare = cell.replace(/\s*[°º˚]?\s*(?:c|f|%|m\/s)$/i, '').replace(/^[\u2212\u2013]/, '-');
  if (MISSING_TEXTS.has(bare.toLowerCase())) return Number.NaN;
  const text = bare.replace(',', '.');
  return /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(text) ? Number(text) : undefined;
}

/** All cells of one row as numbers and a time; adds to `problems` what cannot be read. */
function readRow(row: CsvRow, places: ColumnPlaces, header: CsvRow, problems: WeatherProblem[]): ReadRow | undefined {
  const text = row.cells[places.day!] ?? '';
  let time = readUnixTime(text) ?? readWrittenTime(text);
  if (!time) {
    problems.push({ where: atLine(row.line), what: message('weather.file.bad-time', { text }) });
    return undefined;
  }
  if (places.clock !== undefined) {
    const clockText = row.cells[places.clock] ?? '';
    const clock = readClock(clockText);
    if (!clock) {
      problems.push({ where: atLine(row.line), what: message('weather.file.bad-time', { text: clockText }) });
      return undefined;
    }
    time = { parts: time.parts, yearFirst: time.yearFirst, ...clock };
  }
  const values: Partial<Record<WeatherColumn, number>> = {};
  for (const [column, place] of Object.entries(places) as [WeatherColumn, number][]) {
    if (column === 'day' || column === 'clock') continue;
    const cell = row.cells[place];
    const value = cell === undefined ? undefined : numberOf(cell);
    if (value === undefined) {
      const what = message(cell === undefined ? 'weather.file.short-row' : 'weather.file.bad-number', {
        text: cell ?? '',
        heading: header.cells[place] ?? '',
      });
      problems.push({ where: atLine(row.line), what });
      return undefined;
    }
    values[column] = value;
  }
  return { line: row.line, time, values };
}

/** Seconds or milliseconds since 1970 UTC, as 10 or 13 digits. */
function readUnixTime(text: string): WrittenTime | undefined {
  if (!/^\d{10}(\d{3})?$/.test(text)) return undefined;
  const at = new Date(Number(text) * (text.length === 10 ? 1000 : 1));
  return {
    parts: [at.getUTCFullYear(), at.getUTCMonth() + 1, at.getUTCDate()],
    yearFirst: true,
    hour: (at.getTime() % 86_400_000) / 3_600_000,
    offsetH: 0,
  };
}

const median = (values: number[]): number => values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** The unit of the file, or the question that has to be asked: numbers that no air in °C would show, with no unit written anywhere. */
function fileUnit(
  rows: readonly ReadRow[],
  header: CsvRow,
  firstRow: CsvRow | undefined,
  places: ColumnPlaces,
  options: WeatherFileOptions,
): 'C' | 'F' | WeatherProblem {
  if (options.unit) return options.unit;
  for (const column of ['temperature', 'max', 'min'] as const) {
    const place = places[column];
    if (place === undefined) continue;
    const named = unitOf(header.cells[place] ?? '') ?? unitOf(firstRow?.cells[place] ?? '');
    if (named) return named;
  }
  const all = rows.flatMap(({ values }) =>
    [values.temperature, values.max, values.min].filter((value) => value !== undefined && !Number.isNaN(value)),
  ) as number[];
  const lows = rows.map(({ values }) => values.min ?? values.temperature ?? Number.NaN).filter((v) => !Number.isNaN(v));
  const tooWarm = all.some((value) => value > WARMEST_C) || median(lows) > 30;
  return tooWarm ? { where: atLine(header.line), what: message('weather.file.unit-unknown') } : 'C';
}

const TEMPERATURES = ['temperature', 'max', 'min', 'dewPoint'] as const;

/** Values in °C, with an error for each that no air can have. */
function toCelsius(rows: readonly ReadRow[], unit: 'C' | 'F', problems: WeatherProblem[]): ReadRow[] {
  return rows.map((row) => {
    const values = { ...row.values };
    for (const column of TEMPERATURES) {
      const raw = values[column];
      if (raw === undefined || Number.isNaN(raw)) continue;
      const value = unit === 'F' ? fahrenheitToCelsius(raw) : raw;
      values[column] = value;
      if (value < COLDEST_C || value > WARMEST_C)
        problems.push({
          where: atLine(row.line),
          what: message('weather.file.impossible', { value: raw, unit: `°${unit}` }),
        });
    }
    if (values.max !== undefined && values.min !== undefined && values.max < values.min)
      problems.push({
        where: atLine(row.line),
        what: message('weather.file.max-below-min', { max: row.values.max!, min: row.values.min! }),
      });
    return { ...row, values };
  });
}

/** Cloud or humidity as a share: the largest value of the column tells whether it is a share, eighths (cloud only) or per cent. */
function shareScale(rows: readonly ReadRow[], column: 'cloud' | 'humidity'): number {
  let most = 0;
  for (const { values } of rows) if (values[column]! > most) most = values[column]!;
  if (most <= 1) return 1;
  return column === 'cloud' && most <= 9 ? 8 : 100;
}

function daily(rows: readonly ReadRow[], order: DateOrder, problems: WeatherProblem[]) {
  const scale = shareScale(rows, 'cloud');
  const seen = new Map<Day, number>();
  const days: DailyRow[] = [];
  for (const { line, time, values } of rows) {
    const day = dayOf(time, order)!;
    const earlier = seen.get(day);
    if (earlier !== undefined) {
      problems.push({ where: atLine(line), what: message('weather.file.day-twice', { day, earlier }) });
      continue;
    }
    seen.set(day, line);
    const { max, min, cloud } = values;
    if (max === undefined || min === undefined || Number.isNaN(max) || Number.isNaN(min)) continue;
    const cloudShare = cloud === undefined || Number.isNaN(cloud) ? {} : { cloudShare: Math.min(1, cloud / scale) };
    days.push({ day, maxC: max, minC: min, ...cloudShare });
  }
  days.sort((a, b) => dayNumber(a.day) - dayNumber(b.day));
  const gaps: { fromDay: Day; toDay: Day }[] = [];
  for (let i = 1; i < days.length; i++) {
    const from = dayNumber(days[i - 1]!.day) + 1;
    const to = dayNumber(days[i]!.day) - 1;
    if (to >= from) gaps.push({ fromDay: dayFromNumber(from), toDay: dayFromNumber(to) });
  }
  return { days, gaps };
}

function hourly(
  rows: readonly ReadRow[],
  order: DateOrder,
  zone: string,
  problems: WeatherProblem[],
): WeatherSeries | undefined {
  const dayNumberAt = (row: ReadRow) => dayNumber(dayOf(row.time, order)!) + (row.time.hour ?? 0) / 24;
  // A file written newest first is read from its end, so that the second pass of a repeated hour is still the later one.
  const ordered = rows.length > 1 && dayNumberAt(rows[0]!) > dayNumberAt(rows.at(-1)!) ? [...rows].reverse() : rows;
  const atMs = new Float64Array(ordered.length);
  let latest = Number.NEGATIVE_INFINITY;
  ordered.forEach((row, i) => {
    const day = dayOf(row.time, order)!;
    const hour = row.time.hour ?? 0;
    const at =
      row.time.offsetH === undefined
        ? wallInstant(day, hour, zone, latest)
        : Date.parse(`${day}T00:00:00Z`) + Math.round((hour - row.time.offsetH) * 3_600_000);
    if (at === 'skipped') {
      problems.push({ where: atLine(row.line), what: message('weather.file.skipped-hour', { zone }) });
      return;
    }
    const before = ordered[i - 1];
    if (at === latest)
      problems.push({ where: atLine(row.line), what: message('weather.file.time-twice', { earlier: before!.line }) });
    else if (at < latest)
      problems.push({ where: atLine(row.line), what: message('weather.file.time-back', { earlier: before!.line }) });
    atMs[i] = at;
    latest = at;
  });
  if (problems.length > 0) return undefined;
  const column = (name: WeatherColumn, scale = 1) =>
    ordered.some((row) => row.values[name] !== undefined)
      ? Float64Array.from(ordered, (row) => (row.values[name] ?? Number.NaN) / scale)
      : undefined;
  const cloudShare = column('cloud', shareScale(ordered, 'cloud'));
  const dewPointC = column('dewPoint');
  const relativeHumidity = column('humidity', shareScale(ordered, 'humidity'));
  const windMs = column('wind');
  const samples: Samples = {
    atMs,
    airTempC: column('temperature')!,
    ...(cloudShare && { cloudShare }),
    ...(dewPointC && { dewPointC }),
    ...(relativeHumidity && { relativeHumidity }),
    ...(windMs && { windMs }),
  };
  const commonest = commonestStepS(atMs);
  return seriesFromSamples(samples, Math.min(21_600, Math.max(900, commonest)), Math.max(5400, 1.5 * commonest));
}

/**
 * Reads a keeper's weather file: hourly temperatures, or daily maxima and minima, with a heading over each column. Either the whole file is
 * read or nothing, with up to 20 problems that name the line and say what to do. Missing values stay missing.
 */
export function readWeatherCsv(text: string, options: WeatherFileOptions): WeatherResult<WeatherFile> {
  const refuse = (...problems: WeatherProblem[]) => ({
    ok: false as const,
    problems: problems.slice(0, MOST_PROBLEMS),
  });
  let rows: CsvRow[];
  try {
    rows = cutCsv(text).rows;
  } catch {
    return refuse({ where: message('weather.where.file'), what: message('weather.file.not-csv') });
  }
  const header = rows.find((row) => row.cells.length > 1);
  if (!header) return refuse({ where: message('weather.where.file'), what: message('weather.file.empty') });
  const places = findColumns(header, options.columns ?? {});
  if (Array.isArray(places)) return refuse(...places);
  const body = rows.slice(rows.indexOf(header) + 1);
  const extremes = places.max !== undefined && places.min !== undefined;
  // With both kinds of column the file is daily when it has extremes and its rows carry no time of day.
  const isDaily = extremes && (places.temperature === undefined || readClockless(body, places));

  const problems: WeatherProblem[] = [];
  const used: ColumnPlaces = { ...places };
  if (isDaily) delete used.temperature;
  else {
    delete used.max;
    delete used.min;
  }
  const read = body.flatMap((row) => readRow(row, used, header, problems) ?? []);
  if (problems.length > 0) return refuse(...problems);
  if (read.length === 0) return refuse({ where: message('weather.where.file'), what: message('weather.file.empty') });

  const order = options.dateOrder ?? dateOrderOf(read.map((row) => row.time));
  if (!order) return refuse({ where: atLine(read[0]!.line), what: message('weather.file.date-order') });
  for (const row of read)
    if (dayOf(row.time, order) === undefined)
      problems.push({ where: atLine(row.line), what: message('weather.file.no-such-day') });
  if (problems.length > 0) return refuse(...problems);
  if (!isDaily && read.length > 1 && read.every((row) => row.time.hour === undefined))
    return refuse({ where: atLine(header.line), what: message('weather.file.days-without-extremes') });

  const unit = fileUnit(read, header, body[0], used, options);
  if (typeof unit === 'object') return refuse(unit);
  const celsius = toCelsius(read, unit, problems);
  const columns = Object.fromEntries(
    Object.entries(used).map(([column, place]) => [column, header.cells[place] ?? '']),
  );
  if (isDaily) {
    const { days, gaps } = daily(celsius, order, problems);
    if (problems.length === 0 && days.length === 0)
      problems.push({ where: message('weather.where.file'), what: message('weather.file.empty') });
    return problems.length > 0
      ? refuse(...problems)
      : { ok: true, value: { kind: 'daily', days, gaps, unit, columns } };
  }
  const series = hourly(celsius, order, options.zone, problems);
  if (problems.length > 0 || !series) return refuse(...problems);
  return { ok: true, value: { kind: 'hourly', series, unit, columns } };
}

/** True when the rows name days without a time of day. */
function readClockless(body: readonly CsvRow[], places: ColumnPlaces): boolean {
  if (places.clock !== undefined) return false;
  return body.every((row) => {
    const written = readWrittenTime(row.cells[places.day!] ?? '');
    return written === undefined || written.hour === undefined || written.hour === 0;
  });
}

import { readOffset, readTime } from './moments.ts';
import { type CellLook, lookOf, type TableShape } from './shape.ts';
import { type CellUnit, readValue } from './values.ts';
import { headerWords } from './words.ts';

type ColumnRole =
  | 'moment'
  | 'date'
  | 'time'
  | 'year'
  | 'month'
  | 'day'
  | 'elapsed'
  | 'temperature'
  | 'maximum'
  | 'minimum'
  | 'humidity'
  | 'probe'
  | 'index'
  | 'ignored';

export interface Column {
  readonly at: number;
  readonly name: string;
  readonly role: ColumnRole;
  /** Unit named in the header or beside most values. */
  readonly unit?: CellUnit;
}

export interface Columns {
  readonly all: readonly Column[];
  /** Minutes east of UTC that a header names ("Time (GMT+01:00)"). */
  readonly offsetMin?: number;
  /** True when nothing but plausibility told the temperature column. */
  readonly guessed: boolean;
}

interface Tally {
  readonly looks: Record<CellLook, number>;
  readonly unit?: CellUnit;
  readonly percent: boolean;
  readonly rising: boolean;
  readonly distinct: number;
  readonly low: number;
  readonly high: number;
}

function tally(rows: readonly (readonly string[])[], at: number): Tally {
  const looks: Record<CellLook, number> = { moment: 0, date: 0, time: 0, number: 0, missing: 0, text: 0, empty: 0 };
  const units = new Map<CellUnit, number>();
  const seen = new Set<string>();
  let percent = 0;
  let rising = 0;
  let previous = Number.NaN;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const row of rows) {
    const cell = row[at] ?? '';
    seen.add(cell);
    const number = /%\s*(rh|rf|hr)?$/i.test(cell);
    if (number) percent += 1;
    const look = lookOf(number ? cell.replace(/\s*%.*$/, '') : cell);
    looks[look] += 1;
    if (look !== 'number') continue;
    const value = readValue(cell.replace(/\s*%.*$/, ''));
    if (value.kind !== 'value') continue;
    if (value.unit) units.set(value.unit, (units.get(value.unit) ?? 0) + 1);
    if (value.value - previous === 1) rising += 1;
    previous = value.value;
    low = Math.min(low, value.value);
    high = Math.max(high, value.value);
  }
  const [unit] = [...units].sort((a, b) => b[1] - a[1])[0] ?? [];
  return {
    looks,
    ...(unit ? { unit } : {}),
    percent: percent > rows.length / 2,
    rising: rows.length > 3 && rising >= looks.number - 2 && looks.number === rows.length,
    distinct: seen.size,
    low,
    high,
  };
}

/** The unit a header names. */
function headerUnit(name: string): CellUnit | undefined {
  const match = /(?:°|º|˚|deg\.?|â°|\?|\ufffd|[[(_/\s])\s*(c|f|k)\b|(℃)|(℉)|(celsius)|(fahrenheit)|(kelvin)/i.exec(
    name.replaceAll('Â', 'â'),
  );
  if (!match) return undefined;
  if (match[2] || match[4]) return 'C';
  if (match[3] || match[5]) return 'F';
  if (match[6]) return 'K';
  return (match[1] ?? 'c').toUpperCase() as CellUnit;
}

/**
 * Gives every column a meaning. The content decides; header words help where two columns look alike.
 * Humidity, battery and dew point are told apart by name, a running number by its steps of one.
 */
export function nameColumns(shape: TableShape): Columns {
  const rows = shape.rows.slice(0, 400);
  const tallies = Array.from({ length: shape.width }, (_, at) => tally(rows, at));
  const name = (at: number) => shape.header[at] ?? '';
  const roles: ColumnRole[] = tallies.map(() => 'ignored');
  const most = (at: number, ...looks: CellLook[]) =>
    looks.reduce((sum, look) => sum + (tallies[at]?.looks[look] ?? 0), 0) >= rows.length * 0.5;
  const find = (test: (at: number) => boolean) => tallies.findIndex((_, at) => roles[at] === 'ignored' && test(at));

  const moment = find((at) => most(at, 'moment'));
  if (moment !== -1) roles[moment] = 'moment';
  else {
    const date = find((at) => (tallies[at]?.looks.date ?? 0) > 0 && most(at, 'date', 'empty') && !most(at, 'text'));
    if (date !== -1) roles[date] = 'date';
    const time = find((at) => most(at, 'time'));
    if (time !== -1) roles[time] = date === -1 ? 'elapsed' : 'time';
    if (date === -1) splitDate(roles, tallies, name, time);
  }

  let guessed = false;
  const numeric = tallies
    .map((_, at) => at)
    .filter(
      (at) => roles[at] === 'ignored' && most(at, 'number', 'missing', 'empty') && (tallies[at]?.looks.number ?? 0) > 0,
    );
  for (const at of numeric) {
    const look = tallies[at]!;
    const called = name(at);
    const nonNegative = look.low >= 0;
    if (headerWords.index.test(called) || (look.rising && !headerWords.temperature.test(called) && at === 0))
      roles[at] = 'index';
    else if (headerWords.battery.test(called) || headerWords.dewPoint.test(called)) roles[at] = 'ignored';
    else if (look.percent || (headerWords.humidity.test(called) && !/temp|°/i.test(called) && nonNegative))
      roles[at] = 'humidity';
    else if (
      headerWords.probe.test(called) &&
      !headerWords.temperature.test(called) &&
      look.distinct <= 30 &&
      look.distinct < rows.length / 2
    )
      roles[at] = 'probe';
    else if (headerWords.maximum.test(called)) roles[at] = 'maximum';
    else if (headerWords.minimum.test(called)) roles[at] = 'minimum';
    else if (headerWords.mean.test(called)) roles[at] = 'ignored';
    else roles[at] = 'temperature';
  }
  // A table of interval extremes needs both; with one of them missing the other is an ordinary column.
  const has = (role: ColumnRole) => roles.includes(role);
  if (has('maximum') !== has('minimum'))
    for (const at of numeric) if (roles[at] === 'maximum' || roles[at] === 'minimum') roles[at] = 'temperature';
  const nameless = numeric.filter(
    (at) => roles[at] === 'temperature' && !headerWords.temperature.test(name(at)) && !tallies[at]?.unit,
  );
  if (
    has('temperature') &&
    numeric.filter((at) => roles[at] === 'temperature').length > nameless.length &&
    nameless.length > 0
  ) {
    // Beside columns that say they are temperatures, one that says nothing and has no name is left out unless it looks the same.
    for (const at of nameless)
      if (name(at) !== '' && !/\d/.test(name(at)) && !plausible(tallies[at]!)) roles[at] = 'ignored';
  } else if (nameless.length > 1 && shape.header.length === 0) guessed = true;
  // A running total of seconds or minutes with no date: elapsed time.
  if (!has('moment') && !has('date') && !has('elapsed') && !has('day')) {
    const elapsed = numeric.find((at) => /sec|min|elapsed|time|zeit|\bs\b/i.test(name(at)));
    if (elapsed !== undefined) roles[elapsed] = 'elapsed';
  }
  if (!has('probe')) {
    const key = find(
      (at) =>
        most(at, 'text') &&
        (headerWords.probe.test(name(at)) || shape.header.length === 0) &&
        (tallies[at]?.distinct ?? 0) <= 60 &&
        (tallies[at]?.looks.empty ?? 0) === 0,
    );
    if (key !== -1) roles[key] = 'probe';
  }
  let offsetMin: number | undefined;
  const all = roles.map((role, at): Column => {
    const unit =
      role === 'temperature' || role === 'maximum' || role === 'minimum'
        ? (headerUnit(name(at)) ?? tallies[at]?.unit)
        : undefined;
    if (role === 'moment' || role === 'time' || role === 'date') {
      const zone = /((?:UTC|GMT)\s*(?:[+\-\u2212]\s*\d{1,2}(?::?\d{2})?)?|[+\-\u2212]\d{2}:\d{2})/i.exec(name(at));
      if (zone) offsetMin ??= readOffset((zone[1] ?? '').replace(/\s/g, ''));
    }
    return { at, name: name(at), role, ...(unit ? { unit } : {}) };
  });
  return { all, ...(offsetMin === undefined ? {} : { offsetMin }), guessed };
}

function plausible(look: Tally): boolean {
  return look.low >= -40 && look.high <= 130;
}

/** Year, month and day in columns of their own, told by their header or their range. */
function splitDate(roles: ColumnRole[], tallies: readonly Tally[], name: (at: number) => string, time: number): void {
  const year = tallies.findIndex(
    (look, at) => look.looks.number > 0 && look.low >= 1990 && look.high <= 2100 && !/temp/i.test(name(at)),
  );
  if (year === -1) return;
  const month = tallies.findIndex(
    (look, at) =>
      at !== year && look.low >= 1 && look.high <= 12 && /^(m|mo|mon|month|monat|mois|mes|mese|měsíc)/i.test(name(at)),
  );
  const day = tallies.findIndex(
    (look, at) =>
      at !== year &&
      at !== month &&
      look.low >= 1 &&
      look.high <= 31 &&
      /^(d|day|tag|jour|d[ií]a|giorno|den)/i.test(name(at)),
  );
  const [m, d] = month !== -1 && day !== -1 ? [month, day] : [year + 1, year + 2];
  if (!tallies[m] || !tallies[d] || tallies[m].high > 12 || tallies[d].high > 31) return;
  roles[year] = 'year';
  roles[m] = 'month';
  roles[d] = 'day';
  if (time !== -1) roles[time] = 'time';
}

/** Seconds of an elapsed-time cell: `00:10:00`, `600`, `10` with "min" in the header. */
export function readElapsed(cell: string, header: string): number | undefined {
  const time = /^(\d+):(\d{2})(?::(\d{2}))?$/.exec(cell);
  if (time) return Number(time[1]) * 3600 + Number(time[2]) * 60 + Number(time[3] ?? 0);
  const clock = readTime(cell);
  if (clock) return clock.seconds;
  const value = readValue(cell);
  if (value.kind !== 'value') return undefined;
  return /min/i.test(header) ? value.value * 60 : /hour|\bh\b|std/i.test(header) ? value.value * 3600 : value.value;
}

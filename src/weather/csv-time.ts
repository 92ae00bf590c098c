import { type Day, isDay } from '../measure/day.ts';
import { instantInZone, zoneOffsetMs } from '../measure/zone.ts';

const HOUR_MS = 3_600_000;

export type DateOrder = 'day-first' | 'month-first';

/** A date as it stands in a file: its three numbers in the order of the text, the time of day and the offset if it has one. */
export interface WrittenTime {
  readonly parts: readonly [number, number, number];
  /** True when the year stands first, so that the order is known. */
  readonly yearFirst: boolean;
  /** Hours since midnight; undefined when the text names only a day. */
  readonly hour?: number;
  /** Offset from UTC, h; undefined for local time. */
  readonly offsetH?: number;
}

const DATE = /^(?:(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})|(\d{4})(\d{2})(\d{2})|(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}))/;
const CLOCK = /^[T\s]*(\d{1,2})[:.](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?\s*(am|pm)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?$/i;

/** Hours since midnight of a text such as `15:07`, `3:07 pm` or `24:00`; undefined when it is none. */
export function readClock(text: string): { readonly hour: number; readonly offsetH?: number } | undefined {
  const match = CLOCK.exec(text.trim());
  if (!match) return undefined;
  let whole = Number(match[1]);
  const half = match[4]?.toLowerCase();
  if (half && (whole < 1 || whole > 12)) return undefined;
  if (half) whole = (whole % 12) + (half === 'pm' ? 12 : 0);
  const minute = Number(match[2]);
  const second = Number(match[3] ?? 0);
  const hour = whole + minute / 60 + second / 3600;
  if (minute > 59 || second > 59 || hour > 24) return undefined;
  const zone = match[5];
  if (!zone) return { hour };
  if (!/\d/.test(zone)) return { hour, offsetH: 0 };
  const digits = zone.replace(':', '');
  return {
    hour,
    offsetH: (digits[0] === '-' ? -1 : 1) * (Number(digits.slice(1, 3)) + Number(digits.slice(3, 5)) / 60),
  };
}

/** Reads a date with or without a time of day; undefined when the text is none. */
export function readWrittenTime(text: string): WrittenTime | undefined {
  const trimmed = text.trim();
  const match = DATE.exec(trimmed);
  if (!match) return undefined;
  const numbers = match.slice(1).filter((part) => part !== undefined);
  const parts = numbers.map(Number) as [number, number, number];
  const rest = trimmed.slice(match[0].length);
  const yearFirst = match[7] === undefined;
  if (rest.trim() === '') return { parts, yearFirst };
  const clock = readClock(rest);
  return clock && { parts, yearFirst, ...clock };
}

/** The day a written date names under an order of day and month; undefined when there is no such day. */
export function dayOf(written: WrittenTime, order: DateOrder): Day | undefined {
  const [a, b, c] = written.parts;
  const [year, month, date] = written.yearFirst ? [a, b, c] : order === 'day-first' ? [c, b, a] : [c, a, b];
  const day = `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
  return isDay(day) ? day : undefined;
}

/**
 * The order of day and month that makes every date of a file a real day; undefined when both do and they differ, for then it must be asked.
 */
export function dateOrderOf(times: readonly WrittenTime[]): DateOrder | undefined {
  const dayFirst = times.every((time) => dayOf(time, 'day-first') !== undefined);
  const monthFirst = times.every((time) => dayOf(time, 'month-first') !== undefined);
  if (times.every((time) => time.yearFirst)) return 'day-first';
  if (dayFirst && monthFirst) return undefined;
  return monthFirst ? 'month-first' : 'day-first';
}

/** Instant of a wall-clock time, or why there is none: the clock change skipped it. `afterMs` settles a repeated hour: the second pass is later. */
export function wallInstant(day: Day, hour: number, zone: string, afterMs: number): number | 'skipped' {
  const first = instantInZone(day, zone, hour);
  const wall = Date.parse(`${day}T00:00:00Z`) + hour * HOUR_MS;
  if (Math.abs(first + zoneOffsetMs(first, zone) - wall) > 1000) return 'skipped';
  if (first > afterMs) return first;
  for (const later of [first + HOUR_MS / 2, first + HOUR_MS])
    if (later > afterMs && Math.abs(later + zoneOffsetMs(later, zone) - wall) <= 1000) return later;
  return first;
}

import { halfDayOfWord, monthOfWord } from './words.ts';

/** How the three numbers of a date may be meant. */
export type DateOrder = 'ymd' | 'dmy' | 'mdy' | 'ydm';

/** The three numbers of a date as written, before anyone has decided their order. `month` is known when it stood by name. */
export interface DateParts {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** Orders that the way of writing itself allows (a year of four digits, a month by name). */
  readonly orders: readonly DateOrder[];
}

const DAY_S = 86_400;
const YMD: readonly DateOrder[] = ['ymd', 'ydm'];
const ISO: readonly DateOrder[] = ['ymd'];
const YEAR_LAST: readonly DateOrder[] = ['dmy', 'mdy'];
const SHORT: readonly DateOrder[] = ['dmy', 'mdy', 'ymd'];
const DMY: readonly DateOrder[] = ['dmy'];

const NUMERIC = /^(\d{1,4})\s?(-|\/|\.|年)\s*(\d{1,2})\s?(?:-|\/|\.|月)\s*(\d{1,4})(?:日|\.)?$/;
const COMPACT = /^(\d{4})(\d{2})(\d{2})$/;
const DAY_NAME_YEAR = /^(\d{1,2})[.\-\s/]*\s*([\p{L}\p{M}]+)\.?[\s\-./,]*(?:de\s+)?(\d{2}|\d{4})$/u;
const NAME_DAY_YEAR = /^([\p{L}\p{M}]+)\.?[\s-]*(\d{1,2}),?[\s-]*(\d{2}|\d{4})$/u;
const YEAR_NAME_DAY = /^(\d{4})[.\-\s]*([\p{L}\p{M}]+)\.?[\s-]*(\d{1,2})\.?$/u;

/** Reads the date part of a cell; `undefined` when it is none. */
export function readDate(text: string): DateParts | undefined {
  const numeric = NUMERIC.exec(text);
  if (numeric) {
    const [, first = '', mark, second = '', third = ''] = numeric;
    const parts = { a: Number(first), b: Number(second), c: Number(third) };
    if (first.length === 4)
      return third.length <= 2 ? { ...parts, orders: mark === '-' || mark === '年' ? ISO : YMD } : undefined;
    if (first.length > 2) return undefined;
    if (third.length === 4) return { ...parts, orders: YEAR_LAST };
    return third.length <= 2 ? { ...parts, orders: SHORT } : undefined;
  }
  const compact = COMPACT.exec(text);
  if (compact) return { a: Number(compact[1]), b: Number(compact[2]), c: Number(compact[3]), orders: ISO };
  const cleaned = text.replace(/^[\p{L}]{2,10}[.,]+\s+/u, '');
  const named = DAY_NAME_YEAR.exec(cleaned);
  if (named) {
    const month = monthOfWord(named[2] ?? '');
    return month === undefined ? undefined : { a: Number(named[1]), b: month, c: Number(named[3]), orders: DMY };
  }
  const english = NAME_DAY_YEAR.exec(cleaned);
  if (english) {
    const month = monthOfWord(english[1] ?? '');
    return month === undefined ? undefined : { a: Number(english[2]), b: month, c: Number(english[3]), orders: DMY };
  }
  const yearFirst = YEAR_NAME_DAY.exec(cleaned);
  if (yearFirst) {
    const month = monthOfWord(yearFirst[2] ?? '');
    return month === undefined
      ? undefined
      : { a: Number(yearFirst[1]), b: month, c: Number(yearFirst[3]), orders: ISO };
  }
  return undefined;
}

/** Days since 1970-01-01 of a date read in the given order; NaN when there is no such day. Two-digit years lie in 1970 to 2069. */
export function dayNumberIn(parts: DateParts, order: DateOrder): number {
  if (!parts.orders.includes(order)) return Number.NaN;
  const { a, b, c } = parts;
  const [year, month, day] =
    order === 'ymd' ? [a, b, c] : order === 'dmy' ? [c, b, a] : order === 'mdy' ? [c, a, b] : [a, c, b];
  const full = year < 70 ? 2000 + year : year < 100 ? 1900 + year : year;
  if (month < 1 || month > 12 || day < 1 || day > 31) return Number.NaN;
  const number = Date.UTC(full, month - 1, day) / 86_400_000;
  return new Date(number * 86_400_000).getUTCDate() === day ? number : Number.NaN;
}

const TIME =
  /^(?:([^\d\s:.+-][^\d:+-]*?)\s*)?(\d{1,2})\s?[:.h]\s?(\d{2})(?:[:.m]\s?(\d{2})(?:[.,](\d{1,9}))?)?s?(?:[\s\u00a0\u202f]*([ap]\.?[\s\u00a0\u202f]?m\.?|[^\d\s:+-][^\d:+-]*?))?[\s]*(Z|(?:UTC|GMT)?[+\-\u2212]\d{1,2}(?::?\d{2})?|UTC|GMT)?$/iu;

export interface TimeParts {
  /** Seconds after midnight; 86,400 for 24:00. */
  readonly seconds: number;
  /** Minutes to add to UTC, when the cell itself says so. */
  readonly offsetMin?: number;
}

/** Reads a time of day; `undefined` when it is none or impossible. 12 a.m. is 0, 12 p.m. is 12, 24:00 ends the day. */
export function readTime(text: string): TimeParts | undefined {
  const match = TIME.exec(text);
  if (!match) return undefined;
  const [, before, hourText, minuteText, secondText, fraction, after, zone] = match;
  // A word behind the time is half of the day or the name of a zone: Z, UTC and GMT fit both patterns.
  const zoneWord = after && zone === undefined && readOffset(after) !== undefined ? after : zone;
  const half = before ? halfDayOfWord(before) : after && zoneWord !== after ? halfDayOfWord(after) : undefined;
  if ((before || (after && zoneWord !== after)) && !half) return undefined;
  let hour = Number(hourText);
  const minute = Number(minuteText);
  const second = Number(secondText ?? 0) + (fraction ? Number(`0.${fraction}`) : 0);
  if (half) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (half === 'pm' ? 12 : 0);
  }
  const seconds = hour * 3600 + minute * 60 + second;
  if (minute > 59 || second >= 61 || seconds > DAY_S) return undefined;
  const offsetMin = zoneWord ? readOffset(zoneWord) : undefined;
  return offsetMin === undefined ? { seconds } : { seconds, offsetMin };
}

/** Minutes east of UTC for `Z`, `UTC`, `GMT+01:00`, `+0100`, `−5`; `undefined` for anything else. */
export function readOffset(text: string): number | undefined {
  if (/^(z|utc|gmt)$/i.test(text)) return 0;
  const match = /^(?:utc|gmt)?\s*([+\-\u2212])\s*(\d{1,2})(?::?(\d{2}))?$/i.exec(text);
  if (!match) return undefined;
  const minutes = Number(match[2]) * 60 + Number(match[3] ?? 0);
  if (minutes > 14 * 60) return undefined;
  return match[1] === '+' ? minutes : -minutes;
}

const WITH_COLON =
  /^(.*?\d[^\s,]*)[,\s\u00a0\u202f]+(?:(?:at|um|à|kl\.?)\s+)?((?:[^\d\s]+[\s\u00a0\u202f]*)?\d{1,2}\s?[:h]\s?\d{2}(?!\d).*)$/u;
const WITH_DOT = /^(.*?\d[^\s,]*)[,\s\u00a0\u202f]+((?:[^\d\s]+[\s\u00a0\u202f]*)?\d{1,2}\.\d{2}(?!\d).*)$/u;

/**
 * Cuts a cell that holds date and time into the two. The blank, the `T` or the comma between them may be missing in neither;
 * `undefined` when the cell is no moment.
 */
export function splitMoment(cell: string): { date: string; time: string } | undefined {
  const iso = /^(\d{4}-\d{1,2}-\d{1,2})[T\s](.+)$/.exec(cell);
  if (iso) return { date: iso[1] ?? '', time: (iso[2] ?? '').trim() };
  const compact = /^(\d{8})[T\s]?(\d{2})(\d{2})(\d{2})?(Z)?$/.exec(cell);
  if (compact)
    return { date: compact[1] ?? '', time: `${compact[2]}:${compact[3]}:${compact[4] ?? '00'}${compact[5] ?? ''}` };
  // A colon or an h marks the time beyond doubt; dots do so only when there is none ("2026. 11. 15. 15:07").
  const clock = WITH_COLON.exec(cell) ?? WITH_DOT.exec(cell);
  if (clock) return { date: (clock[1] ?? '').replace(/,$/, ''), time: (clock[2] ?? '').trim() };
  const clockFirst = /^(\d{1,2}[:h]\d{2}(?:[:.]\d{2})?(?:\s*[ap]\.?m\.?)?)[,\s]+(.+)$/i.exec(cell);
  if (clockFirst) return { date: (clockFirst[2] ?? '').trim(), time: clockFirst[1] ?? '' };
  return undefined;
}

/** Milliseconds since 1970 UTC for a number of Unix seconds or milliseconds; NaN outside 1990 to 2100. */
export function unixMs(value: number): number {
  const inside = (ms: number) => ms >= 631_152_000_000 && ms < 4_102_444_800_000;
  if (inside(value)) return value;
  return inside(value * 1000) ? value * 1000 : Number.NaN;
}

/** Wall-clock milliseconds (as if UTC) for a spreadsheet's serial day, counted from 1899-12-30; NaN outside 1990 to 2100. */
export function serialDayMs(value: number): number {
  if (!(value >= 32_874 && value < 73_051)) return Number.NaN;
  return Math.round((value - 25_569) * 86_400) * 1000;
}

/**
 * A calendar day in the keeper's own zone, written YYYY-MM-DD (ISO 8601). Days are counted, never compared by month name,
 * so that both hemispheres are alike.
 */
export type Day = string;

const DAY_MS = 86_400_000;
const PATTERN = /^(\d{4})-(\d{2})-(\d{2})$/;

/** True for a day that exists, 0001-01-01 to 9999-12-31: `2026-02-30` is none. */
export function isDay(text: string): boolean {
  const match = PATTERN.exec(text);
  if (!match || match[1] === '0000') return false;
  const ms = Date.parse(`${text}T00:00:00Z`);
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 10) === text;
}

/** Days since 1970-01-01 (day 0) in the proleptic Gregorian calendar. Throws RangeError for a day that does not exist. */
export function dayNumber(day: Day): number {
  if (!isDay(day)) throw new RangeError(`"${day}" is not a day written YYYY-MM-DD`);
  return Date.parse(`${day}T00:00:00Z`) / DAY_MS;
}

/** The day that is `number` whole days after 1970-01-01. */
export function dayFromNumber(number: number): Day {
  return new Date(Math.floor(number) * DAY_MS).toISOString().slice(0, 10);
}

export function addDays(day: Day, days: number): Day {
  return dayFromNumber(dayNumber(day) + days);
}

/** Whole days from `from` to `to`; negative when `to` is earlier. */
export function daysBetween(from: Day, to: Day): number {
  return dayNumber(to) - dayNumber(from);
}

/** Whole years completed from birth to `on`, as ages are counted: the birthday itself completes a year. */
export function completedYears(birth: Day, on: Day): number {
  const years = Number(on.slice(0, 4)) - Number(birth.slice(0, 4));
  return on.slice(5) >= birth.slice(5) ? years : years - 1;
}

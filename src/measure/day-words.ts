import { type Day, dayNumber } from './day.ts';

const format = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', day: 'numeric', month: 'long', year: 'numeric' });

/** A day as it is read aloud, with its month in words: never ambiguous between day-first and month-first readers. */
export function dayInWords(day: Day): string {
  return format.format(dayNumber(day) * 86_400_000);
}

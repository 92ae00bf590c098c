import { addDays, type Day, dayNumber, daysBetween } from '../measure/day.ts';
import { say } from '../wording/say.ts';

const style = (options: Intl.DateTimeFormatOptions) =>
  new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', ...options });
const weekday = style({ weekday: 'short', day: 'numeric', month: 'short' });
const plain = style({ day: 'numeric', month: 'short', year: 'numeric' });
const inMonth = style({ month: 'short' });
const dayMonth = (day: Day): string => style({ day: 'numeric', month: 'short' }).format(ms(day)).replace(' ', '\u00a0');
const weekdayName = style({ weekday: 'long' });
const ms = (day: Day): number => dayNumber(day) * 86_400_000;

/** "Thu 5 Nov": for lists that stand under a heading with the year. */
export const shortDay = (day: Day): string => weekday.format(ms(day)).replace(',', '').replaceAll(' ', '\u00a0');

/** "5 Nov 2026". */
export const plainDay = (day: Day): string => plain.format(ms(day)).replaceAll(' ', '\u00a0');

/** Days of one thing to do, rising: "10, 13, 16 Oct, 1 Nov"; a run of four or more as "29 Oct to 3 Nov"; a weekly row as "Thursdays, 12 Nov to 21 Jan". */
export function dayList(days: readonly Day[]): string {
  const [first, last] = [days[0]!, days.at(-1)!];
  if (days.length === 1) return shortDay(first);
  if (days.length >= 4 && days.every((day, i) => day === addDays(first, 7 * i)))
    return say('papers.weekly', { weekday: weekdayName.format(ms(first)), from: dayMonth(first), to: dayMonth(last) });
  const runs: Day[][] = [];
  for (const day of days) {
    const run = runs.at(-1);
    if (run && day === addDays(run.at(-1)!, 1)) run.push(day);
    else runs.push([day]);
  }
  const spans = runs.flatMap((run) => (run.length >= 4 ? [[run[0]!, run.at(-1)!]] : run.map((day) => [day])));
  return spans
    .map((span, i) => {
      const next = spans[i + 1]?.[0];
      const last = span.at(-1)!;
      const bare = (day: Day) => String(Number(day.slice(8)));
      const withMonth = (day: Day) => `${bare(day)}\u00a0${inMonth.format(ms(day))}`;
      // The month stands once, after the last of its days.
      const end = next?.slice(0, 7) === last.slice(0, 7) ? bare(last) : withMonth(last);
      if (span.length === 1) return end;
      const start = span[0]!.slice(0, 7) === last.slice(0, 7) ? bare(span[0]!) : withMonth(span[0]!);
      return `${start}\u00a0to\u00a0${end}`;
    })
    .join(', ');
}

/** Nights from the first day to the last, both belonging to it. */
export const nightsOf = (fromDay: Day, toDay: Day): number => daysBetween(fromDay, toDay) + 1;

import type { Day } from '../../measure/day.ts';
import { dayNumber } from '../../measure/day.ts';
import { dayInZone } from '../../measure/zone.ts';

/** Makes the formatter when it is first used: each costs a slow phone tens of milliseconds. */
function style(options: Intl.DateTimeFormatOptions) {
  let made: Intl.DateTimeFormat | undefined;
  return (atMs: number) => {
    made ??= new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', ...options });
    return made.format(atMs);
  };
}
const dayMonth = style({ day: 'numeric', month: 'long' });
const dayMonthYear = style({ day: 'numeric', month: 'long', year: 'numeric' });
const weekdayDay = style({ weekday: 'long', day: 'numeric', month: 'long' });
const shortDay = style({ day: 'numeric', month: 'short' });
const monthName = style({ month: 'short' });
const ms = (day: Day) => dayNumber(day) * 86_400_000;

/** "26 November", or with the year when it is not near `near`. */
export function sayDay(day: Day, near?: Day): string {
  const far = near !== undefined && Math.abs(dayNumber(day) - dayNumber(near)) > 300;
  return (far ? dayMonthYear : dayMonth)(ms(day)).replace(' ', '\u00a0');
}
export const sayDayYear = (day: Day) => dayMonthYear(ms(day)).replace(' ', '\u00a0');
export const sayWeekday = (day: Day) => weekdayDay(ms(day));
export const sayShortDay = (day: Day) => shortDay(ms(day)).replace(' ', '\u00a0');
export const sayMonth = (day: Day) => monthName(ms(day));

const clocks = new Map<string, Intl.DateTimeFormat>();
/** "26 November, 23:10" by the clock of `zone`. */
export function sayInstant(at: string | number, zone: string): string {
  let clock = clocks.get(zone);
  if (!clock) {
    clock = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      day: 'numeric',
      month: 'long',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    });
    clocks.set(zone, clock);
  }
  return clock.format(typeof at === 'string' ? Date.parse(at) : at).replace(' at ', ', ');
}

/** Today by the keeper's own zone. */
export const today = (zone: string): Day => dayInZone(Date.now(), zone);

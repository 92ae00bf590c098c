import { daysBetween } from '../../measure/day.ts';
import { dayInZone, zoneOffsetMs } from '../../measure/zone.ts';
import { say } from '../../wording/say.ts';

const HOUR_MS = 3_600_000;
const MORNING = 9;
const EVENING = 18;

// Made when it is used: a formatter costs a slow phone tens of milliseconds, and the round seldom needs one of these.
const nameOf = (weekday: 'long' | 'short', atMs: number) =>
  new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', weekday }).format(atMs);
/** "Thu": the day of an instant by the clock of `zone`. */
export const shortWeekday = (atMs: number, zone: string) => nameOf('short', atMs + zoneOffsetMs(atMs, zone));

/** "tonight about 05:00", "tomorrow about 15:00", "on Thursday about 04:00": an instant of the next days as one says it at `nowMs`. */
export function sayWhen(atMs: number, nowMs: number, zone: string): string {
  // What is known to the hour is not told to the minute.
  const hourMs = Math.round(atMs / HOUR_MS) * HOUR_MS;
  const hourOf = (ms: number) => new Date(ms + zoneOffsetMs(ms, zone)).getUTCHours();
  const [day, hour] = [dayInZone(hourMs, zone), hourOf(hourMs)];
  const ahead = daysBetween(dayInZone(nowMs, zone), day);
  const time = `${String(hour).padStart(2, '0')}:00`;
  const night = (ahead === 0 && hour >= EVENING) || (ahead === 1 && hour < MORNING && hourOf(nowMs) >= MORNING);
  if (night) return say('web.ahead.when.tonight', { time });
  if (ahead === 0) return say('web.ahead.when.today', { time });
  if (ahead === 1) return say('web.ahead.when.tomorrow', { time });
  return say('web.ahead.when.day', { time, day: nameOf('long', hourMs + zoneOffsetMs(hourMs, zone)) });
}

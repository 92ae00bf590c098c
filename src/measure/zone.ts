import { type Day, dayNumber, isDay } from './day.ts';

const DAY_MS = 86_400_000;
const formats = new Map<string, Intl.DateTimeFormat>();

function format(zone: string): Intl.DateTimeFormat {
  let found = formats.get(zone);
  if (!found) {
    found = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      calendar: 'gregory',
      numberingSystem: 'latn',
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
    });
    formats.set(zone, found);
  }
  return found;
}

/** True for a zone name of the IANA time zone database known to this machine, for example `Europe/London`. */
export function isZone(name: string): boolean {
  try {
    format(name);
    return true;
  } catch {
    return false;
  }
}

/** Milliseconds to add to the UTC instant `atMs` to read the wall clock of `zone` as if it were UTC. */
export function zoneOffsetMs(atMs: number, zone: string): number {
  const parts: Record<string, string> = {};
  for (const part of format(zone).formatToParts(atMs)) parts[part.type] = part.value;
  const wall = Date.UTC(
    Number(parts.year),
    Number(parts.month) - 1,
    Number(parts.day),
    Number(parts.hour),
    Number(parts.minute),
    Number(parts.second),
  );
  return wall - Math.floor(atMs / 1000) * 1000;
}

/** The calendar day that the wall clock of `zone` shows at the instant `atMs` (milliseconds since 1970 UTC). */
export function dayInZone(atMs: number, zone: string): Day {
  return new Date(atMs + zoneOffsetMs(atMs, zone)).toISOString().slice(0, 10);
}

/**
 * The instant (ms since 1970 UTC) when the wall clock of `zone` first shows `hour` o'clock (0 to 24, fractions allowed) of `day`.
 * A time that the clock change skips gives the instant of the change; of a repeated hour the first pass counts.
 */
export function instantInZone(day: Day, zone: string, hour = 0): number {
  if (!isDay(day)) throw new RangeError(`"${day}" is not a day written YYYY-MM-DD`);
  const wall = dayNumber(day) * DAY_MS + hour * 3_600_000;
  // The offset is one of those in force a day before and a day after; the larger one gives the earlier instant.
  const offsets = [zoneOffsetMs(wall - DAY_MS, zone), zoneOffsetMs(wall + DAY_MS, zone)];
  const fitting = offsets.map((offset) => wall - offset).filter((at) => at + zoneOffsetMs(at, zone) === wall);
  if (fitting.length > 0) return Math.min(...fitting);
  // Skipped by the clock change: bisect for the change itself.
  let low = wall - Math.max(...offsets);
  let high = wall - Math.min(...offsets);
  while (high - low > 1000) {
    const middle = Math.floor((low + high) / 2);
    if (middle + zoneOffsetMs(middle, zone) < wall) low = middle;
    else high = middle;
  }
  return Math.round(high / 1000) * 1000;
}

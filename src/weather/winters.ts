import { addDays, type Day, dayFromNumber, dayNumber, isDay } from '../measure/day.ts';
import { dayInZone, instantInZone } from '../measure/zone.ts';
import { gapReport, lastSampleMs, sliceSeries, type WeatherSeries } from './series.ts';

/** A stretch of the year, told by the place of its first day in the calendar and by its length, so that any hemisphere fits. */
export interface WinterWindow {
  /** First day, `MM-DD`. */
  readonly from: string;
  /** Number of days, 1 to 366. */
  readonly days: number;
}

/** One winter's weather, recorded or generated. */
export interface Winter {
  /** `2012-13` when the window crosses a new year, `2013` when it does not; the running number for a generated one. */
  readonly label: string;
  readonly origin: 'recorded' | 'generated';
  readonly fromDay: Day;
  readonly series: WeatherSeries;
  /** Share of its samples without an air temperature, 0 to 1. */
  readonly missingShare: number;
}

/** The window that runs from the first to the last of two days, both counted. */
export function windowOfDays(fromDay: Day, lastDay: Day): WinterWindow {
  const days = dayNumber(lastDay) - dayNumber(fromDay) + 1;
  if (days < 1 || days > 366) throw new RangeError('A winter window is 1 to 366 days long');
  return { from: fromDay.slice(5), days };
}

/** The day of `year` at the calendar place `MM-DD`; 29 February stands for 1 March in a year without it. */
function dayOfYear(year: number, place: string): Day {
  const day = `${String(year).padStart(4, '0')}-${place}`;
  if (isDay(day)) return day;
  if (place === '02-29') return `${day.slice(0, 4)}-03-01`;
  throw new RangeError(`"${place}" is not a day of the year written MM-DD`);
}

function labelOf(fromDay: Day, days: number): string {
  const last = addDays(fromDay, days - 1);
  const from = fromDay.slice(0, 4);
  return last.slice(0, 4) === from ? from : `${from}-${last.slice(2, 4)}`;
}

/**
 * Cuts a long series into the winters it holds: for each year the window from local midnight of its first day to local midnight
 * after its last, in `zone`. Missing hours stay missing and are counted; a winter without a single reading is left out, and so is
 * one with a larger missing share than `mostMissing` (default: none is).
 */
export function cutWinters(series: WeatherSeries, zone: string, window: WinterWindow, mostMissing = 1): Winter[] {
  if (series.airTempC.length === 0) return [];
  const firstDay = dayInZone(series.startMs, zone);
  const lastDay = dayInZone(lastSampleMs(series), zone);
  const winters: Winter[] = [];
  for (let year = Number(firstDay.slice(0, 4)) - 1; year <= Number(lastDay.slice(0, 4)); year++) {
    const fromDay = dayOfYear(year, window.from);
    const endDay = dayFromNumber(dayNumber(fromDay) + window.days);
    if (fromDay > lastDay || endDay <= firstDay) continue;
    const slice = sliceSeries(series, instantInZone(fromDay, zone), instantInZone(endDay, zone));
    const { missingShare } = gapReport(slice);
    if (missingShare === 1 || missingShare > mostMissing) continue;
    winters.push({
      label: labelOf(fromDay, window.days),
      origin: 'recorded',
      fromDay,
      series: slice,
      missingShare,
    });
  }
  return winters;
}

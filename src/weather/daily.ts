import { addDays, dayNumber } from '../measure/day.ts';
import { dayInZone, instantInZone } from '../measure/zone.ts';
import type { DailyRow } from './day-curve.ts';
import type { MonthlyNormal } from './normals.ts';
import { lastSampleMs, type WeatherSeries } from './series.ts';

/**
 * Highest and lowest air temperature of each whole local day of a series, with the mean of its cloud. A day with a missing sample is left out:
 * its extremes may lie in what is missing.
 */
export function daysFromSeries(series: WeatherSeries, zone: string): DailyRow[] {
  if (series.airTempC.length === 0) return [];
  const stepMs = series.stepS * 1000;
  const rows: DailyRow[] = [];
  const endMs = lastSampleMs(series) + stepMs;
  let day = dayInZone(series.startMs, zone);
  let fromMs = instantInZone(day, zone);
  if (fromMs < series.startMs) {
    day = addDays(day, 1);
    fromMs = instantInZone(day, zone);
  }
  for (;;) {
    const toMs = instantInZone(addDays(day, 1), zone);
    if (toMs > endMs) return rows;
    let maxC = Number.NEGATIVE_INFINITY;
    let minC = Number.POSITIVE_INFINITY;
    let cloud = 0;
    let whole = true;
    const first = Math.ceil((fromMs - series.startMs) / stepMs);
    const end = Math.ceil((toMs - series.startMs) / stepMs);
    for (let i = first; i < end; i++) {
      const value = series.airTempC[i]!;
      if (Number.isNaN(value)) whole = false;
      if (value > maxC) maxC = value;
      if (value < minC) minC = value;
      cloud += series.cloudShare?.[i] ?? Number.NaN;
    }
    const cloudShare = cloud / (end - first);
    if (whole && end > first) rows.push({ day, maxC, minC, ...(Number.isNaN(cloudShare) ? {} : { cloudShare }) });
    day = addDays(day, 1);
    fromMs = toMs;
  }
}

/**
 * Monthly normals computed from a record of days: means of the maxima and minima of each calendar month over all its years.
 * Undefined when a month has fewer than `leastDays` days: a normal from a week of weather would be none.
 */
export function normalsOfDays(rows: readonly DailyRow[], leastDays = 28): MonthlyNormal[] | undefined {
  const sums = Array.from({ length: 12 }, () => ({ max: 0, min: 0, days: 0 }));
  for (const row of rows) {
    if (!Number.isFinite(row.maxC) || !Number.isFinite(row.minC)) continue;
    const sum = sums[Number(row.day.slice(5, 7)) - 1]!;
    sum.max += row.maxC;
    sum.min += row.minC;
    sum.days++;
  }
  if (sums.some((sum) => sum.days < leastDays)) return undefined;
  return sums.map((sum) => ({ maxC: sum.max / sum.days, minC: sum.min / sum.days }));
}

/** True when `b` is the day after `a`. */
export function isNextDay(a: DailyRow, b: DailyRow): boolean {
  return dayNumber(b.day) - dayNumber(a.day) === 1;
}

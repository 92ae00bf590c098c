import { addDays, type Day, daysBetween } from '../measure/day.ts';
import { seasonalCurve, seasonalValue, yearShare } from '../weather/normals.ts';
import { dayLengthH } from '../weather/sun.ts';
import { MIDDLE_AFTER_SHORTEST_DAYS } from './plan-table.ts';

/** Nearer to the equator than this, day length alone names no cold season. */
const NO_SEASON_DEG = 15;
/** At this latitude the shortest day is sharp, and it is the same day in the whole hemisphere. */
const SHARP_DEG = 45;

export const hemisphereOf = (latitudeDeg: number): 'north' | 'south' => (latitudeDeg >= 0 ? 'north' : 'south');
export const hasSeason = (latitudeDeg: number): boolean => Math.abs(latitudeDeg) >= NO_SEASON_DEG;

/** The shortest day of the hemisphere that is nearest to `near`, found from the sun itself. */
export function shortestDayNear(near: Day, latitudeDeg: number): Day {
  const latitude = latitudeDeg >= 0 ? SHARP_DEG : -SHARP_DEG;
  let best = near;
  let least = Number.POSITIVE_INFINITY;
  for (let offset = -183; offset <= 182; offset++) {
    const day = addDays(near, offset);
    const hours = dayLengthH(day, latitude);
    if (hours < least) {
      least = hours;
      best = day;
    }
  }
  return best;
}

/** Days of a winter's weather, enough for any sleep with what comes before it. */
export const WINTER_DAYS = 210;
const BEFORE_SHORTEST_DAYS = 90;

/** The first day of a winter's weather: 90 days before the shortest day nearest to `near`. */
export const winterFrom = (near: Day, latitudeDeg: number): Day =>
  addDays(shortestDayNear(near, latitudeDeg), -BEFORE_SHORTEST_DAYS);

/** The first shortest day on or after `from`, less `backDays`: winters in order. */
export function shortestDayFrom(from: Day, latitudeDeg: number): Day {
  const near = shortestDayNear(from, latitudeDeg);
  return near >= from ? near : shortestDayNear(addDays(near, 365), latitudeDeg);
}

export interface Normal {
  readonly maxC: number;
  readonly minC: number;
}

/**
 * First night of the sleep of `nights` nights in the winter around `shortestDay`: its middle about two weeks after the shortest
 * day, or, with twelve monthly normals, over the coldest stretch of that length (looked for within 60 days of the shortest day).
 */
export function sleepDayFor(shortestDay: Day, nights: number, normals?: readonly Normal[]): Day {
  const byLight = addDays(shortestDay, MIDDLE_AFTER_SHORTEST_DAYS - Math.floor(nights / 2));
  if (!normals) return byLight;
  const curve = seasonalCurve(normals.map((normal) => (normal.maxC + normal.minC) / 2));
  let best = byLight;
  let least = Number.POSITIVE_INFINITY;
  for (let middle = -60; middle <= 60; middle++) {
    const first = addDays(shortestDay, middle - Math.floor(nights / 2));
    let sum = 0;
    for (let night = 0; night < nights; night++) sum += seasonalValue(curve, yearShare(addDays(first, night)));
    // A tie goes to the day nearer to the one by daylight.
    if (sum < least - 1e-9 || (Math.abs(sum - least) <= 1e-9 && closer(first, best, byLight))) {
      least = sum;
      best = first;
    }
  }
  return best;
}

const closer = (a: Day, b: Day, to: Day): boolean => Math.abs(daysBetween(a, to)) < Math.abs(daysBetween(b, to));

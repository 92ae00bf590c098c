/** The air around a refrigerator through the year and the day. */
import { type Day, dayNumber } from '../measure/day.ts';
import type { RefrigeratorPlace } from './description.ts';
import type { SampledTemperature } from './thermostat.ts';

const HOUR_S = 3600;
const DAY_H = 24;
/** A heated room is warmest in late afternoon, after sun and cooking, and coldest before dawn (estimate). */
const WARMEST_H = 17;
/** Rooms follow the year outdoors: coldest about a month after the shortest day (estimate). */
const COLDEST_DAY = { north: 30, south: 212 } as const;
const YEAR_DAYS = 365.25;

/** The first day whose course is asked for, how many, and on which half of the globe. */
export interface KitchenDays {
  readonly firstDay: Day;
  readonly days: number;
  readonly latitudeDeg: number;
}

/**
 * Temperature of the kitchen by the hour from the first midnight to the last, a straight line between: a year's wave from `kitchenC` to
 * `kitchenSummerC`, and on it a day's of `kitchenSwingK` from lowest to highest. One value where neither is given.
 */
export function kitchenCourse(
  place: RefrigeratorPlace,
  { firstDay, days, latitudeDeg }: KitchenDays,
): SampledTemperature {
  const { kitchenC, kitchenSummerC = kitchenC, kitchenSwingK = 0 } = place;
  if (kitchenSummerC === kitchenC && kitchenSwingK === 0)
    return { stepS: days * DAY_H * HOUR_S, tempC: Float64Array.of(kitchenC) };
  const coldest = latitudeDeg < 0 ? COLDEST_DAY.south : COLDEST_DAY.north;
  const begins = dayNumber(firstDay) - dayNumber(`${firstDay.slice(0, 4)}-01-01`) - coldest;
  const tempC = new Float64Array(days * DAY_H + 1);
  for (let h = 0; h < tempC.length; h++) {
    const year = (2 * Math.PI * (begins + h / DAY_H)) / YEAR_DAYS;
    const day = (2 * Math.PI * ((h % DAY_H) - WARMEST_H)) / DAY_H;
    tempC[h] =
      kitchenC + ((kitchenSummerC - kitchenC) * (1 - Math.cos(year))) / 2 + (kitchenSwingK / 2) * Math.cos(day);
  }
  return { stepS: HOUR_S, tempC };
}

/**
 * The kitchen from ten in the morning of its warmest day on: what a power cut should be judged by. Days run from `fromDay` of the course;
 * after its end the last day comes again.
 */
export function warmestStretch(course: SampledTemperature, fromDay: number, days: number): SampledTemperature {
  const { tempC, stepS } = course;
  if (tempC.length === 1) return { stepS: days * DAY_H * HOUR_S, tempC };
  const lastDay = Math.floor((tempC.length - 1) / DAY_H) - 1;
  let [warmest, most] = [fromDay, Number.NEGATIVE_INFINITY];
  for (let day = fromDay; day <= lastDay; day++) {
    let sum = 0;
    for (let h = 0; h < DAY_H; h++) sum += tempC[day * DAY_H + h]!;
    if (sum > most) [warmest, most] = [day, sum];
  }
  const out = new Float64Array(days * DAY_H + 1);
  for (let h = 0; h < out.length; h++) {
    const at = warmest * DAY_H + 10 + h;
    out[h] = tempC[at <= lastDay * DAY_H + 23 ? at : lastDay * DAY_H + (at % DAY_H)]!;
  }
  return { stepS, tempC: out };
}

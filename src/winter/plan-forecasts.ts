import { addDays, type Day, dayFromNumber, dayNumber, daysBetween } from '../measure/day.ts';
import { type PlannedDay, plannedBodyTemperature } from '../physiology/body-temperature.ts';
import type { BoxClimate } from '../physiology/box-climate.ts';
import { gutOf, gutProgress } from '../physiology/gut-clearing.ts';
import { startMassEstimate } from '../physiology/mass-estimator.ts';
import { longestSleepDays } from '../physiology/mass-forecast.ts';
import { USUAL_LAMP_H } from './plan-table.ts';
import type { GutExpectation, LampStep, PlanRequest } from './plan-types.ts';

const DAY_MS = 86_400_000;
/** Days after the food stops that are looked at. */
const LOOK_DAYS = 120;
/** Grams per cubic centimetre of straight carapace length, where no mass is given (an average animal, Jackson 1980). */
const GUESSED_RATIO = 0.2;
const LAMP_BODY_C = 28;
const NIGHT_BODY_C = 15;

/**
 * The day on which the gut is expected clear, at the lamp hours planned: the animal at lamp temperature while the lamp burns,
 * at night temperature otherwise. A day without an answer is not within the days looked at. The lamp of the last step before
 * *off* is assumed to go on, since an animal whose gut is not clear is not put down.
 */
export function gutExpectation(request: PlanRequest, fastDay: Day, lamp: readonly LampStep[]): GutExpectation {
  const massKg = (request.massG ?? GUESSED_RATIO * (request.sclMm / 10) ** 3) / 1000;
  const burning = lamp.filter((step) => step.hours > 0);
  const nightC = request.nightBodyTempC ?? NIGHT_BODY_C;
  const days = Array.from({ length: LOOK_DAYS }, (_, i): PlannedDay => {
    const day = addDays(fastDay, i);
    const step = burning.filter((one) => one.fromDay <= day).at(-1);
    return {
      lampHours: step?.hours ?? request.lampHours ?? USUAL_LAMP_H,
      baskingC: request.lampBodyTempC ?? LAMP_BODY_C,
      dayC: nightC,
      nightC,
    };
  });
  const fromMs = dayNumber(fastDay) * DAY_MS;
  const { clearAtMs } = gutProgress(plannedBodyTemperature(fromMs, days, massKg), fromMs, gutOf(request.sclMm));
  const day = (atMs: number) => dayFromNumber(Math.ceil(atMs / DAY_MS));
  return {
    ...(clearAtMs.expected === undefined ? {} : { expectedDay: day(clearAtMs.expected) }),
    ...(clearAtMs.early === undefined ? {} : { earliestDay: day(clearAtMs.early) }),
    ...(clearAtMs.late === undefined ? {} : { latestDay: day(clearAtMs.late) }),
  };
}

/** Longest sleep, nights, that begins on `sleepDay` and that the forecast of mass loss allows; at most `ceilingDays`. */
export type MassLimit = (sleepDay: Day, ceilingDays: number) => number;

/** The limit for an animal of this mass in the air of its box; the usual box when no climate is known. */
export function massLimitFor(massG: number, climate: BoxClimate = { spans: [] }): MassLimit {
  const measured = climate.spans.some((span) => span.relativeHumidity !== undefined);
  return (sleepDay, ceilingDays) => {
    const atMs = dayNumber(sleepDay) * DAY_MS;
    return longestSleepDays(startMassEstimate({ atMs, massG }, measured), climate, ceilingDays);
  };
}

/** Days of the fast after which the gut is expected clear: 22 on the 22nd day without food. */
export const clearOnFastDay = (fastDay: Day, clearDay: Day): number => daysBetween(fastDay, clearDay) + 1;

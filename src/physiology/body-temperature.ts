import { BODY_COOLING } from './constants.ts';

/** One planned day: a lamp for some hours, and the temperature of the room the rest of the time. */
export interface PlannedDay {
  readonly lampHours: number;
  /** Body temperature the animal reaches under its lamp, °C. */
  readonly baskingC: number;
  /** Air where it stands by day without the lamp, and by night, °C. */
  readonly dayC: number;
  readonly nightC: number;
}

/** Body temperatures in time order. Instants are ms since 1970 UTC. */
export interface TemperatureSeries {
  readonly atMs: Float64Array;
  readonly tempC: Float64Array;
}

const HOUR_MS = 3_600_000;
const STEPS_PER_HOUR = 4;

/** Warming and cooling time constants, hours (Chelonia mydas in moving air, 1986: 34.0 M^0.33 and 53.4 M^0.53 minutes). */
export function bodyTimeConstantsH(massKg: number): { warming: number; cooling: number } {
  return {
    warming: (BODY_COOLING.warmMin * massKg ** BODY_COOLING.warmExponent) / 60,
    cooling: (BODY_COOLING.coolMin * massKg ** BODY_COOLING.coolExponent) / 60,
  };
}

/**
 * Body temperature through planned days, every quarter of an hour. The lamp burns around the middle of each day, the
 * daylight temperature holds for 12 hours around it, the night temperature otherwise; the body follows with its time constants.
 *
 * @param startMs the instant the first day begins
 * @param massKg above 0
 */
export function plannedBodyTemperature(
  startMs: number,
  days: readonly PlannedDay[],
  massKg: number,
): TemperatureSeries {
  if (!(massKg > 0)) throw new RangeError(`mass must be above 0 kg, not ${massKg}`);
  const steps = days.length * 24 * STEPS_PER_HOUR;
  const atMs = new Float64Array(steps + 1);
  const tempC = new Float64Array(steps + 1);
  const { warming, cooling } = bodyTimeConstantsH(massKg);
  const keepWarming = Math.exp(-1 / STEPS_PER_HOUR / warming);
  const keepCooling = Math.exp(-1 / STEPS_PER_HOUR / cooling);
  let body = days[0]?.nightC ?? 0;
  for (let i = 0; i <= steps; i++) {
    atMs[i] = startMs + (i / STEPS_PER_HOUR) * HOUR_MS;
    tempC[i] = body;
    const day = days[Math.min(days.length - 1, Math.floor(i / (24 * STEPS_PER_HOUR)))];
    if (!day) break;
    const target = surroundingsC(day, (i / STEPS_PER_HOUR) % 24);
    body = target + (body - target) * (target > body ? keepWarming : keepCooling);
  }
  return { atMs, tempC };
}

function surroundingsC(day: PlannedDay, hour: number): number {
  const fromNoon = Math.abs(hour - 12);
  if (fromNoon < day.lampHours / 2) return Math.max(day.baskingC, day.dayC);
  return fromNoon < 6 ? day.dayC : day.nightC;
}

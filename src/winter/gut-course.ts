import { type Day, daysBetween } from '../measure/day.ts';
import type { Source } from '../measure/source.ts';
import { plannedBodyTemperature, type TemperatureSeries } from '../physiology/body-temperature.ts';
import { type GutVerdict, gutOf, gutProgress, gutVerdict } from '../physiology/gut-clearing.ts';
import type { PlanRequest } from './plan-types.ts';

const DAY_MS = 86_400_000;
const STEP_MS = 6 * 3_600_000;
const LOOK_DAYS = 120;
/** Grams per cubic centimetre of straight carapace length, where no mass is given (an average animal, Jackson 1980). */
const GUESSED_RATIO = 0.2;
/** A meal longer ago belongs to another winter. */
const MEAL_DAYS = 60;

/** How warm it was after the last meal: hours a day under the lamp, °C there, °C otherwise. */
export interface Warmth {
  readonly mealDay: Day;
  readonly lampHours: number;
  readonly lampBodyTempC: number;
  readonly nightTempC: number;
}

interface Size {
  readonly sclMm: number;
  readonly massG?: number | undefined;
}

/** The body temperature that follows from figures, from half a day before the meal at `mealMs` for 120 days. */
export function warmthSeries(size: Size, warmth: Omit<Warmth, 'mealDay'>, mealMs: number): TemperatureSeries {
  const day = {
    lampHours: warmth.lampHours,
    baskingC: warmth.lampBodyTempC,
    dayC: warmth.nightTempC,
    nightC: warmth.nightTempC,
  };
  const massKg = (size.massG ?? GUESSED_RATIO * (size.sclMm / 10) ** 3) / 1000;
  return plannedBodyTemperature(
    mealMs - DAY_MS / 2,
    Array.from({ length: LOOK_DAYS }, () => day),
    massKg,
  );
}

/** Readings as they came, oldest first, and after the last of them the mean of their last three days. Undefined for fewer than two. */
export function readingSeries(atMs: readonly number[], tempC: readonly number[]): TemperatureSeries | undefined {
  if (atMs.length < 2) return undefined;
  const lastMs = atMs.at(-1)!;
  const late = tempC.filter((_, index) => atMs[index]! > lastMs - 3 * DAY_MS);
  const meanC = late.reduce((sum, one) => sum + one, 0) / late.length;
  const steps = Array.from({ length: (LOOK_DAYS * DAY_MS) / STEP_MS }, (_, i) => lastMs + (i + 1) * STEP_MS);
  return {
    atMs: Float64Array.from([...atMs, ...steps]),
    tempC: Float64Array.from([...tempC, ...steps.map(() => meanC)]),
  };
}

export interface GutCourse {
  readonly verdict: GutVerdict;
  /** Instants at which the fast, the usual and the slow gut is clear; one that never is, is absent. */
  readonly clearAtMs: { readonly early?: number; readonly expected?: number; readonly late?: number };
  readonly source: Source;
}

/** What has passed by `nowMs` of a meal eaten at `mealMs`, and when the rest will have. */
export function gutCourse(size: Size, series: TemperatureSeries, mealMs: number, nowMs: number): GutCourse {
  const gut = gutOf(size.sclMm);
  const soFar = gutProgress(until(series, Math.max(mealMs + STEP_MS, nowMs)), mealMs, gut);
  return {
    verdict: gutVerdict(soFar, gut),
    clearAtMs: gutProgress(series, mealMs, gut).clearAtMs,
    source: gut.source,
  };
}

/** The series up to an instant. */
function until({ atMs, tempC }: TemperatureSeries, endMs: number): TemperatureSeries {
  const after = atMs.findIndex((ms) => ms > endMs);
  const end = after < 0 ? atMs.length : after;
  return { atMs: atMs.slice(0, end), tempC: tempC.slice(0, end) };
}

/** The warmth written down last, if its meal was in the 60 days up to `today`. */
export function warmthInForce<T extends { readonly at: string; readonly mealDay: Day }>(
  written: readonly T[],
  today: Day,
): T | undefined {
  const newest = [...written].sort((a, b) => Date.parse(b.at) - Date.parse(a.at))[0];
  if (!newest) return undefined;
  const ago = daysBetween(newest.mealDay, today);
  return ago >= 0 && ago <= MEAL_DAYS ? newest : undefined;
}

/**
 * A request that reckons with the warmth there really is instead of the usual one. How long the lamp burns stays the plan's to say: an
 * animal with food in it is not planned out of the light because its lamp has been off.
 */
export function withWarmth(request: PlanRequest, warmth: Warmth | undefined): PlanRequest {
  if (!warmth) return request;
  return { ...request, lampBodyTempC: warmth.lampBodyTempC, nightBodyTempC: warmth.nightTempC };
}

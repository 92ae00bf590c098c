import { addDays, type Day, daysBetween } from '../measure/day.ts';
import { figure, mass } from '../measure/figures.ts';
import { instantInZone } from '../measure/zone.ts';
import { LOSS_END_LIMIT, LOSS_PLAN_LIMIT } from '../physiology/constants.ts';
import type { MassEstimate } from '../physiology/mass-estimator.ts';
import { forecastMass } from '../physiology/mass-forecast.ts';
import { massEntries } from '../winter/mass-entries.ts';
import type { WinterPlan } from '../winter/plan-types.ts';
import type { AnimalRecords, PlanOnPaper } from './animal-records.ts';
import { speciesInWords, startMeasurement } from './animal-words.ts';

const DAY_MS = 86_400_000;
/** The hour at which a look is taken to happen; a few hours change no gram. */
const LOOK_HOUR = 9;

/** One line of the sheet: a day to look on, and the weight expected then. */
interface DiaryLine {
  readonly day: Day;
  /** "1,165 to 1,178 g": nine weighings in ten. Absent without a starting weight. */
  readonly expected?: string;
  /** A weight that is on record already. */
  readonly weighed?: string;
}

/** What the sheet on the wall of the shed shows. */
export interface DiaryView {
  readonly animalName: string;
  readonly species: string;
  readonly winter: string;
  readonly asleep: boolean;
  readonly box?: string;
  readonly startMass?: string;
  readonly planLimit?: string;
  readonly endLimit?: string;
  readonly lines: readonly DiaryLine[];
  readonly massUnit: 'g' | 'oz';
  readonly temperatureUnit: 'C' | 'F';
  readonly madeAtMs: number;
}

/** The weekly sheet of the sleep, or of the winter awake, that the plan in force holds. */
export function diaryView(records: AnimalRecords, kept: PlanOnPaper, nowMs: number): DiaryView {
  const { animal, group, stays, boxes } = records;
  const { plan } = kept;
  const start = startMeasurement(records);
  const estimate = plan.sleepDay ? estimateOf(records, plan) : undefined;
  const unit = group.massUnit;
  const weighed = (day: Day) => {
    const from = instantInZone(day, group.zone);
    const found = records.measurements.findLast(
      ({ at, massG }) => massG !== undefined && Date.parse(at) >= from && Date.parse(at) < from + DAY_MS,
    );
    return found ? mass(found.massG!, unit) : undefined;
  };
  const boxName = boxes.find((one) => one.id === stays.at(-1)?.boxId)?.name;
  const startG = plan.sleepDay ? start?.massG : undefined;
  return {
    animalName: animal.name,
    species: speciesInWords(animal.species),
    winter: plan.winter,
    asleep: plan.sleepDay !== undefined,
    ...(boxName ? { box: boxName } : {}),
    ...(startG === undefined
      ? {}
      : {
          startMass: mass(startG, unit),
          planLimit: mass(startG * (1 - LOSS_PLAN_LIMIT.value), unit),
          endLimit: mass(startG * (1 - LOSS_END_LIMIT.value), unit),
        }),
    lines: looksOf(plan).map((day) => {
      const expected = estimate && expectedOn(estimate, instantInZone(day, group.zone, LOOK_HOUR), unit);
      const known = weighed(day);
      return { day, ...(expected ? { expected } : {}), ...(known ? { weighed: known } : {}) };
    }),
    massUnit: unit,
    temperatureUnit: group.temperatureUnit,
    madeAtMs: nowMs,
  };
}

/** Days of the weekly looks of the sleep; every seventh day of a winter awake. */
function looksOf(plan: WinterPlan): Day[] {
  const { sleepDay, wakeDay } = plan;
  if (sleepDay && wakeDay) {
    const looks = plan.tasks.filter((task) => task.kind === 'look' && task.day >= sleepDay && task.day < wakeDay);
    return [...new Set([sleepDay, ...looks.map((task) => task.day), wakeDay])];
  }
  const weeks = Math.floor(daysBetween(plan.fromDay, plan.toDay) / 7) + 1;
  return Array.from({ length: weeks }, (_, week) => addDays(plan.fromDay, week * 7));
}

/** What the weighings so far say of the mass, in the usual air of a box. */
function estimateOf(records: AnimalRecords, plan: WinterPlan): MassEstimate | undefined {
  const start = startMeasurement(records);
  if (!start) return undefined;
  const startMs = Date.parse(start.at);
  const endMs = instantInZone(addDays(plan.wakeDay ?? plan.toDay, 0), records.group.zone);
  const later = records.measurements.flatMap(({ at, massG }) => {
    const atMs = Date.parse(at);
    return massG !== undefined && atMs > startMs && atMs < endMs ? [{ atMs, massG }] : [];
  });
  const steps = records.diary.flatMap(({ at, kind }) => {
    const atMs = Date.parse(at);
    return (kind === 'urine' || kind === 'drank') && atMs > startMs && atMs < endMs ? [{ atMs, kind }] : [];
  });
  return massEntries({ weighIns: [{ atMs: startMs, massG: start.massG }, ...later], readings: [], steps }).estimate;
}

function expectedOn(estimate: MassEstimate, atMs: number, unit: 'g' | 'oz'): string | undefined {
  const days = Math.round((atMs - estimate.atMs) / DAY_MS);
  if (days < 1 || days > 200) return undefined;
  const forecast = forecastMass(estimate, { spans: [] }, days);
  return rangeInWords(forecast.p05G[days]!, forecast.p95G[days]!, unit);
}

/** A range told so that it holds what it says: the low end rounded down, the high end up, to what a kitchen scale shows. */
function rangeInWords(lowG: number, highG: number, unit: 'g' | 'oz'): string {
  const step = unit === 'oz' ? 28.349523125 / 10 : lowG < 100 ? 0.1 : 1;
  const low = Math.floor(lowG / step) * step;
  const high = Math.ceil(highG / step) * step;
  if (unit === 'oz') return `${figure(low / 28.349523125, 1)} to ${mass(high, 'oz')}`;
  return `${figure(low, lowG < 100 ? 1 : 0)} to ${mass(high)}`;
}

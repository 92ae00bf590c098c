import { type Day, daysBetween } from '../../measure/day.ts';
import type { Spread } from '../../measure/spread.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import { type BoxReading, climateFromReadings } from '../../physiology/box-climate.ts';
import { addWeighIn, type JudgedWeighIn } from '../../physiology/mass-estimator.ts';
import { forecastMass, type MassForecast } from '../../physiology/mass-forecast.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Stay } from '../../schema/stay.ts';
import { massEntries } from '../../winter/mass-entries.ts';
import { planInForce, type StoredPlan } from '../animals/records.ts';

const DAY_MS = 86_400_000;
/** Without a planned waking the forecast looks as far as the longest sleep of the most cautious advice. */
const LOOK_DAYS = 91;

export interface SleepMass {
  readonly startMassG: number;
  readonly judged: readonly JudgedWeighIn[];
  /** What a weigh-in made now should show, nine times in ten. */
  readonly expectedG: Spread;
  readonly forecast: MassForecast;
  readonly wakeDay: Day | undefined;
  /** Every weighing of this sleep, the start first. */
  readonly weighIns: readonly { readonly atMs: number; readonly massG: number }[];
}

/** What is known of one sleep, entries waiting on this device included. */
export interface SleepRecord {
  readonly stay: Stay;
  readonly measurements: readonly Measurement[];
  readonly diary: readonly DiaryEntry[];
  readonly plans: readonly StoredPlan[];
  readonly readings: readonly BoxReading[];
  readonly zone: string;
  readonly today: Day;
  readonly nowMs: number;
}

/** The mass of an animal through its sleep; undefined while nothing was weighed at the start. */
export function sleepMass(record: SleepRecord): SleepMass | undefined {
  const { stay, readings, zone, today } = record;
  const entries = record.diary.map((one) => ({ ...one, atMs: Date.parse(one.at) }));
  const weighed = record.measurements
    .flatMap((one) => (one.massG === undefined ? [] : [{ atMs: Date.parse(one.at), massG: one.massG }]))
    .sort((a, b) => a.atMs - b.atMs);
  const dayStart = instantInZone(stay.fromDay, zone);
  const start = weighed.filter((one) => one.atMs < dayStart + DAY_MS && one.atMs > dayStart - 14 * DAY_MS).at(-1);
  if (!start) return undefined;
  const down = entries
    .filter((one) => one.kind === 'went-down' && one.atMs >= dayStart - DAY_MS)
    .sort((a, b) => a.atMs - b.atMs)[0];
  const fromMs = down?.atMs ?? Math.max(start.atMs, instantInZone(stay.fromDay, zone, 12));
  const weighIns = [
    { atMs: fromMs, massG: start.massG },
    ...weighed.filter((one) => one.atMs > fromMs && one !== start),
  ];
  const wakeDay = planInForce(record.plans)?.plan.wakeDay;
  const { judged, estimate } = massEntries({
    weighIns,
    readings,
    steps: entries
      .flatMap(({ atMs, kind }) => (kind === 'urine' || kind === 'drank' ? [{ atMs, kind }] : []))
      .sort((a, b) => a.atMs - b.atMs),
    ...(wakeDay ? { plannedWakeMs: instantInZone(wakeDay, zone, 9) } : {}),
  });
  if (!estimate) return undefined;
  const nowMs = Math.max(record.nowMs, estimate.atMs);
  const climate = climateFromReadings(readings, nowMs);
  const lastDay = dayInZone(estimate.atMs, zone);
  const days = wakeDay && wakeDay > lastDay ? daysBetween(lastDay, wakeDay) : LOOK_DAYS;
  return {
    startMassG: start.massG,
    judged,
    expectedG: addWeighIn(estimate, { atMs: nowMs, massG: start.massG }, climate).judged.expectedG,
    forecast: forecastMass(estimate, climate, days),
    wakeDay: wakeDay && wakeDay >= today ? wakeDay : undefined,
    weighIns,
  };
}

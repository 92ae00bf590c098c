import { type BoxReading, climateFromReadings } from '../physiology/box-climate.ts';
import {
  addWeighIn,
  type JudgedWeighIn,
  type MassEstimate,
  startMassEstimate,
  type WeighIn,
} from '../physiology/mass-estimator.ts';
import { planLimitMs } from '../physiology/mass-forecast.ts';
import type { WatchEntry } from './watch-types.ts';

const DAY_MS = 86_400_000;
const WEEK_MS = 7 * DAY_MS;
/** Forecasts look this far ahead when no day of waking is planned. */
const LOOK_DAYS = 91;

/** What is on record of one stay as far as its mass goes; everything in order of time. */
export interface MassRecord {
  /** The first is the starting weigh-in. */
  readonly weighIns: readonly WeighIn[];
  readonly readings: readonly BoxReading[];
  /** When urine or a drink was entered in the diary: it explains the next weigh-in. */
  readonly steps: readonly { readonly atMs: number; readonly kind: 'urine' | 'drank' }[];
  readonly plannedWakeMs?: number;
}

/** Weigh-ins as the watch takes them, each with the range expected of it and followed by the forecast it leads to. */
export interface MassEntries {
  readonly entries: readonly WatchEntry[];
  readonly judged: readonly JudgedWeighIn[];
  /** After the last weigh-in; absent without any. */
  readonly estimate?: MassEstimate;
}

/** Runs the mass estimator over the weigh-ins of a stay, each with only what was known when it was made. */
export function massEntries(record: MassRecord): MassEntries {
  const [start, ...later] = record.weighIns;
  if (!start) return { entries: [], judged: [] };
  const humidityMeasured = record.readings.some((reading) => reading.humidity !== undefined);
  let estimate = startMassEstimate(start, humidityMeasured);
  const entries: WatchEntry[] = [{ kind: 'weigh-in', atMs: start.atMs, massG: start.massG }];
  const judged: JudgedWeighIn[] = [];
  let first = 0;
  for (const weighIn of later) {
    // Readings before both the last weigh-in and the last week say nothing of this one.
    const sinceMs = Math.min(estimate.atMs, weighIn.atMs - WEEK_MS);
    while (first < record.readings.length && record.readings[first]!.atMs < sinceMs) first++;
    const climate = climateFromReadings(record.readings, weighIn.atMs, first);
    const told = record.steps.filter((step) => step.atMs > estimate.atMs && step.atMs <= weighIn.atMs).at(-1);
    const next = addWeighIn(estimate, told ? { ...weighIn, since: told.kind } : weighIn, climate);
    estimate = next.estimate;
    judged.push(next.judged);
    const { expectedG, weighAgain, worseG } = next.judged;
    entries.push({
      kind: 'weigh-in',
      atMs: weighIn.atMs,
      // Until a second weighing has settled it the worse value counts; a figure in another unit counts as converted.
      massG: weighAgain ? worseG : weighIn.massG,
      expectedLowG: expectedG.low,
      expectedHighG: expectedG.high,
    });
    const { plannedWakeMs } = record;
    const days = plannedWakeMs === undefined ? LOOK_DAYS : Math.ceil((plannedWakeMs - weighIn.atMs) / DAY_MS);
    const passesMs = planLimitMs(estimate, { spans: [], ...(climate.usual ? { usual: climate.usual } : {}) }, days);
    entries.push({ kind: 'mass-forecast', atMs: weighIn.atMs, ...(passesMs === undefined ? {} : { passesMs }) });
  }
  return { entries, judged, estimate };
}

import { useMemo } from 'react';
import { addDays, type Day, daysBetween } from '../../measure/day.ts';
import type { Spread } from '../../measure/spread.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import { type BoxReading, climateFromReadings } from '../../physiology/box-climate.ts';
import { addWeighIn, type JudgedWeighIn } from '../../physiology/mass-estimator.ts';
import { forecastMass, type MassForecast } from '../../physiology/mass-forecast.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import type { Stay } from '../../schema/stay.ts';
import { massEntries } from '../../winter/mass-entries.ts';
import { planInForce, type StoredPlan } from '../animals/records.ts';
import { useFigures } from '../data/group.ts';
import { useOutbox } from '../data/outbox.ts';
import { useAnswer } from '../data/queries.ts';

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

/**
 * The mass of an animal through its sleep, from its weigh-ins, the readings in its box and its diary, those waiting on this
 * device among them. Undefined while nothing was weighed at the start, or there is no sleep.
 */
export function useSleepMass(animalId: string, stay: Stay | undefined): SleepMass | undefined {
  const { today, zone } = useFigures();
  const asked = stay !== undefined;
  const outbox = useOutbox();
  const kept = useAnswer<readonly Measurement[]>(`animals/${animalId}/measurements`, asked).data;
  const diary = useAnswer<readonly DiaryEntry[]>(`animals/${animalId}/diary`, asked).data;
  const plans = useAnswer<readonly StoredPlan[]>(`animals/${animalId}/plans`, asked).data;
  const readings = useBoxReadings(stay);
  return useMemo(() => {
    if (!stay || !kept) return undefined;
    const entered = <T>(kind: string) =>
      outbox
        .filter((one) => one.kind === kind && (one.body as { animalId?: string }).animalId === animalId)
        .map((one) => one.body as T);
    const measurements = [
      ...new Map([...kept, ...entered<Measurement>('measurement')].map((one) => [one.id, one])).values(),
    ];
    const entries = [...(diary ?? []), ...entered<DiaryEntry>('diary')].map((one) => ({
      ...one,
      atMs: Date.parse(one.at),
    }));
    const weighed = measurements
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
    const wakeDay = planInForce(plans ?? [])?.plan.wakeDay;
    const { judged, estimate } = massEntries({
      weighIns,
      readings,
      steps: entries
        .flatMap(({ atMs, kind }) => (kind === 'urine' || kind === 'drank' ? [{ atMs, kind }] : []))
        .sort((a, b) => a.atMs - b.atMs),
      ...(wakeDay ? { plannedWakeMs: instantInZone(wakeDay, zone, 9) } : {}),
    });
    if (!estimate) return undefined;
    const nowMs = Math.max(Date.now(), estimate.atMs);
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
  }, [stay, kept, diary, plans, readings, outbox, animalId, zone, today]);
}

const none: readonly BoxReading[] = [];

/** Hourly means of the first probe in the box of a stay, from its first day to today; empty without a probe. */
export function useBoxReadings(stay: Stay | undefined): readonly BoxReading[] {
  const { today, zone } = useFigures();
  const probes = useAnswer<readonly Probe[]>('probes', stay !== undefined).data ?? [];
  const probe = stay && probes.find((one) => one.boxId === stay.boxId);
  const fromMs = instantInZone(stay?.fromDay ?? today, zone);
  const toMs = instantInZone(addDays(stay?.toDay ?? today, 1), zone);
  const hours = Math.min(4000, Math.ceil((toMs - fromMs) / 3_600_000) + 1);
  const chart = useAnswer<ReadingChart>(
    `readings?probeId=${probe?.id}&from=${new Date(fromMs).toISOString()}&to=${new Date(toMs).toISOString()}&buckets=${hours}`,
    probe !== undefined,
  ).data;
  return useMemo(
    () =>
      chart
        ? chart.atMs.map((atMs, index) => {
            const humidity = chart.humidity[index];
            return { atMs, tempC: chart.meanC[index] as number, ...(typeof humidity === 'number' ? { humidity } : {}) };
          })
        : none,
    [chart],
  );
}

import { useMemo } from 'react';
import { addDays } from '../../measure/day.ts';
import { instantInZone } from '../../measure/zone.ts';
import type { BoxReading } from '../../physiology/box-climate.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import type { Stay } from '../../schema/stay.ts';
import type { StoredPlan } from '../animals/records.ts';
import { useFigures } from '../data/group.ts';
import { usePart } from '../data/later.ts';
import { useOutbox } from '../data/outbox.ts';
import { useAnswer } from '../data/queries.ts';
import { withWaiting } from '../data/with-waiting.ts';
import type { SleepMass } from './sleep-mass.ts';

/** The arithmetic of sleep comes after the round, which opens first. */
const sleepMassPart = () => import('./sleep-mass.ts');

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
  const work = usePart(sleepMassPart, asked);
  return useMemo(() => {
    if (!stay || !kept || !work) return undefined;
    return work.sleepMass({
      stay,
      measurements: withWaiting(outbox, 'measurement', animalId, kept),
      diary: withWaiting(outbox, 'diary', animalId, diary ?? []),
      plans: plans ?? [],
      readings,
      zone,
      today,
      nowMs: Date.now(),
    });
  }, [work, stay, kept, diary, plans, readings, outbox, animalId, zone, today]);
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

import { useMemo } from 'react';
import { type Day, daysBetween } from '../../measure/day.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Notice } from '../../schema/notice.ts';
import type { Stay } from '../../schema/stay.ts';
import { summarizeWinter, type WinterSummary } from '../../winter/summary.ts';
import type { RuleId } from '../../winter/watch-types.ts';
import { planInForce, type StoredPlan } from '../animals/records.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { useOutbox } from '../data/outbox.ts';
import { useAnswer } from '../data/queries.ts';
import { withWaiting } from '../data/with-waiting.ts';
import { useBoxReadings } from '../mass/use-mass.ts';

const DAY_MS = 86_400_000;
const LONGEST_GAP_MS = 6 * 3_600_000;

/** One animal's winter in its box, from the day it went in to its waking, as far as it is recorded. */
export interface Winter {
  readonly stay: Stay | undefined;
  /** When the box came into the heated room; absent while it sleeps. */
  readonly wokenMs: number | undefined;
  readonly startMassG: number | undefined;
  readonly entries: readonly (DiaryEntry & { readonly atMs: number })[];
  readonly weighings: readonly { readonly atMs: number; readonly massG: number }[];
  readonly summary: WinterSummary | undefined;
}

/** Reads the newest stay of an animal and what followed it, entries still on this device among them. */
export function useWinter(animalId: string): Winter {
  const { today, zone, massUnit } = useFigures();
  const group = useGroup();
  const outbox = useOutbox();
  const stays = useAnswer<readonly Stay[]>('stays').data;
  const diary = useAnswer<readonly DiaryEntry[]>(`animals/${animalId}/diary`).data;
  const measurements = useAnswer<readonly Measurement[]>(`animals/${animalId}/measurements`).data;
  const plans = useAnswer<readonly StoredPlan[]>(`animals/${animalId}/plans`).data;
  const notices = useAnswer<readonly Notice[]>('notices').data;
  const stay = (stays ?? [])
    .filter((one) => one.animalId === animalId && one.fromDay <= today)
    .sort((a, b) => (a.fromDay < b.fromDay ? 1 : -1))[0];
  const readings = useBoxReadings(stay);
  return useMemo(() => {
    const once = <T extends { id: string; at: string }>(all: readonly T[]) =>
      [...new Map(all.map((one) => [one.id, one])).values()]
        .map((one) => ({ ...one, atMs: Date.parse(one.at) }))
        .sort((a, b) => a.atMs - b.atMs);
    const entries = once(withWaiting(outbox, 'diary', animalId, diary ?? []));
    const weighings = once(withWaiting(outbox, 'measurement', animalId, measurements ?? [])).flatMap(
      ({ atMs, massG }) => (massG === undefined ? [] : [{ atMs, massG }]),
    );
    if (!stay) return { stay, wokenMs: undefined, startMassG: undefined, entries, weighings, summary: undefined };
    const fromMs = instantInZone(stay.fromDay, zone);
    const wokenMs = entries.find((one) => one.kind === 'woken' && one.atMs >= fromMs)?.atMs;
    const startMassG = weighings
      .filter((one) => one.atMs < fromMs + DAY_MS && one.atMs > fromMs - 14 * DAY_MS)
      .at(-1)?.massG;
    const inForce = planInForce(plans ?? []);
    const first = (plans ?? [])
      .filter((one) => one.plan.winter === inForce?.plan.winter)
      .sort((a, b) => a.revision - b.revision)[0];
    const summary = () => {
      if (wokenMs === undefined || !first || !first.plan.sleepDay) return undefined;
      const slept = readings.filter((one) => one.atMs < wokenMs);
      const fed = entries.find((one) => one.kind === 'fed' && one.atMs >= wokenMs)?.atMs;
      const wakingMassG = weighings.find((one) => one.atMs >= wokenMs - DAY_MS)?.massG;
      const wokenDay: Day = dayInZone(wokenMs, zone);
      return summarizeWinter({
        plan: first.plan,
        nightsSlept: Math.max(0, daysBetween(stay.fromDay, wokenDay)),
        ...(startMassG === undefined ? {} : { startMassG }),
        ...(wakingMassG === undefined ? {} : { wakingMassG }),
        timesMs: slept.map((one) => one.atMs),
        tempsC: slept.map((one) => one.tempC),
        longestGapMs: LONGEST_GAP_MS,
        ruleIds: (notices ?? []).filter((one) => one.stayId === stay.id).map((one) => one.ruleId as RuleId),
        ...(fed === undefined ? {} : { daysToFirstFood: Math.floor((fed - wokenMs) / DAY_MS) }),
        temperatureUnit: group.temperatureUnit,
        massUnit,
      });
    };
    return { stay, wokenMs, startMassG, entries, weighings, summary: summary() };
  }, [stay, diary, measurements, plans, notices, readings, outbox, animalId, zone, massUnit, group]);
}

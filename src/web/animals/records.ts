import { addDays, type Day } from '../../measure/day.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import type { KeptPlan } from '../../schema/kept-plan.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import type { Stay } from '../../schema/stay.ts';
import type { PlanRequest, WinterPlan } from '../../winter/plan-types.ts';
import { useAnswer } from '../data/queries.ts';
import type { LineTemperature } from '../winter-line/layout.ts';

/** A kept plan with its parts as the knowledge rooms write them. */
export type StoredPlan = Omit<KeptPlan, 'request' | 'plan'> & {
  readonly request: PlanRequest;
  readonly plan: WinterPlan;
};

/** The plan in force: the one made last. */
export function planInForce(plans: readonly StoredPlan[]): StoredPlan | undefined {
  return [...plans].sort((a, b) => (a.madeAt < b.madeAt ? 1 : -1))[0];
}

/** Coldest and warmest of each day in the box of a stay, from its first probe; days without a reading are left out. */
export function useBoxDays(stay: Stay | undefined, fromDay: Day, zone: string): readonly LineTemperature[] {
  const probes = useAnswer<readonly Probe[]>('probes').data ?? [];
  const probe = stay && probes.find((one) => one.boxId === stay.boxId);
  const from = new Date(instantInZone(stay?.fromDay ?? fromDay, zone)).toISOString();
  const to = new Date(instantInZone(addDays(dayInZone(Date.now(), zone), 1), zone)).toISOString();
  const chart = useAnswer<ReadingChart>(
    `readings?probeId=${probe?.id}&from=${from}&to=${to}&buckets=1500`,
    probe !== undefined,
  ).data;
  if (!chart) return [];
  const days = new Map<Day, { minC: number; maxC: number }>();
  chart.atMs.forEach((atMs, index) => {
    const day = dayInZone(atMs, zone);
    const minC = chart.minC[index] as number;
    const maxC = chart.maxC[index] as number;
    const known = days.get(day);
    days.set(day, known ? { minC: Math.min(known.minC, minC), maxC: Math.max(known.maxC, maxC) } : { minC, maxC });
  });
  return [...days].map(([day, range]) => ({ day, ...range }));
}

import type { Day } from '../measure/day.ts';
import { dayInZone, instantInZone } from '../measure/zone.ts';
import { assessAnimal } from '../records/assessing.ts';
import { MOST_BUCKETS, readingChart } from '../records/charts.ts';
import type { Database } from '../records/database.ts';
import { list, type Scope } from '../records/entries.ts';
import { historyOf } from '../records/history.ts';
import { PROBE } from '../records/kinds.ts';
import { RecordProblem } from '../records/problem.ts';
import type { Group } from '../schema/group.ts';
import type { History } from '../schema/history.ts';
import type { KeptPlan } from '../schema/kept-plan.ts';
import type { ReadingChart } from '../schema/reading.ts';
import type { Assessment } from '../tortoise/types.ts';
import type { WinterPlan } from '../winter/plan-types.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** A plan as kept, with its parts as the knowledge rooms write them. */
export interface PlanOnPaper extends Omit<KeptPlan, 'plan' | 'request'> {
  readonly plan: WinterPlan;
}

/** Everything the papers of one animal are made from. */
export interface AnimalRecords extends Omit<History, 'plans' | 'changes'> {
  readonly group: Group;
  readonly today: Day;
  /** Every revision, oldest first; `plan` is the one in force. */
  readonly plans: readonly PlanOnPaper[];
  readonly plan?: PlanOnPaper;
  readonly keeper?: string;
  readonly tutor?: string;
}

/** The records of one animal as the papers need them. Throws RecordProblem for an animal this scope does not see. */
export async function animalRecords(
  database: Database,
  scope: Scope,
  group: Group,
  animalId: string,
): Promise<AnimalRecords> {
  const { changes: _, ...history } = await historyOf(database, scope, animalId);
  const people = await database.kysely
    .selectFrom('people')
    .select(['id', 'name', 'role'])
    .where('groupId', '=', group.id)
    .where('removedAtMs', 'is', null)
    .orderBy('createdAtMs')
    .execute();
  const plans = history.plans as unknown as PlanOnPaper[];
  const plan = plans.at(-1);
  const keeper = people.find((one) => one.id === history.animal.keeperId)?.name;
  const tutor = people.find((one) => one.role === 'tutor')?.name;
  return {
    ...history,
    group,
    today: dayInZone(scope.nowMs, group.zone),
    plans,
    ...(plan ? { plan } : {}),
    ...(keeper ? { keeper } : {}),
    ...(tutor ? { tutor } : {}),
  };
}

/** Readings in the box during one stay. */
export interface StayReadings {
  readonly stayId: string;
  /** Absent when no probe is in the box. */
  readonly chart?: ReadingChart;
}

/** Readings of the stays of an animal, each from the first probe of its box, as charts draw them. */
export async function stayReadings(database: Database, scope: Scope, records: AnimalRecords): Promise<StayReadings[]> {
  const probes = await list(database, scope, PROBE);
  return Promise.all(
    records.stays.map(async ({ id, boxId, fromDay, toDay }) => {
      const probe = probes.find((one) => one.boxId === boxId);
      if (!probe) return { stayId: id };
      const { zone } = records.group;
      const fromMs = instantInZone(fromDay, zone);
      const toMs = Math.min(scope.nowMs, toDay ? instantInZone(toDay, zone) + DAY_MS : scope.nowMs);
      if (toMs <= fromMs) return { stayId: id };
      // Buckets of an hour or more: in shorter ones the hours between readings would count as not read.
      const buckets = Math.min(MOST_BUCKETS, Math.max(1, Math.floor((toMs - fromMs) / HOUR_MS)));
      return { stayId: id, chart: await readingChart(database, probe.id, fromMs, toMs, buckets) };
    }),
  );
}

/** The verdict of today, or undefined when the animal was never weighed and measured, or is no longer here. */
export async function verdictToday(
  database: Database,
  scope: Scope,
  records: AnimalRecords,
): Promise<Assessment | undefined> {
  try {
    const { animal, group, today } = records;
    if (animal.leftOn !== undefined) return undefined;
    return (await assessAnimal(database, scope, group, animal.id, 'deciding', today)).assessment;
  } catch (problem) {
    if (problem instanceof RecordProblem && problem.type === 'not-measured') return undefined;
    throw problem;
  }
}

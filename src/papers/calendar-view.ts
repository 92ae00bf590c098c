import type { Animal } from '../schema/animal.ts';
import type { KeptPlan } from '../schema/kept-plan.ts';
import type { WinterPlan } from '../winter/plan-types.ts';
import type { CalendarPlan } from './calendar.ts';

/** A calendar that subscribes may hold a replaced plan for this long before it asks again. */
const KEEP_CANCELLED_MS = 30 * 86_400_000;

/** What the calendar shows of one animal: its plan in force, and what was replaced in the last 30 days. Undefined without a plan, and when it died or left. */
export function calendarPlan(
  animal: Pick<Animal, 'id' | 'name' | 'leftOn'>,
  oldestFirst: readonly KeptPlan[],
  nowMs: number,
): CalendarPlan | undefined {
  const now = oldestFirst.at(-1);
  if (!now || animal.leftOn !== undefined) return undefined;
  const earlier = oldestFirst.filter((kept, i) => {
    const next = oldestFirst[i + 1];
    return next && kept.plan.winter === now.plan.winter && Date.parse(next.madeAt) > nowMs - KEEP_CANCELLED_MS;
  });
  return {
    animalId: animal.id,
    animalName: animal.name,
    plan: now.plan as unknown as WinterPlan,
    revision: now.revision,
    madeAtMs: Date.parse(now.madeAt),
    ...(earlier.length > 0 ? { earlier: earlier.map((kept) => kept.plan as unknown as WinterPlan) } : {}),
  };
}

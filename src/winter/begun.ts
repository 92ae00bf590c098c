import { addDays, type Day } from '../measure/day.ts';
import type { Begun } from './plan.ts';
import type { PlanRequest, StageName, WinterPlan } from './plan-types.ts';

/** A plan is a thing of the past so many days after its waking. */
const OVER_AFTER_DAYS = 30;

/**
 * What of a running plan has begun by `today` and stays where it is when `request` moves the rest: the wind-down, the fast, the lamp
 * steps taken. Undefined while nothing has begun, or when the plan is over. A sleep that is only shortened has its nights fixed:
 * waking an animal needs nobody's leave.
 */
export function begunBy(
  plan: WinterPlan,
  request: Pick<PlanRequest, 'sleepDay' | 'sleepDays'>,
  today: Day,
): Begun | undefined {
  if (!plan.sleepDay || !plan.wakeDay || today > addDays(plan.wakeDay, OVER_AFTER_DAYS)) return undefined;
  const since = (name: StageName) => {
    const day = plan.stages.find((stage) => stage.name === name)?.fromDay;
    return day !== undefined && day <= today ? day : undefined;
  };
  const windDownDay = since('winding-down');
  const fastDay = since('fast');
  const sleepDay = request.sleepDay ?? plan.sleepDay;
  const shortens =
    sleepDay === plan.sleepDay &&
    request.sleepDays !== undefined &&
    addDays(sleepDay, request.sleepDays) < plan.wakeDay;
  if (windDownDay === undefined && fastDay === undefined && !(shortens && sleepDay <= today)) return undefined;
  return {
    lamp: plan.lamp.filter((step) => step.fromDay < today),
    ...(windDownDay === undefined ? {} : { windDownDay }),
    ...(fastDay === undefined ? {} : { fastDay }),
    ...(shortens ? { nightsFixed: true } : {}),
  };
}

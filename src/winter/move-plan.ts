import { addDays, type Day, daysBetween } from '../measure/day.ts';
import { dayInWords } from '../measure/day-words.ts';
import type { Assessment } from '../tortoise/types.ts';
import { type Message, message } from '../wording/say.ts';
import { begunBy } from './begun.ts';
import { makePlan, type PlanContext } from './plan.ts';
import type { PlanOutcome, StageName, WinterPlan } from './plan-types.ts';

/** From a clear gut to the sleep: a few short lamp days, the last bath and the rest day. */
const COOL_AFTER_CLEAR_DAYS = 4;

/** What changes: a day that the keeper moves, or an animal or a place that does not follow the plan. */
export type PlanChange =
  | { readonly kind: 'sleep-day'; readonly to: Day }
  | { readonly kind: 'wake-day'; readonly to: Day }
  /** Food is still in the gut; `clearDay` is when it is now expected clear. */
  | { readonly kind: 'gut-not-clear'; readonly clearDay: Day }
  /** Box or place too warm; `coldDay` is the first day on which it is expected to hold the band. */
  | { readonly kind: 'box-too-warm'; readonly coldDay: Day }
  /** It was put down, or woke, on another day than planned. */
  | { readonly kind: 'went-down'; readonly on: Day }
  | { readonly kind: 'woke'; readonly on: Day };

interface Moved {
  readonly what: 'stage' | 'task';
  /** Stage name or task key. */
  readonly key: StageName | string;
  readonly say: Message;
  readonly fromDay: Day;
  readonly toDay: Day;
  /** Days later; negative is earlier. */
  readonly days: number;
  readonly why: Message;
}

export type MoveOutcome =
  | {
      readonly outcome: 'moved';
      readonly plan: WinterPlan;
      /** Why the plan was moved: the keeper's own words, kept with the revision. */
      readonly reason: string;
      /** One sentence that sums the move up. */
      readonly summary: Message;
      readonly moved: readonly Moved[];
      /** Keys of tasks that came in and that fell away, since the stretches changed their lengths. */
      readonly added: readonly string[];
      readonly dropped: readonly string[];
    }
  | Extract<PlanOutcome, { outcome: 'refused' }>;

/**
 * Moves a plan and everything that follows from the day moved. What has begun by `context.today` stays where it was; what lies
 * ahead is worked out anew, with lamp, baths and looks, and every gate and ceiling is held against it again. A sleep that
 * outgrows its ceiling is cut to it, and the plan says so.
 */
export function movePlan(
  plan: WinterPlan,
  change: PlanChange,
  reason: string,
  assessment: Assessment,
  context: PlanContext,
): MoveOutcome {
  if (!plan.sleepDay || !plan.wakeDay) throw new RangeError('A winter awake has no sleeping day to move');
  const nights = daysBetween(plan.sleepDay, plan.wakeDay);
  const { sleepDay, sleepDays } = newDates(plan.sleepDay, plan.wakeDay, nights, change);
  const fact = change.kind === 'woke';
  const begun = begunBy(plan, { sleepDay, sleepDays }, context.today);
  const outcome = makePlan({ ...plan.request, sleepDay, sleepDays }, assessment, {
    ...context,
    // An animal that woke has slept as long as it has: no gate, ceiling or forecast changes the past.
    ...(begun || fact ? { begun: { lamp: [], ...begun, ...(fact ? { nightsFixed: true } : {}) } } : {}),
    ...(change.kind === 'gut-not-clear' ? { gutClearDay: change.clearDay } : {}),
  });
  if (outcome.outcome === 'refused') return outcome;
  const why = whyOf(change, plan, outcome.plan);
  return {
    outcome: 'moved',
    plan: outcome.plan,
    reason,
    summary: why,
    moved: whatMoved(plan, outcome.plan).map((one) => ({ ...one, why })),
    added: keysOnlyIn(outcome.plan, plan, context.today),
    dropped: keysOnlyIn(plan, outcome.plan, context.today),
  };
}

function newDates(
  sleepDay: Day,
  wakeDay: Day,
  nights: number,
  change: PlanChange,
): { sleepDay: Day; sleepDays: number } {
  switch (change.kind) {
    case 'sleep-day':
      return { sleepDay: change.to, sleepDays: nights };
    case 'went-down':
      return { sleepDay: change.on, sleepDays: nights };
    case 'box-too-warm':
      return { sleepDay: later(sleepDay, change.coldDay), sleepDays: nights };
    case 'gut-not-clear':
      return { sleepDay: later(sleepDay, addDays(change.clearDay, COOL_AFTER_CLEAR_DAYS)), sleepDays: nights };
    case 'wake-day':
    case 'woke': {
      const to = change.kind === 'woke' ? change.on : change.to;
      const length = daysBetween(sleepDay, to);
      if (length < 1) throw new RangeError(`The waking must come after the sleeping day ${sleepDay}, not on ${to}`);
      return { sleepDay, sleepDays: to === wakeDay ? nights : length };
    }
  }
}

const later = (a: Day, b: Day): Day => (daysBetween(a, b) > 0 ? b : a);

function whyOf(change: PlanChange, before: WinterPlan, after: WinterPlan): Message {
  const sleepMoved = daysBetween(before.sleepDay!, after.sleepDay!);
  const wakeMoved = daysBetween(before.wakeDay!, after.wakeDay!);
  const values = {
    count: Math.abs(change.kind === 'wake-day' || change.kind === 'woke' ? wakeMoved : sleepMoved),
    sleepDay: dayInWords(after.sleepDay!),
    wakeDay: dayInWords(after.wakeDay!),
  };
  if (sleepMoved === 0 && wakeMoved === 0) return message('winter.move.nothing');
  return message(`winter.move.${change.kind}`, values);
}

/** Everything that stands on another day than before, stages first, each by how many days. */
export function whatMoved(before: WinterPlan, after: WinterPlan): Omit<Moved, 'why'>[] {
  const moved: Omit<Moved, 'why'>[] = [];
  const note = (what: Moved['what'], key: string, say: Message, fromDay: Day | undefined, toDay: Day) => {
    const days = fromDay === undefined ? 0 : daysBetween(fromDay, toDay);
    if (fromDay !== undefined && days !== 0) moved.push({ what, key, say, fromDay, toDay, days });
  };
  for (const stage of after.stages)
    note(
      'stage',
      stage.name,
      stage.purpose,
      before.stages.find((one) => one.name === stage.name)?.fromDay,
      stage.fromDay,
    );
  const old = new Map(before.tasks.map((task) => [task.key, task.day]));
  for (const task of after.tasks) note('task', task.key, task.say, old.get(task.key), task.day);
  return moved;
}

/** Keys in `plan` and not in `other`, of tasks that still lie ahead. */
function keysOnlyIn(plan: WinterPlan, other: WinterPlan, today: Day): string[] {
  const known = new Set(other.tasks.map((task) => task.key));
  return plan.tasks
    .filter((task) => (task.untilDay ?? task.day) >= today && !known.has(task.key))
    .map((task) => task.key);
}

import { type Day, daysBetween } from '../measure/day.ts';
import type { Task, TaskKind, WinterPlan } from './plan-types.ts';

/** A task that was done, or let go with a reason. `day` is the day on which it was due, `doneOn` the day of the tick. */
export interface DoneTask {
  readonly taskKey: string;
  readonly day: Day;
  readonly doneOn: Day;
}

export interface DueTask<Done extends DoneTask> {
  readonly task: Task;
  /** Whole days past its last day; 0 while in time or done. */
  readonly overdueDays: number;
  readonly done?: Done;
}

/** Tasks that come again and again: only the newest that is due is shown, an older one that was missed is past mending. */
const RECURRING: ReadonlySet<TaskKind> = new Set(['look', 'weigh', 'bath', 'feed', 'feeding-watch']);
/** A tick counts for a plan when its task was due so near to the plan's days; the same key in another winter is another task. */
const SAME_WINTER_DAYS = 60;

/** Which part of the winter a day lies in: what belongs to an earlier part is no longer asked for. */
function part(plan: WinterPlan, day: Day): number {
  if (!plan.sleepDay || !plan.wakeDay) return 0;
  return day < plan.sleepDay ? 0 : day < plan.wakeDay ? 1 : 2;
}

/**
 * What one plan asks for on `day`: every task that is due and not done, however late, and what was ticked on the day itself. A
 * tick is found by its key, so that it survives a moved plan.
 */
export function dueTasks<Done extends DoneTask>(plan: WinterPlan, day: Day, done: readonly Done[]): DueTask<Done>[] {
  if (day < plan.fromDay || day > plan.toDay) return [];
  const ticks = new Map<string, Done>();
  for (const one of done) {
    const near =
      daysBetween(plan.fromDay, one.day) >= -SAME_WINTER_DAYS && daysBetween(one.day, plan.toDay) >= -SAME_WINTER_DAYS;
    if (near) ticks.set(one.taskKey, one);
  }
  const due = plan.tasks.filter((task) => task.day <= day && part(plan, task.day) === part(plan, day));
  const newest = new Map<TaskKind, Task>();
  for (const task of due) if (RECURRING.has(task.kind)) newest.set(task.kind, task);
  return due.flatMap((task): DueTask<Done>[] => {
    const tick = ticks.get(task.key);
    if (tick) return tick.doneOn === day ? [{ task, overdueDays: 0, done: tick }] : [];
    if (RECURRING.has(task.kind) && newest.get(task.kind) !== task) return [];
    return [{ task, overdueDays: Math.max(0, daysBetween(task.untilDay ?? task.day, day)) }];
  });
}

/** The tasks of the coming days, for *Next* beside the winter line; those of `from` itself included. */
export function nextTasks(plan: WinterPlan, from: Day, days: number): Task[] {
  return plan.tasks.filter((task) => task.day >= from && daysBetween(from, task.day) < days);
}

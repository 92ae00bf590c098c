import { type Day, daysBetween } from '../measure/day.ts';
import type { Source } from '../measure/source.ts';
import type { Message } from '../wording/say.ts';
import type { Task, TaskKind, WinterPlan } from './plan-types.ts';

/** A plan that is in force, and whose it is. */
export interface RoundPlan {
  readonly animalId: string;
  readonly plan: WinterPlan;
}

export interface RoundStay {
  readonly animalId: string;
  readonly boxId: string;
  readonly placeId: string;
  readonly fromDay: Day;
  readonly toDay?: Day;
}

/** A task that was done, or let go with a reason. `day` is the day it was due. */
export interface RoundDone {
  readonly taskKey: string;
  readonly animalId?: string;
  readonly day: Day;
  readonly outcome: 'done' | 'let-go';
}

type RoundState = 'to-do' | 'overdue' | 'done' | 'let-go';

/** What a face offers beside the sentence: a done control, or a field for the figure. */
type RoundEntry = 'tick' | 'weigh-in' | 'look' | 'examination';

interface RoundTask {
  /** `winter/key of the task`, for example `2026/look-3`: the same however often the plan is moved. */
  readonly taskKey: string;
  readonly animalId: string;
  readonly boxId?: string;
  readonly kind: TaskKind;
  readonly say: Message;
  readonly why?: Message;
  readonly source: Source;
  readonly entry: RoundEntry;
  readonly day: Day;
  readonly untilDay: Day;
  readonly state: RoundState;
  /** Whole days past `untilDay`; 0 while in time. */
  readonly overdueDays: number;
}

/** The tasks of one place; `placeId` is missing for animals that are in no box. */
interface RoundPlace {
  readonly placeId?: string;
  readonly tasks: readonly RoundTask[];
}

export interface Round {
  readonly day: Day;
  readonly places: readonly RoundPlace[];
  readonly toDo: number;
  readonly total: number;
}

/** Tasks that come again and again: only the newest that is due is shown, an older one that was missed is past mending. */
const RECURRING: ReadonlySet<TaskKind> = new Set(['look', 'weigh', 'bath', 'feed', 'feeding-watch']);
const ENTRIES: Partial<Record<TaskKind, RoundEntry>> = {
  weigh: 'weigh-in',
  'put-down': 'weigh-in',
  look: 'look',
  examine: 'examination',
  'waking-check': 'examination',
};

/** Which part of the winter a day lies in: what belongs to an earlier part is no longer asked for. */
function part(plan: WinterPlan, day: Day): number {
  if (!plan.sleepDay || !plan.wakeDay) return 0;
  return day < plan.sleepDay ? 0 : day < plan.wakeDay ? 1 : 2;
}

/** Stable key of a task across plans and winters. */
export const taskKeyOf = (plan: WinterPlan, task: Task): string => `${plan.winter}/${task.key}`;

/**
 * What is to be done on `day`: every task that is due and not done, and those done for that day, by place. Pure: stays, plans
 * and what was done come in. Animals and places stand in the order in which they are given.
 */
export function roundOf(
  day: Day,
  plans: readonly RoundPlan[],
  stays: readonly RoundStay[],
  done: readonly RoundDone[],
): Round {
  const outcomes = new Map(done.map((one) => [`${one.animalId ?? ''} ${one.taskKey}`, one]));
  const stayOf = new Map<string, RoundStay>();
  for (const stay of stays) {
    if (stay.fromDay <= day && (stay.toDay === undefined || stay.toDay >= day)) stayOf.set(stay.animalId, stay);
  }
  const places = new Map<string | undefined, RoundTask[]>();
  for (const stay of stays)
    if (stayOf.get(stay.animalId) === stay && !places.has(stay.placeId)) places.set(stay.placeId, []);
  for (const { animalId, plan } of plans) {
    const stay = stayOf.get(animalId);
    for (const task of dueTasks(plan, day)) {
      const taskKey = taskKeyOf(plan, task);
      const outcome = outcomes.get(`${animalId} ${taskKey}`);
      const untilDay = task.untilDay ?? task.day;
      // Done on an earlier day: nothing more to show, unless its time still runs.
      if (outcome && untilDay < day) continue;
      const overdueDays = outcome ? 0 : Math.max(0, daysBetween(untilDay, day));
      const tasks = places.get(stay?.placeId) ?? [];
      places.set(stay?.placeId, tasks);
      tasks.push({
        taskKey,
        animalId,
        ...(stay ? { boxId: stay.boxId } : {}),
        kind: task.kind,
        say: task.say,
        ...(task.why ? { why: task.why } : {}),
        source: task.source,
        entry: ENTRIES[task.kind] ?? 'tick',
        day: task.day,
        untilDay,
        state: outcome ? outcome.outcome : overdueDays > 0 ? 'overdue' : 'to-do',
        overdueDays,
      });
    }
  }
  const shown = [...places].filter(([, tasks]) => tasks.length > 0);
  const all = shown.flatMap(([, tasks]) => tasks);
  return {
    day,
    places: shown.map(([placeId, tasks]) => (placeId === undefined ? { tasks } : { placeId, tasks })),
    toDo: all.filter((task) => task.state === 'to-do' || task.state === 'overdue').length,
    total: all.length,
  };
}

function dueTasks(plan: WinterPlan, day: Day): Task[] {
  if (day > plan.toDay) return [];
  const due = plan.tasks.filter((task) => task.day <= day && part(plan, task.day) === part(plan, day));
  const newest = new Map<TaskKind, Task>();
  for (const task of due) if (RECURRING.has(task.kind)) newest.set(task.kind, task);
  return due.filter((task) => !RECURRING.has(task.kind) || newest.get(task.kind) === task);
}

/** The tasks of the coming days, for *Next* beside the winter line; those of `from` itself included. */
export function nextTasks(plan: WinterPlan, from: Day, days: number): Task[] {
  return plan.tasks.filter((task) => task.day >= from && daysBetween(from, task.day) < days);
}

import { addDays, type Day, daysBetween } from '../measure/day.ts';
import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import { dayLengthH } from '../weather/sun.ts';
import { type MessageKey, message } from '../wording/say.ts';
import {
  BACK_TO_FULL_DAYS,
  BATH_EVERY_DAYS,
  DRY_RUN_DAYS,
  FEEDING_LIMIT,
  FEEDING_UP_DAYS,
  FIRST_LAMP_STEP_H,
  KINDER_BEYOND_H,
  LAMP_SOURCE,
  LAMP_STEPS,
  LAST_BATH,
  RECOVERED_SOURCE,
  RECOVERING_DAYS,
  USUAL_LAMP_H,
  WAKING_DAYS,
  WAKING_SOURCE,
  WARM_FAST_SOURCE,
  WEEKLY_SOURCE,
} from './plan-table.ts';
import type { LampStep, LastBathView, PlanRequest, Stage, StageName, Task, TaskKind } from './plan-types.ts';

/** The days on which everything else hangs. */
export interface Anchors {
  readonly windDownDay: Day;
  /** First day without food. */
  readonly fastDay: Day;
  readonly sleepDay: Day;
  readonly wakeDay: Day;
}

const stage = (name: StageName, fromDay: Day, toDay: Day): Stage => ({
  name,
  fromDay,
  toDay,
  purpose: message(`winter.stage.${name}`),
});

/** The stretches of the winter line for these anchors; a stretch of no length is left out. */
export function stagesOf(anchors: Anchors): Stage[] {
  const { windDownDay, fastDay, sleepDay, wakeDay } = anchors;
  const recovering = addDays(wakeDay, WAKING_DAYS);
  const backToFull = addDays(recovering, RECOVERING_DAYS);
  return [
    stage('feeding-up', addDays(windDownDay, -FEEDING_UP_DAYS), addDays(windDownDay, -1)),
    stage('winding-down', windDownDay, addDays(fastDay, -1)),
    stage('fast', fastDay, addDays(sleepDay, -1)),
    stage('asleep', sleepDay, addDays(wakeDay, -1)),
    stage('waking', wakeDay, addDays(recovering, -1)),
    stage('recovering', recovering, addDays(backToFull, -1)),
    stage('back-to-full', backToFull, addDays(backToFull, BACK_TO_FULL_DAYS - 1)),
  ].filter((one) => one.toDay >= one.fromDay);
}

const LAST_LIT_STEP = LAMP_STEPS.filter((step) => step.hours > 0).at(-1);

/** What a running plan has already done to the lamp, and what the gut still needs of it. */
export interface LampCourse {
  readonly today: Day;
  /** Steps that have been taken. */
  readonly taken: readonly LampStep[];
  /** The day on which a gut that failed to clear in time is now expected clear: warmth until then. */
  readonly warmUntil?: Day;
}

/**
 * Lamp hours from the wind-down to the last day: 12, 10, 8, 6, off. A step follows the local day length where it would be much
 * shorter than the daylight outside, which is kinder in low latitudes. Hours fall and never rise, but for one thing: while a
 * gut has not cleared the lamp goes back up, for without warmth it never will.
 */
export function lampSteps(anchors: Anchors, request: PlanRequest, small: boolean, course?: LampCourse): LampStep[] {
  const usual = request.lampHours ?? USUAL_LAMP_H;
  const steps: LampStep[] = course ? [...course.taken] : [];
  const add = (fromDay: Day, wanted: number, mayRise = false) => {
    if (course && fromDay < course.today) return;
    const dayLength = Math.round(dayLengthH(fromDay, request.latitudeDeg) * 100) / 100;
    const before = steps.at(-1)?.hours ?? usual;
    const kinder = wanted > 0 && dayLength - wanted > KINDER_BEYOND_H ? Math.round(dayLength * 2) / 2 : wanted;
    const hours = mayRise ? Math.max(before, wanted) : Math.min(before, kinder);
    if (hours === before) return;
    steps.push({ fromDay, hours, dayLengthHours: dayLength, followsDayLength: !mayRise && hours > wanted });
  };
  const { windDownDay, sleepDay } = anchors;
  if (windDownDay < sleepDay) add(windDownDay, FIRST_LAMP_STEP_H);
  const warmUntil = course?.warmUntil;
  if (course && warmUntil !== undefined && warmUntil > course.today) add(course.today, FIRST_LAMP_STEP_H, true);
  for (const step of LAMP_STEPS) {
    const day = addDays(sleepDay, -(small ? step.daysBefore.small : step.daysBefore.grown));
    const waits = step.hours > 0 && warmUntil !== undefined && day < warmUntil;
    // Once the gut is clear only the shortest lamp day is left to come.
    if (waits && step !== LAST_LIT_STEP) continue;
    const from = waits ? warmUntil : day;
    if (from > windDownDay && from < sleepDay) add(from, step.hours);
  }
  return steps;
}

/** Tasks are collected by their day's distance from an anchor, so that a moved anchor carries them. */
class TaskList {
  readonly tasks: Task[] = [];
  add(key: string, kind: TaskKind, day: Day, say: MessageKey, source: Source, more: Partial<Task> = {}): void {
    this.tasks.push({ key, kind, day, say: message(say), source, ...more });
  }
}

/** Everything to be done, in the order of the days. */
export function tasksOf(
  anchors: Anchors,
  request: PlanRequest,
  lamp: readonly LampStep[],
  lastBath: LastBathView,
  dailyLooks: boolean,
): Task[] {
  const list = new TaskList();
  beforeSleep(list, anchors, lamp, lastBath);
  asleep(list, anchors, request, dailyLooks);
  afterWaking(list, anchors.wakeDay);
  // Days first; tasks of one day stay in the order in which they are done.
  return list.tasks
    .map((task, i) => ({ task, i }))
    .sort((a, b) => (a.task.day < b.task.day ? -1 : a.task.day > b.task.day ? 1 : a.i - b.i))
    .map(({ task }) => task);
}

function beforeSleep(list: TaskList, anchors: Anchors, lamp: readonly LampStep[], view: LastBathView): void {
  const { windDownDay, fastDay, sleepDay } = anchors;
  const before = (days: number) => addDays(sleepDay, -days);
  list.add('feed-up', 'feed', addDays(windDownDay, -FEEDING_UP_DAYS), 'winter.task.feedUp', COMMON_PRACTICE, {
    untilDay: addDays(windDownDay, -1),
  });
  list.add('examine-deciding', 'examine', addDays(windDownDay, -42), 'winter.task.examineDeciding', COMMON_PRACTICE, {
    untilDay: addDays(windDownDay, -1),
  });
  list.add('vet-check', 'vet-check', addDays(windDownDay, -35), 'winter.task.vetCheck', COMMON_PRACTICE, {
    untilDay: addDays(windDownDay, -1),
  });
  for (let n = 1, day = addDays(windDownDay, -42); day < sleepDay; n++) {
    list.add(`weigh-before-${n}`, 'weigh', day, 'winter.task.weigh', COMMON_PRACTICE);
    day = addDays(day, day < addDays(windDownDay, -7) ? 14 : 7);
  }
  for (const [n, step] of lamp.entries()) {
    const off = step.hours === 0;
    const back = step.hours > (lamp[n - 1]?.hours ?? Number.POSITIVE_INFINITY);
    list.tasks.push({
      key: `lamp-${n + 1}`,
      kind: 'lamp',
      day: step.fromDay,
      say: off
        ? message('winter.task.lampOff')
        : message(back ? 'winter.task.lampBack' : 'winter.task.lamp', { hours: String(step.hours) }),
      ...(step.followsDayLength ? { why: message('winter.task.lamp.dayLength') } : {}),
      source: LAMP_SOURCE,
    });
  }
  list.add('last-food', 'last-food', addDays(fastDay, -1), 'winter.task.lastFood', WARM_FAST_SOURCE, {
    why: message('winter.task.lastFood.why'),
  });
  const bath = LAST_BATH[view];
  let n = 1;
  for (let day = fastDay; day < before(bath.daysBefore); n++) {
    list.add(`bath-${n}`, 'bath', day, 'winter.task.bath', bath.source);
    day = addDays(
      day,
      day >= before(bath.dailyFromDaysBefore)
        ? 1
        : Math.min(BATH_EVERY_DAYS, Math.max(1, daysBetween(day, before(bath.dailyFromDaysBefore)))),
    );
  }
  if (before(bath.daysBefore) >= fastDay)
    list.add('last-bath', 'last-bath', before(bath.daysBefore), 'winter.task.lastBath', bath.source, {
      why: message(`winter.choice.lastBath.${view}`),
    });
  list.add('dry-run', 'dry-run', before(13 + DRY_RUN_DAYS), 'winter.task.dryRun', COMMON_PRACTICE, {
    untilDay: before(13),
  });
  list.add('gut-check-1', 'gut-check', before(7), 'winter.task.gutCheck', WARM_FAST_SOURCE);
  list.add('ready-box', 'ready-box', before(3), 'winter.task.readyBox', COMMON_PRACTICE, { untilDay: before(1) });
  list.add('gut-check-2', 'gut-check', before(1), 'winter.task.gutCheckLast', WARM_FAST_SOURCE);
  list.add('rest-day', 'rest-day', before(1), 'winter.task.restDay', COMMON_PRACTICE);
  list.add('examine-going-down', 'examine', sleepDay, 'winter.task.examineGoingDown', COMMON_PRACTICE);
  list.add('put-down', 'put-down', sleepDay, 'winter.task.putDown', COMMON_PRACTICE);
}

function asleep(list: TaskList, anchors: Anchors, request: PlanRequest, daily: boolean): void {
  const { sleepDay, wakeDay } = anchors;
  const refrigerator = request.method === 'refrigerator';
  const nights = daysBetween(sleepDay, wakeDay);
  const look: MessageKey = refrigerator ? 'winter.task.lookRefrigerator' : 'winter.task.look';
  list.add('look-first', 'look', addDays(sleepDay, 1), look, COMMON_PRACTICE);
  if (daily) {
    for (let night = 2; night < nights; night++)
      list.add(`look-day-${night}`, 'look', addDays(sleepDay, night), look, COMMON_PRACTICE);
    return;
  }
  for (let week = 1; week * 7 < nights; week++) {
    if (refrigerator)
      list.add(`air-${week}`, 'look', addDays(sleepDay, week * 7 - 3), 'winter.task.openDoor', WEEKLY_SOURCE);
    list.add(`look-${week}`, 'look', addDays(sleepDay, week * 7), look, WEEKLY_SOURCE);
    list.add(`weigh-asleep-${week}`, 'weigh', addDays(sleepDay, week * 7), 'winter.task.weighAsleep', WEEKLY_SOURCE);
  }
  if (nights > 7)
    list.add('heat-check', 'heat-check', addDays(wakeDay, -5), 'winter.task.heatCheck', COMMON_PRACTICE, {
      untilDay: addDays(wakeDay, -1),
    });
}

function afterWaking(list: TaskList, wakeDay: Day): void {
  const after = (days: number) => addDays(wakeDay, days);
  list.add('warm', 'warm', wakeDay, 'winter.task.warm', WAKING_SOURCE);
  list.add('waking-check', 'waking-check', wakeDay, 'winter.task.wakingCheck', COMMON_PRACTICE);
  list.add('waking-weigh', 'weigh', wakeDay, 'winter.task.weighWaking', COMMON_PRACTICE);
  list.add('waking-bath', 'waking-bath', wakeDay, 'winter.task.wakingBath', WAKING_SOURCE);
  list.add('waking-lamp', 'lamp', wakeDay, 'winter.task.lampOn', COMMON_PRACTICE);
  list.add('first-food', 'first-food', wakeDay, 'winter.task.firstFood', WAKING_SOURCE, { untilDay: after(1) });
  for (let day = 1; day <= 7; day++)
    list.add(`bath-after-${day}`, 'bath', after(day), 'winter.task.bathAfter', COMMON_PRACTICE);
  list.add('feeding-3', 'feeding-watch', after(3), 'winter.task.feeding3', COMMON_PRACTICE);
  list.add('feeding-7', 'feeding-watch', after(7), 'winter.task.feeding7', FEEDING_LIMIT);
  list.add('feeding-10', 'feeding-watch', after(10), 'winter.task.feeding10', COMMON_PRACTICE);
  for (const [n, day] of [3, 7, 14, 21].entries())
    list.add(`weigh-after-${n + 1}`, 'weigh', after(day), 'winter.task.weighAfter', COMMON_PRACTICE);
  list.add('normal-21', 'feeding-watch', after(21), 'winter.task.normal21', RECOVERED_SOURCE);
  for (const [n, day] of [28, 35, 42, 49].entries())
    list.add(`weigh-back-${n + 1}`, 'weigh', after(day), 'winter.task.weighAfter', COMMON_PRACTICE);
  list.add(
    'review',
    'review',
    after(WAKING_DAYS + RECOVERING_DAYS + BACK_TO_FULL_DAYS - 1),
    'winter.task.review',
    COMMON_PRACTICE,
  );
}

import { addDays, type Day } from '../measure/day.ts';
import { COMMON_PRACTICE } from '../measure/source.ts';
import { mayEverHibernate } from '../tortoise/species.ts';
import { dayLengthH } from '../weather/sun.ts';
import { type MessageKey, message } from '../wording/say.ts';
import { USUAL_LAMP_H } from './plan-table.ts';
import type { PlanNote, PlanRequest, Task, TaskKind, WinterPlan } from './plan-types.ts';
import { hemisphereOf, shortestDayFrom } from './season.ts';

/** A winter awake runs from well before the shortest day until the light is back. */
const BEFORE_SHORTEST_DAYS = 75;
const AFTER_SHORTEST_DAYS = 90;

/** The winter awake: full light, heat and food through the dark months, with weigh-ins so that a falling weight is seen. */
export function awakePlan(request: PlanRequest, today: Day): WinterPlan {
  const shortestDay = shortestDayFrom(addDays(today, -AFTER_SHORTEST_DAYS + 14), request.latitudeDeg);
  const usualStart = addDays(shortestDay, -BEFORE_SHORTEST_DAYS);
  const fromDay = usualStart < today ? today : usualStart;
  const toDay = addDays(shortestDay, AFTER_SHORTEST_DAYS);
  const tasks: Task[] = [];
  const add = (key: string, kind: TaskKind, day: Day, say: MessageKey, untilDay?: Day) =>
    tasks.push({ key, kind, day, say: message(say), source: COMMON_PRACTICE, ...(untilDay ? { untilDay } : {}) });
  add('awake-lamp', 'lamp', fromDay, 'winter.task.awakeLamp', addDays(fromDay, 2));
  add('awake-heat', 'heat-check', fromDay, 'winter.task.awakeHeat', addDays(fromDay, 2));
  add('awake-examine', 'examine', fromDay, 'winter.task.awakeExamine', addDays(fromDay, 7));
  for (let week = 0; addDays(fromDay, week * 7) <= toDay; week++) {
    const day = addDays(fromDay, week * 7);
    add(`awake-weigh-${week + 1}`, 'weigh', day, 'winter.task.awakeWeigh');
    add(`awake-feed-${week + 1}`, 'feed', day, 'winter.task.awakeFeed', addDays(day, 6));
    if (week % 2 === 1) add(`awake-heat-${week + 1}`, 'heat-check', day, 'winter.task.awakeHeatAgain');
  }
  add('awake-review', 'review', toDay, 'winter.task.awakeReview');
  tasks.sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  const notes: PlanNote[] = [
    { level: 'warning', code: 'fire', say: message('winter.caution.lamps'), source: COMMON_PRACTICE },
    { level: 'note', code: 'half-cold', say: message('winter.note.awakeHalfCold'), source: COMMON_PRACTICE },
  ];
  if (!mayEverHibernate(request.species))
    notes.push({
      level: 'warning',
      code: 'never-cool',
      say: message('winter.note.neverCool'),
      source: COMMON_PRACTICE,
    });
  return {
    kind: 'awake',
    request: { ...request, wish: 'awake' },
    winter: shortestDay.slice(0, 4),
    hemisphere: hemisphereOf(request.latitudeDeg),
    shortestDay,
    madeOn: today,
    provisional: false,
    fromDay,
    toDay,
    stages: [{ name: 'awake', fromDay, toDay, purpose: message('winter.stage.awake') }],
    tasks,
    lamp: [
      {
        fromDay,
        hours: USUAL_LAMP_H,
        dayLengthHours: Math.round(dayLengthH(fromDay, request.latitudeDeg) * 100) / 100,
        followsDayLength: false,
      },
    ],
    notes,
  };
}

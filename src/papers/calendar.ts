import ical, { ICalCalendarMethod, ICalEventStatus, ICalEventTransparency } from 'ical-generator';
import { addDays, type Day } from '../measure/day.ts';
import type { Task, WinterPlan } from '../winter/plan-types.ts';
import { say } from '../wording/say.ts';

/** One animal's plan as the calendar shows it. */
export interface CalendarPlan {
  readonly animalId: string;
  readonly animalName: string;
  readonly plan: WinterPlan;
  /** Revision of the plan: rises by one with each change. */
  readonly revision: number;
  /** When this revision was made, ms since 1970 UTC. */
  readonly madeAtMs: number;
  /** Plans of earlier revisions that a subscriber may still hold (of the last 30 days): what they had and this one lacks is cancelled. */
  readonly earlier?: readonly WinterPlan[];
}

const midnight = (day: Day): Date => new Date(`${day}T00:00:00Z`);

/** A name on one line: a line break in it would end the property it stands in. */
const oneLine = (text: string): string => text.replace(/\p{Cc}+/gu, ' ').trim();

/** The same event keeps its name through every revision, so that a calendar moves it and never doubles it. */
const uidOf = (animalId: string, winter: string, key: string): string => `stillwinter-${animalId}-${winter}-${key}`;

function descriptionOf(task: Task): string {
  const lines = [task.why ? say(task.why) : '', say('papers.calendar.source', { source: task.source.cite })];
  return lines.filter((line) => line !== '').join('\n');
}

/**
 * Calendar of the plans of any number of animals (RFC 5545): each thing to do and each stretch of the winter as a whole-day event. Days only, no
 * clock times and no alarms: calendars refresh a subscription when they please, so nothing urgent may hang on it. The same plans give the same
 * text, byte for byte, on any machine and in any time zone.
 */
export function calendarOf(name: string, plans: readonly CalendarPlan[]): string {
  const calendar = ical({
    name: oneLine(name),
    prodId: { company: 'Stillwinter', product: 'Winter plans', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
    ttl: 6 * 3600,
  });
  for (const { animalId, plan, revision, madeAtMs, earlier = [], ...of } of plans) {
    const animal = oneLine(of.animalName);
    const common = { stamp: new Date(madeAtMs), sequence: revision, allDay: true } as const;
    const keys = new Set<string>();
    for (const stage of plan.stages) {
      const key = `stage-${stage.name}`;
      keys.add(uidOf(animalId, plan.winter, key));
      calendar.createEvent({
        ...common,
        id: uidOf(animalId, plan.winter, key),
        start: midnight(stage.fromDay),
        end: midnight(addDays(stage.toDay, 1)),
        summary: say('papers.calendar.stage', { animal, stage: say(`papers.stage.${stage.name}`) }),
        description: say(stage.purpose),
        transparency: ICalEventTransparency.TRANSPARENT,
      });
    }
    for (const task of plan.tasks) {
      keys.add(uidOf(animalId, plan.winter, task.key));
      calendar.createEvent({
        ...common,
        id: uidOf(animalId, plan.winter, task.key),
        start: midnight(task.day),
        end: midnight(addDays(task.day, 1)),
        summary: say('papers.calendar.task', { animal, task: say(task.say) }),
        description: descriptionOf(task),
        transparency: ICalEventTransparency.TRANSPARENT,
      });
    }
    for (const old of [...earlier].reverse())
      for (const task of old.tasks) {
        const id = uidOf(animalId, old.winter, task.key);
        if (keys.has(id)) continue;
        keys.add(id);
        calendar.createEvent({
          ...common,
          id,
          start: midnight(task.day),
          end: midnight(addDays(task.day, 1)),
          summary: say('papers.calendar.task', { animal, task: say(task.say) }),
          status: ICalEventStatus.CANCELLED,
          transparency: ICalEventTransparency.TRANSPARENT,
        });
      }
  }
  const text = calendar.toString();
  return text.endsWith('\r\n') ? text : `${text}\r\n`;
}

import type { Day } from '../measure/day.ts';
import { dayInWords } from '../measure/day-words.ts';
import type { LampStep, Stage, Task, WinterPlan } from '../winter/plan-types.ts';
import { say } from '../wording/say.ts';
import { Citations } from './citations.ts';
import { dayList, nightsOf, plainDay, shortDay } from './days.ts';
import { Sheet, TICK } from './sheet.ts';
import { SOFT } from './type.ts';
import { drawWinterLine } from './winter-line.ts';

/** What a plan sheet shows of one animal. */
export interface PlanSheetView {
  readonly animalName: string;
  /** Species in words. */
  readonly species: string;
  readonly plan: WinterPlan;
  readonly revision: number;
  readonly madeAtMs: number;
}

/** The plan of one animal's winter on paper: its line, stretch by stretch what to do with a square to tick, and what to watch. A tagged PDF. */
export function planSheet(view: PlanSheetView): Promise<Buffer> {
  const { animalName, plan, revision, madeAtMs } = view;
  const title = say('papers.plan.title', { animal: animalName, winter: plan.winter });
  const cited = new Citations();
  const sheet = new Sheet({ title, madeAtMs, margin: 30, foot: title });
  sheet.heading(title, 1);
  sheet.paragraph(say('papers.plan.made', { species: view.species, day: dayInWords(plan.madeOn), revision }), {
    colour: SOFT,
  });
  drawWinterLine(sheet, plan);
  if (plan.provisional) sheet.paragraph(say('papers.plan.provisional'), { face: 'bold' });
  if (plan.length) sheet.paragraph(say(plan.length.say) + cited.mark(plan.length.source));
  const lamp = lampInWords(plan.lamp);
  if (lamp) sheet.paragraph(lamp);
  sheet.paragraph(say('papers.caution'), { size: 9, colour: SOFT });

  for (const [i, stage] of plan.stages.entries()) drawStage(sheet, plan, stage, i, cited);

  const notes = plan.notes.map((note) => say(note.say) + cited.mark(note.source));
  if (notes.length > 0) {
    sheet.heading(say('papers.plan.notes'));
    sheet.list(notes, { size: 9 });
  }
  sheet.heading(say('papers.sources'), 2, 20);
  sheet.list(
    cited.list,
    { size: 8.5, colour: SOFT },
    cited.list.map((_, i) => `[${i + 1}]`),
  );
  return sheet.finish();
}

function drawStage(sheet: Sheet, plan: WinterPlan, stage: Stage, index: number, cited: Citations): void {
  const tasks = plan.tasks.filter((task) => task.day >= stage.fromDay && task.day <= stage.toDay);
  const count = nightsOf(stage.fromDay, stage.toDay);
  const span = { from: plainDay(stage.fromDay), to: plainDay(stage.toDay) };
  const length = say(stage.name === 'asleep' ? 'papers.plan.nights' : 'papers.plan.days', { count });
  const words = say(`papers.stage.${stage.name}`);
  const stretch = words.charAt(0).toUpperCase() + words.slice(1);
  sheet.heading(say('papers.plan.stage', { number: index + 1, stretch, length, ...span }), 2, 50);
  sheet.paragraph(say(stage.purpose), { size: 9.5, colour: SOFT });
  if (tasks.length === 0) return;
  sheet.table(
    [say('papers.column.done'), say('papers.column.day'), say('papers.column.task')],
    gathered(tasks).map((group) => [TICK, whenOf(group), whatOf(group, cited)]),
    [1.4, 5, 13.6],
    { size: 8.8 },
  );
}

/** The same thing to do on several days of a stretch stands once. */
function gathered(tasks: readonly Task[]): Task[][] {
  const groups = new Map<string, Task[]>();
  for (const task of tasks) {
    const key = `${task.kind} ${say(task.say)}`;
    groups.set(key, [...(groups.get(key) ?? []), task]);
  }
  return [...groups.values()];
}

function whenOf(group: readonly Task[]): string {
  const [first] = group as [Task, ...Task[]];
  if (group.length > 1) return dayList(group.map((task) => task.day));
  return first.untilDay && first.untilDay !== first.day
    ? say('papers.until', { from: shortDay(first.day), to: shortDay(first.untilDay) })
    : shortDay(first.day);
}

function whatOf([first]: readonly Task[], cited: Citations): string {
  const { say: what, why, source } = first!;
  return [say(what), why ? say(why) : ''].filter(Boolean).join(' ') + cited.mark(source);
}

function lampInWords(lamp: readonly LampStep[]): string {
  const step = ({ fromDay, hours }: { fromDay: Day; hours: number }) =>
    say(hours > 0 ? 'papers.plan.lampStep' : 'papers.plan.lampOff', {
      day: shortDay(fromDay),
      hours: Number(hours.toFixed(1)),
    });
  return lamp.length === 0 ? '' : say('papers.plan.lamp', { steps: lamp.map(step).join('; ') });
}

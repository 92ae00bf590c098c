import type { WinterPlan } from '../winter/plan-types.ts';
import { type Message, say } from '../wording/say.ts';
import { Sheet } from './sheet.ts';

/** What a plan sheet shows of one animal. */
export interface PlanSheetView {
  readonly animalName: string;
  readonly plan: WinterPlan;
  readonly revision: number;
  readonly madeAtMs: number;
}

const words = (text: Message | undefined): string => (text ? say(text) : '');

/** The plan of one animal's winter on paper: stretches, things to do with a box to tick, lamp hours, and what to watch. A tagged PDF. */
export function planSheet({ animalName, plan, revision, madeAtMs }: PlanSheetView): Promise<Buffer> {
  const title = say('papers.plan.title', { animal: animalName, winter: plan.winter });
  const sheet = new Sheet({ title, madeAtMs });
  sheet.heading(title, 1);
  sheet.paragraph(say('papers.plan.made', { day: plan.madeOn, revision }));
  if (plan.provisional) sheet.paragraph(say('papers.plan.provisional'));
  if (plan.length) sheet.paragraph(say(plan.length.say));
  sheet.paragraph(say('papers.caution'));

  sheet.heading(say('papers.plan.stages'));
  sheet.table(
    [say('papers.column.from'), say('papers.column.to'), say('papers.column.stage'), say('papers.column.purpose')],
    plan.stages.map((stage) => [stage.fromDay, stage.toDay, say(`papers.stage.${stage.name}`), say(stage.purpose)]),
    [3, 3, 4, 10],
  );
  sheet.heading(say('papers.plan.tasks'));
  sheet.table(
    [say('papers.column.day'), say('papers.column.task'), say('papers.column.source'), say('papers.column.done')],
    plan.tasks.map((task) => [task.day, [say(task.say), words(task.why)].join(' ').trim(), task.source.cite, '']),
    [3, 11, 5, 2],
  );
  if (plan.lamp.length > 0) {
    sheet.heading(say('papers.plan.lamp'));
    sheet.table(
      [say('papers.column.from'), say('papers.column.lamp')],
      plan.lamp.map((step) => [step.fromDay, say('papers.plan.hours', { hours: step.hours })]),
      [3, 8],
    );
  }
  if (plan.notes.length > 0) {
    sheet.heading(say('papers.plan.notes'));
    for (const note of plan.notes)
      sheet.paragraph(say('papers.plan.note', { note: say(note.say), source: note.source.cite }));
  }
  return sheet.finish();
}

import { figure } from '../measure/figures.ts';
import { readPlanInput } from '../schema/plan-input.ts';
import { assess } from '../tortoise/assess.ts';
import type { Assessment } from '../tortoise/types.ts';
import { makePlan } from '../winter/plan.ts';
import { massLimitFor } from '../winter/plan-forecasts.ts';
import type { PlanNote, PlanOutcome, WinterPlan } from '../winter/plan-types.ts';
import { say } from '../wording/say.ts';
import { today } from './assess.ts';
import { inWords } from './in-words.ts';
import { readJson } from './input.ts';
import { table, wrap } from './layout.ts';
import { type Outcome, Refusal } from './outcome.ts';

/** `stillwinter plan FILE|-`: the dated plan of one animal's winter, or why there is none and what to do instead. */
export async function planCommand(file: string): Promise<Outcome> {
  const read = readPlanInput(await readJson(file), today());
  if (!read.ok) throw new Refusal(say('cli.plan.refused'), read.problems);
  const { animal, request, name } = read;
  const assessment = assess(animal);
  const outcome = makePlan(request, assessment, { today: animal.onDay, massLimit: massLimitFor(animal.massG) });
  const json = { verdict: assessment.verdict, ...(inWords(outcome) as object) };
  const title = say('cli.plan.title', { name: name ?? say('cli.assess.noName'), species: animal.species });
  const text = [title, say('cli.assess.verdict', { verdict: say(`tortoise.verdict.${assessment.verdict}`) })];
  text.push('', ...inLines(outcome, assessment));
  return { json, text: text.join('\n'), code: outcome.outcome === 'planned' ? 0 : 1 };
}

function inLines(outcome: PlanOutcome, assessment: Assessment): string[] {
  const cautions = ['', ...assessment.cautions.map((caution) => wrap(say(caution)))];
  if (outcome.outcome === 'planned') return [...planLines(outcome.plan), ...cautions];
  const lines = [say('cli.plan.none'), ...outcome.reasons.flatMap(noteLines)];
  if (outcome.options.length > 0)
    lines.push('', say('cli.plan.options'), ...outcome.options.map((option) => wrap(say(option.say), 88, '  ')));
  if (outcome.instead) lines.push('', say('cli.plan.instead'), '', ...planLines(outcome.instead));
  return [...lines, ...cautions];
}

const noteLines = (note: PlanNote): string[] => [
  wrap(say(note.say), 88, '  '),
  wrap(`[${note.source.cite}]`, 88, '    '),
];

function planLines(plan: WinterPlan): string[] {
  const lines: string[] = [];
  if (plan.sleepDay !== undefined && plan.wakeDay !== undefined && plan.length)
    lines.push(
      say('cli.plan.sleep', { sleepDay: plan.sleepDay, wakeDay: plan.wakeDay, days: figure(plan.length.days) }),
      wrap(say(plan.length.say), 88, '  '),
    );
  if (plan.provisional) lines.push(wrap(say('cli.plan.provisional')));
  const head = (last: string) => [say('cli.plan.day'), say('cli.plan.until'), last];
  const stages = plan.stages.map((stage) => [stage.fromDay, stage.toDay, say(stage.purpose)]);
  lines.push('', table(head(say('cli.plan.stage')), stages, [0, 1, 2]));
  // A day is written once, beside the first of its tasks.
  const rows = plan.tasks.map((task, i) => [
    task.day === plan.tasks[i - 1]?.day ? '' : task.day,
    task.untilDay ?? '',
    say(task.say),
  ]);
  lines.push('', table(head(say('cli.plan.task')), rows, [0, 1, 2]));
  for (const level of ['warning', 'choice', 'note'] as const) {
    const notes = plan.notes.filter((note) => note.level === level);
    if (notes.length > 0) lines.push('', say(`cli.plan.notes.${level}`), ...notes.flatMap(noteLines));
  }
  return lines;
}

import { figure, length, mass } from '../measure/figures.ts';
import { dayInZone } from '../measure/zone.ts';
import { type AssessOutput, assessOutput, readAssessInput } from '../schema/assess.ts';
import { assess } from '../tortoise/assess.ts';
import type { GateState } from '../tortoise/types.ts';
import { say } from '../wording/say.ts';
import { readJson } from './input.ts';
import { wrap } from './layout.ts';
import { type Outcome, Refusal } from './outcome.ts';

/** The day on this machine's clock and in its zone. */
export function today(): string {
  return dayInZone(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone);
}

/** `stillwinter assess FILE|-`: may this animal go down, why or why not, and for how long at most. */
export async function assessCommand(file: string): Promise<Outcome> {
  const read = readAssessInput(await readJson(file), today());
  if (!read.ok) throw new Refusal(say('cli.assess.refused'), read.problems);
  const { input, name } = read;
  const json = assessOutput(assess(input));
  const title = say('cli.assess.title', {
    name: name ?? say('cli.assess.noName'),
    species: input.species,
    mass: mass(input.massG),
    length: length(input.sclMm),
    day: input.onDay,
  });
  return { json, text: inWords(title, json), code: json.verdict === 'may-go-down' ? 0 : 1 };
}

const ORDER: readonly GateState[] = ['fails', 'borderline', 'not-yet-known', 'passes'];

function inWords(title: string, { verdict, gates, condition, length: sleep, cautions }: AssessOutput): string {
  const lines = [title, '', say('cli.assess.verdict', { verdict: say(`tortoise.verdict.${verdict}`) })];
  for (const state of ORDER) {
    const these = gates.filter((gate) => gate.state === state);
    if (these.length === 0) continue;
    lines.push('', `${say(`tortoise.gate.state.${state}`)}:`);
    if (state === 'passes')
      lines.push(wrap(these.map((gate) => say(`tortoise.gate.name.${gate.name}`).toLowerCase()).join(', '), 88, '  '));
    else
      for (const gate of these) {
        lines.push(wrap(`${say(`tortoise.gate.name.${gate.name}`)}: ${gate.reason}`, 88, '  '));
        lines.push(wrap(`[${gate.source}]`, 88, '    '));
      }
  }
  lines.push('', say('cli.assess.condition'), wrap(condition.reason, 88, '  '));
  lines.push(
    wrap(say('cli.assess.ratio', { ratio: figure(condition.jacksonRatio, 3) }), 88, '  '),
    ...condition.notes.map((note) => wrap(note, 88, '  ')),
    wrap(`[${condition.source}]`, 88, '    '),
  );
  if (sleep.ceiling > 0) {
    lines.push('', say('cli.assess.length', { suggested: sleep.suggested, ceiling: sleep.ceiling }));
    lines.push(...sleep.reasons.map((reason) => wrap(reason, 88, '  ')));
  }
  lines.push('', ...cautions.map((caution) => wrap(caution)));
  return lines.join('\n');
}

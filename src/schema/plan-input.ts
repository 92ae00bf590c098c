import { z } from 'zod';
import type { Day } from '../measure/day.ts';
import type { AssessInput } from '../tortoise/types.ts';
import type { PlanRequest } from '../winter/plan-types.ts';
import { say } from '../wording/say.ts';
import { assessInputSchema, readAssessInput } from './assess.ts';
import { planRequestSchema } from './plan.ts';
import { type Problem, problemsOf } from './problems.ts';

const example = (assessInputSchema.meta() as { examples: unknown[] }).examples[0];

/** Input of `plan`: the animal as `assess` takes it, and what is asked; kind, length and mass come from the animal. */
export const planInputSchema = z
  .strictObject({
    animal: assessInputSchema,
    plan: planRequestSchema.omit({ species: true, sclMm: true, massG: true }),
  })
  .meta({
    id: 'PlanInput',
    description: 'One animal and what is asked of its winter',
    examples: [{ animal: example, plan: { latitudeDeg: 52.1, sleepDay: '2026-11-28' } }],
  });

export type PlanRead =
  | {
      readonly ok: true;
      readonly animal: AssessInput;
      readonly name: string | undefined;
      readonly request: PlanRequest;
    }
  | { readonly ok: false; readonly problems: Problem[] };

/** Checks the input of `plan`; `today` stands in for the day when none is given. */
export function readPlanInput(value: unknown, today: Day): PlanRead {
  const parsed = planInputSchema.safeParse(value);
  if (!parsed.success) return { ok: false, problems: problemsOf(parsed.error) };
  const read = readAssessInput((value as { animal: unknown }).animal, today);
  if (!read.ok)
    return { ok: false, problems: read.problems.map(({ where, what }) => ({ where: `animal.${where}`, what })) };
  const { sleepDay } = parsed.data.plan;
  if (sleepDay !== undefined && sleepDay < read.input.onDay)
    return {
      ok: false,
      problems: [
        { where: 'plan.sleepDay', what: say('cli.plan.pastSleepDay', { day: sleepDay, onDay: read.input.onDay }) },
      ],
    };
  const { species, sclMm, massG } = read.input;
  return {
    ok: true,
    animal: read.input,
    name: read.name,
    request: { ...parsed.data.plan, species, sclMm, massG } as PlanRequest,
  };
}

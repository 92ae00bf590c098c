import type { Day } from '../measure/day.ts';
import { dayInWords } from '../measure/day-words.ts';
import type { Group } from '../schema/group.ts';
import type { KeptPlan } from '../schema/kept-plan.ts';
import { parsePlanRequest } from '../schema/plan.ts';
import { begunBy } from '../winter/begun.ts';
import { withWarmth } from '../winter/gut-course.ts';
import { makePlan } from '../winter/plan.ts';
import { massLimitFor } from '../winter/plan-forecasts.ts';
import type { PlanRequest, WinterPlan } from '../winter/plan-types.ts';
import { say } from '../wording/say.ts';
import { assessAnimal } from './assessing.ts';
import type { Database } from './database.ts';
import { read, type Scope } from './entries.ts';
import { gutWarmthOf } from './gut-warmth.ts';
import { ANIMAL } from './kinds.ts';
import { keepPlan, listPlans } from './plans.ts';
import { RecordProblem } from './problem.ts';

/**
 * Makes and keeps a plan for a recorded animal. Species, size, place on earth and verdict come from the records, whatever the
 * request says: a tropical or unknown animal, or one that is unfit, gets no plan to sleep. Throws RecordProblem `not-hibernating`
 * with the reasons then, and the plan of a winter awake as `current`.
 */
export async function planWinter(
  database: Database,
  scope: Scope,
  group: Group,
  asked: {
    readonly animalId: string;
    readonly id: string;
    readonly reason: string;
    readonly request: unknown;
    readonly gutClearDay?: Day | undefined;
  },
  today: Day,
): Promise<KeptPlan> {
  const kept = await listPlans(database, scope, asked.animalId);
  const same = kept.find((plan) => plan.id === asked.id);
  if (same) return same;
  const { leftOn } = await read(database, scope, ANIMAL, asked.animalId);
  if (leftOn !== undefined) {
    const what = say('records.animalLeft', { day: dayInWords(leftOn) });
    throw new RecordProblem('invalid', what, [{ where: 'animalId', what }]);
  }
  const { input, assessment } = await assessAnimal(database, scope, group, asked.animalId, 'deciding', today);
  const wished = parsePlanRequest(asked.request);
  const request: PlanRequest = {
    ...withWarmth(wished, await gutWarmthOf(database, scope, group, asked.animalId, today)),
    species: input.species,
    sclMm: input.sclMm,
    latitudeDeg: group.latitudeDeg,
    ...(group.climateNormals ? { climateNormals: group.climateNormals } : {}),
  };

  const inForce = kept.at(-1)?.plan as WinterPlan | undefined;
  const begun = inForce && begunBy(inForce, request, today);
  const outcome = makePlan(request, assessment, {
    today,
    massLimit: massLimitFor(input.massG),
    ...(begun ? { begun } : {}),
    ...(asked.gutClearDay === undefined ? {} : { gutClearDay: asked.gutClearDay }),
  });
  if (outcome.outcome === 'refused') {
    const problems = outcome.reasons.map((reason) => ({ where: `request.${reason.code}`, what: say(reason.say) }));
    const type = outcome.instead ? 'not-hibernating' : 'invalid';
    throw new RecordProblem(type, problems[0]?.what ?? say('records.noPlan'), problems, outcome.instead);
  }
  return keepPlan(database, scope, {
    id: asked.id,
    animalId: asked.animalId,
    reason: asked.reason,
    plan: outcome.plan,
  });
}

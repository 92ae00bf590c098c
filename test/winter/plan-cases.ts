import { expect } from 'vitest';
import type { Assessment, Gate } from '../../src/tortoise/types.ts';
import { makePlan, type PlanContext } from '../../src/winter/plan.ts';
import type { PlanOutcome, PlanRequest, WinterPlan } from '../../src/winter/plan-types.ts';

const source = { cite: 'test', status: 'common-practice' } as const;

/** An assessment that says what a test needs; the rest is an ordinary grown animal. */
export function assessed(
  verdict: Assessment['verdict'] = 'may-go-down',
  length: Partial<Assessment['length']> = {},
  gates: Gate[] = [],
): Assessment {
  return {
    verdict,
    gates,
    condition: {
      band: 'normal',
      state: 'passes',
      reason: { key: 'winter.move.nothing' },
      source,
      jacksonRatio: 0.2,
      weighings: 1,
      notes: [],
    },
    length: {
      suggestedDays: 77,
      shortestDays: 42,
      ceilingDays: 91,
      lengthClass: 'adult',
      advice: 'uk-joint-2016',
      reasons: [],
      source,
      ...length,
    },
    cautions: [],
  };
}

export const adult: PlanRequest = { species: 'Testudo hermanni', sclMm: 165, massG: 812, latitudeDeg: 52 };
export const TODAY = '2026-08-01';

export function planned(request: PlanRequest, assessment = assessed(), context: Partial<PlanContext> = {}): WinterPlan {
  const outcome = makePlan(request, assessment, { today: TODAY, ...context });
  if (outcome.outcome !== 'planned') expect.fail(`refused: ${outcome.reasons.map((reason) => reason.code).join()}`);
  return outcome.plan;
}

export function refused(
  request: PlanRequest,
  assessment = assessed(),
  context: Partial<PlanContext> = {},
): Extract<PlanOutcome, { outcome: 'refused' }> {
  const outcome = makePlan(request, assessment, { today: TODAY, ...context });
  if (outcome.outcome !== 'refused') expect.fail('a plan was made');
  return outcome;
}

export const codes = (plan: WinterPlan) => plan.notes.map((note) => note.code);

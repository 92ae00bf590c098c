import { completedYears, dayNumber } from '../measure/day.ts';
import { message } from '../wording/say.ts';
import { judgeCondition } from './condition.ts';
import { judgeGates, verdictOf } from './gates.ts';
import { hibernationLength } from './length.ts';
import { findSpecies } from './species.ts';
import type { AssessInput, Assessment } from './types.ts';

/** Age in years on `onDay`, completed ones where the birth date is known; undefined where neither a birth date nor years are given. */
function ageInYears(input: Pick<AssessInput, 'ageYears' | 'birthDate' | 'onDay'>): number | undefined {
  if (input.birthDate === undefined) return input.ageYears;
  return completedYears(input.birthDate, input.onDay);
}

/**
 * Whether one animal may go down this winter, and for how long at most. Pure: the same input gives the same answer on any
 * machine and day. Throws RangeError for a species that is not in the table or for a finding that is not in the list; the
 * schema of the input says so with the nearest names before it comes here.
 */
export function assess(input: AssessInput): Assessment {
  if (!findSpecies(input.species)) throw new RangeError(`"${input.species}" is not a name of the species table`);
  dayNumber(input.onDay);
  const condition = judgeCondition({
    species: input.species,
    sex: input.sex,
    massG: input.massG,
    sclMm: input.sclMm,
    onDay: input.onDay,
    earlier: input.history.measurements,
    weightNormal: input.history.weightNormal,
  });
  const length = hibernationLength({
    species: input.species,
    sclMm: input.sclMm,
    ageYears: ageInYears(input),
    ageClass: input.ageClass,
    wintersSlept: input.history.wintersSlept,
    advice: input.lengthAdvice,
    hesitantKeeper: input.hesitantKeeper,
  });
  const gates = judgeGates({ input, condition, length });
  const verdict = verdictOf(gates);
  return {
    verdict,
    gates,
    condition,
    length:
      verdict === 'stay-awake'
        ? {
            ...length,
            suggestedDays: 0,
            shortestDays: 0,
            ceilingDays: 0,
            reasons: [message('tortoise.length.stayAwake')],
          }
        : length,
    cautions: [message('tortoise.caution.vet'), message('tortoise.caution.law'), message('tortoise.caution.hands')],
  };
}

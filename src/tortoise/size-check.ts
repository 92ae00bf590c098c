import { figure, length, mass } from '../measure/figures.ts';
import { GRAMS_PER_OUNCE, MM_PER_INCH } from '../measure/units.ts';
import { type Message, message } from '../wording/say.ts';
import { jacksonRatio } from './condition.ts';

/** Ratios (g/cm3) no tortoise alive or dead shows are refused; those few show are asked about. Estimates, wide on purpose. */
const REFUSE_UNDER = 0.06;
const REFUSE_OVER = 0.6;
const ASK_UNDER = 0.12;
const ASK_OVER = 0.34;
/** The smallest hatchling and the largest tortoise, with room to spare. */
const SCL_MM = { smallest: 20, largest: 1500 };
const MASS_G = { smallest: 3, largest: 300_000 };

export interface SizeProblem {
  readonly where: 'massG' | 'sclMm';
  /** `refuse`: cannot be right; `ask`: measure again, the worse value counts meanwhile. */
  readonly level: 'refuse' | 'ask';
  readonly what: Message;
}

/**
 * Looks whether a mass (g) and a straight carapace length (mm) can belong to one tortoise, and guesses the slip: inches,
 * centimetres, ounces, kilograms. An empty list: nothing to ask.
 */
export function checkSize(massG: number, sclMm: number): SizeProblem[] {
  const problems: SizeProblem[] = [];
  const refuse = (where: SizeProblem['where'], what: Message) => problems.push({ where, level: 'refuse', what });
  if (!(massG > 0)) refuse('massG', message('tortoise.size.noMass', { mass: mass(massG) }));
  if (!(sclMm > 0)) refuse('sclMm', message('tortoise.size.noLength', { length: length(sclMm) }));
  if (problems.length > 0) return problems;

  const ratio = jacksonRatio(massG, sclMm);
  if (ratio < REFUSE_UNDER || ratio > REFUSE_OVER) {
    const slip = likelySlip(massG, sclMm);
    const values = { mass: mass(massG), length: length(sclMm) };
    if (slip) refuse(slip.where, slip.what);
    else refuse('sclMm', message(ratio > REFUSE_OVER ? 'tortoise.size.tooHeavy' : 'tortoise.size.tooLight', values));
    return problems;
  }
  if (sclMm < SCL_MM.smallest || sclMm > SCL_MM.largest)
    refuse('sclMm', message('tortoise.size.lengthRange', { length: length(sclMm) }));
  if (massG < MASS_G.smallest || massG > MASS_G.largest)
    refuse('massG', message('tortoise.size.massRange', { mass: mass(massG) }));
  if (problems.length === 0 && (ratio < ASK_UNDER || ratio > ASK_OVER))
    problems.push({
      where: 'massG',
      level: 'ask',
      what: message(ratio < ASK_UNDER ? 'tortoise.size.askLight' : 'tortoise.size.askHeavy', {
        mass: mass(massG),
        length: length(sclMm),
      }),
    });
  return problems;
}

/** The one change of unit that makes an ordinary tortoise of the two numbers, if there is one. Inches before centimetres. */
function likelySlip(massG: number, sclMm: number): { where: SizeProblem['where']; what: Message } | undefined {
  const fits = (m: number, l: number) => {
    const ratio = jacksonRatio(m, l);
    return ratio >= 0.13 && ratio <= 0.32 && l >= 30 && l <= SCL_MM.largest;
  };
  const inches = sclMm * MM_PER_INCH;
  if (fits(massG, inches))
    return {
      where: 'sclMm',
      what: message('tortoise.size.inches', { number: figure(sclMm, 1), length: figure(inches) }),
    };
  if (fits(massG, sclMm * 10))
    return {
      where: 'sclMm',
      what: message('tortoise.size.centimetres', { number: figure(sclMm, 1), length: figure(sclMm * 10) }),
    };
  if (fits(massG * 1000, sclMm))
    return {
      where: 'massG',
      what: message('tortoise.size.kilograms', { number: figure(massG, 2), mass: figure(massG * 1000) }),
    };
  if (fits(massG * GRAMS_PER_OUNCE, sclMm))
    return {
      where: 'massG',
      what: message('tortoise.size.ounces', { number: figure(massG, 1), mass: figure(massG * GRAMS_PER_OUNCE) }),
    };
  return undefined;
}

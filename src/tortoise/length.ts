import { COMMON_PRACTICE } from '../measure/source.ts';
import { type Message, message } from '../wording/say.ts';
import { CLASS_LIMITS, FIRST_COOLING_DAYS, LENGTHS, LONGEST_DAYS } from './length-table.ts';
import { findSpecies } from './species.ts';
import type { AgeClass, HibernationLength, LengthAdvice, LengthClass } from './types.ts';

export interface LengthQuestion {
  readonly species: string;
  readonly sclMm: number;
  /** Completed or fractional years; absent when only a class is known. */
  readonly ageYears?: number | undefined;
  readonly ageClass?: AgeClass | undefined;
  readonly wintersSlept?: number | undefined;
  readonly advice: LengthAdvice;
  readonly hesitantKeeper?: boolean | undefined;
}

/**
 * The class whose length applies. A class named by the keeper stands where the years are not known; an animal of about 5 cm
 * counts as in its first winter whatever its years, and where years and size disagree the younger class counts, for less
 * sleep is the cautious side.
 */
export function lengthClassOf(question: Omit<LengthQuestion, 'advice'>): LengthClass {
  const { ageYears, ageClass, sclMm } = question;
  const grown = findSpecies(question.species)?.adultSclMm ?? 120;
  if (sclMm < CLASS_LIMITS.hatchlingUnderSclMm || (ageYears === undefined && ageClass === 'hatchling'))
    return 'first-winter';
  if (ageYears === undefined)
    return ageClass === 'elderly' || ageClass === 'juvenile' ? ageClass : sclMm < grown ? 'juvenile' : 'adult';
  if (ageYears < CLASS_LIMITS.secondWinterFromYears) return 'first-winter';
  if (ageYears < CLASS_LIMITS.juvenileFromYears) return 'second-third-winter';
  if (ageYears >= CLASS_LIMITS.elderlyFromYears || ageClass === 'elderly') return 'elderly';
  if (ageYears >= CLASS_LIMITS.adultAtAnySizeFromYears) return 'adult';
  return ageYears >= CLASS_LIMITS.adultFromYears && sclMm >= grown ? 'adult' : 'juvenile';
}

const none = (lengthClass: LengthClass, advice: LengthAdvice, reasons: Message[]): HibernationLength => ({
  suggestedDays: 0,
  shortestDays: 0,
  ceilingDays: 0,
  lengthClass,
  advice,
  reasons,
  source: COMMON_PRACTICE,
});

/**
 * How long an animal may sleep, in days, by the advice the group follows, its class and its taxon. A taxon that is never
 * hibernated, or is not known, gets 0. Ceilings never pass `LONGEST_DAYS`.
 */
export function hibernationLength(question: LengthQuestion): HibernationLength {
  const { advice } = question;
  const lengthClass = lengthClassOf(question);
  const species = findSpecies(question.species);
  if (species?.hibernation !== 'hibernates' && species?.hibernation !== 'identify-first')
    return none(lengthClass, advice, [message('tortoise.length.never')]);
  const row = LENGTHS.find((each) => each.advice === advice && each.lengthClass === lengthClass);
  if (!row) throw new RangeError(`No length for ${advice}, ${lengthClass}`);
  const reasons: Message[] = [message(`tortoise.length.${advice}.${lengthClass}`)];
  if (row.ceilingDays === 0) return { ...none(lengthClass, advice, reasons), source: row.source };

  let { suggestedDays, shortestDays } = row;
  let ceilingDays = Math.min(row.ceilingDays, LONGEST_DAYS);
  if (row.publishedCeilingDays !== undefined) reasons.push(message('tortoise.length.cut'));
  if (species.longestDays !== undefined && species.longestDays < ceilingDays) {
    ceilingDays = species.longestDays;
    reasons.push(message('tortoise.length.taxonCeiling', { species: species.name, days: ceilingDays }));
  }
  if (species.advisedDays !== undefined && species.advisedDays < suggestedDays) {
    suggestedDays = species.advisedDays;
    reasons.push(message('tortoise.length.taxonAdvised', { species: species.name, days: suggestedDays }));
  }
  const firstSleep = question.wintersSlept === 0 && lengthClass === 'adult';
  if (firstSleep && suggestedDays > 42) {
    suggestedDays = 42;
    reasons.push(message('tortoise.length.firstSleep'));
  }
  if (question.hesitantKeeper) {
    suggestedDays = FIRST_COOLING_DAYS;
    reasons.push(message('tortoise.length.hesitant', { days: FIRST_COOLING_DAYS }));
  }
  suggestedDays = Math.min(suggestedDays, ceilingDays);
  shortestDays = Math.min(shortestDays, suggestedDays);
  return { suggestedDays, shortestDays, ceilingDays, lengthClass, advice, reasons, source: row.source };
}

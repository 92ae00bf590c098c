import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import type { LengthAdvice, LengthClass } from './types.ts';

/** Never to be passed whatever the advice followed: thirteen weeks (common practice; three months in the joint UK advice). */
export const LONGEST_DAYS = 91;

/** A few days of cold for a keeper who would rather begin gently (common practice: better than none). */
export const FIRST_COOLING_DAYS = 5;

/**
 * Limits between the classes. Completed years: the first winter is 0, the second 1. All common practice, save the ages from
 * which an animal counts as old and as grown whatever its size, which are estimates.
 */
export const CLASS_LIMITS = {
  secondWinterFromYears: 1,
  juvenileFromYears: 3,
  adultFromYears: 4,
  adultAtAnySizeFromYears: 10,
  elderlyFromYears: 50,
  /** About 5 cm: treated as in its first winter whatever its years, for the small lose water fastest. */
  hatchlingUnderSclMm: 55,
} as const;

export interface LengthRow {
  readonly advice: LengthAdvice;
  readonly lengthClass: LengthClass;
  /** All 0: this advice lets no animal of the class sleep. */
  readonly shortestDays: number;
  readonly suggestedDays: number;
  readonly ceilingDays: number;
  /** What the advice itself says at most, where that is longer than `LONGEST_DAYS`. */
  readonly publishedCeilingDays?: number;
  readonly source: Source;
}

const UK: Source = {
  cite: 'BSAVA, BVZS and BVA, joint release, 2016-10-18',
  status: 'read',
  note: 'Three months at most; none before the second to fourth winter, then six weeks.',
};
const CHAMBER: Source = {
  cite: 'Bundestierärztekammer (German chamber of veterinary surgeons), via Westdeutsche Zeitung',
  status: 'read',
  note: 'Three to five months; very young animals six to eight weeks. Cut here to thirteen weeks.',
};
const SILENT: Source = {
  ...COMMON_PRACTICE,
  note: 'The advice followed says nothing of this age; the common-practice length stands in.',
};

/** Published advice on the length of hibernation. A ceiling is not a target. */
export const LENGTHS: readonly LengthRow[] = [
  {
    advice: 'uk-joint-2016',
    lengthClass: 'first-winter',
    shortestDays: 0,
    suggestedDays: 0,
    ceilingDays: 0,
    source: UK,
  },
  {
    advice: 'uk-joint-2016',
    lengthClass: 'second-third-winter',
    shortestDays: 21,
    suggestedDays: 28,
    ceilingDays: 42,
    source: UK,
  },
  {
    advice: 'uk-joint-2016',
    lengthClass: 'juvenile',
    shortestDays: 28,
    suggestedDays: 35,
    ceilingDays: 42,
    source: UK,
  },
  {
    advice: 'uk-joint-2016',
    lengthClass: 'adult',
    shortestDays: 42,
    suggestedDays: 84,
    ceilingDays: 91,
    source: UK,
  },
  {
    advice: 'uk-joint-2016',
    lengthClass: 'elderly',
    shortestDays: 28,
    suggestedDays: 35,
    ceilingDays: 42,
    source: SILENT,
  },
  {
    advice: 'german-chamber',
    lengthClass: 'first-winter',
    shortestDays: 42,
    suggestedDays: 42,
    ceilingDays: 56,
    source: CHAMBER,
  },
  {
    advice: 'german-chamber',
    lengthClass: 'second-third-winter',
    shortestDays: 42,
    suggestedDays: 42,
    ceilingDays: 56,
    source: CHAMBER,
  },
  {
    advice: 'german-chamber',
    lengthClass: 'juvenile',
    shortestDays: 28,
    suggestedDays: 42,
    ceilingDays: 56,
    source: CHAMBER,
  },
  {
    advice: 'german-chamber',
    lengthClass: 'adult',
    shortestDays: 84,
    suggestedDays: 91,
    ceilingDays: 91,
    publishedCeilingDays: 152,
    source: CHAMBER,
  },
  {
    advice: 'german-chamber',
    lengthClass: 'elderly',
    shortestDays: 28,
    suggestedDays: 35,
    ceilingDays: 42,
    source: SILENT,
  },
  {
    advice: 'common-practice',
    lengthClass: 'first-winter',
    shortestDays: 7,
    suggestedDays: 14,
    ceilingDays: 21,
    source: COMMON_PRACTICE,
  },
  {
    advice: 'common-practice',
    lengthClass: 'second-third-winter',
    shortestDays: 21,
    suggestedDays: 28,
    ceilingDays: 42,
    source: COMMON_PRACTICE,
  },
  {
    advice: 'common-practice',
    lengthClass: 'juvenile',
    shortestDays: 28,
    suggestedDays: 35,
    ceilingDays: 42,
    source: COMMON_PRACTICE,
  },
  {
    advice: 'common-practice',
    lengthClass: 'adult',
    shortestDays: 42,
    suggestedDays: 84,
    ceilingDays: 91,
    source: COMMON_PRACTICE,
  },
  {
    advice: 'common-practice',
    lengthClass: 'elderly',
    shortestDays: 28,
    suggestedDays: 35,
    ceilingDays: 42,
    source: COMMON_PRACTICE,
  },
];

import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import type { LastBathView } from './plan-types.ts';

const FAST: Source = {
  cite: 'common practice, no source; veterinary leaflets give 2 to 4 weeks (Cara Vet Group; In & Around, 2022-09)',
  status: 'common-practice',
};
const WARM_FAST: Source = {
  cite: 'J. Hedley, Royal Veterinary College, ACT Paws and Hooves, autumn 2023, p. 16',
  status: 'read',
  note: 'Keep warm during the fast so that digestion goes on, then cool.',
};
const LAMP: Source = {
  cite: 'common practice, no source; the German veterinary chamber gives 3 weeks of falling light and warmth (Westdeutsche Zeitung)',
  status: 'common-practice',
};

export interface PreparationRow {
  /** Days with shorter lamp hours before the food stops. */
  readonly windDownDays: number;
  readonly fastDays: number;
  /** Shortest fast that is still allowed, and the longest before the animal must be fed again. */
  readonly shortestFastDays: number;
  readonly longestFastDays: number;
  readonly source: Source;
}

/** Preparation by size. Small under about 10 cm: 2 to 3 weeks without food; grown: 3 to 4 weeks. */
export const PREPARATION: { readonly small: PreparationRow; readonly grown: PreparationRow } = {
  small: { windDownDays: 7, fastDays: 18, shortestFastDays: 14, longestFastDays: 28, source: FAST },
  grown: { windDownDays: 10, fastDays: 26, shortestFastDays: 21, longestFastDays: 42, source: FAST },
};

/** Lamp hours a day and the days before the sleeping day on which each step begins; 0 is off, on the last day. */
export const LAMP_STEPS: readonly { readonly hours: number; readonly daysBefore: { small: number; grown: number } }[] =
  [
    { hours: 8, daysBefore: { small: 14, grown: 21 } },
    { hours: 6, daysBefore: { small: 7, grown: 10 } },
    { hours: 0, daysBefore: { small: 1, grown: 1 } },
  ];
/** Hours of the first step, from the start of the wind-down. */
export const FIRST_LAMP_STEP_H = 10;
/** A step this much shorter than the daylight outside follows the daylight instead, hours. Our own choice, no source. */
export const KINDER_BEYOND_H = 3;
export const USUAL_LAMP_H = 12;
export const LAMP_SOURCE = LAMP;
export const WARM_FAST_SOURCE = WARM_FAST;

/** The two published views of the last bath: days before the sleeping day, and how often before that. */
export const LAST_BATH: Readonly<
  Record<LastBathView, { readonly daysBefore: number; readonly dailyFromDaysBefore: number; readonly source: Source }>
> = {
  'day-before': { daysBefore: 1, dailyFromDaysBefore: 7, source: COMMON_PRACTICE },
  'week-before': {
    daysBefore: 8,
    dailyFromDaysBefore: 21,
    source: { cite: 'BVA, BVZS and BSAVA, 2016-10', status: 'read', note: 'Daily before, none in the last week.' },
  },
};
/** Before the daily baths: one every so many days, so two or three a week. */
export const BATH_EVERY_DAYS = 3;

/** Weeks of feeding up that the winter line shows before the wind-down. */
export const FEEDING_UP_DAYS = 56;
export const DRY_RUN_DAYS = 7;
export const FIRST_COOLING_NIGHTS = 5;
/** Middle of the sleep, days after the shortest day, where no normals are given: the cold comes after the dark. */
export const MIDDLE_AFTER_SHORTEST_DAYS = 15;
/** A sleep may end this much later than it would by default before the plan says that spring has come. */
export const LATE_WAKING_DAYS = 14;
export const WAKING_DAYS = 2;
export const RECOVERING_DAYS = 20;
export const BACK_TO_FULL_DAYS = 35;

export const WAKING_SOURCE: Source = {
  cite: 'Beaumont Veterinary Centre (10-minute warm bath; most eat within 24 to 48 h); warming over 12 hours is common practice',
  status: 'read',
};
export const FEEDING_LIMIT: Source = {
  cite: 'Beaumont Veterinary Centre; netvet.co.uk; In & Around, 2022-09: vet by day 7',
  status: 'read',
  note: 'Ten days is the limit of common practice; warned from seven.',
};
export const RECOVERED_SOURCE: Source = { cite: 'netvet.co.uk: normal within 3 weeks, or a vet', status: 'read' };
export const WEEKLY_SOURCE: Source = {
  cite: 'In & Around, 2022-09 (weigh weekly); German veterinary chamber (open once or twice a week)',
  status: 'read',
};
export const SEASON_SOURCE: Source = {
  cite: 'BVA, BVZS and BSAVA 2016 (not before the cold); middle of the sleep near the coldest weeks is common practice',
  status: 'common-practice',
};

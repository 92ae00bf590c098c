import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import type { GateName } from './types.ts';

/** How long an illness, a treatment or an arrival keeps an animal awake, and how old a vet's check may be, days. */
export const TWELVE_MONTHS_DAYS = 365;

/** A bath longer ago than this no longer counts as the last bath, days. */
export const LAST_BATH_WITHIN_DAYS = 8;

/** The mass it goes down with and the mass judged may differ by this share before one of them is weighed again. */
export const START_MASS_DIFFERENCE = 0.1;

/** From this straight carapace length a female may carry eggs, as a share of the length at which her kind counts as grown. */
export const EGGS_FROM_SHARE_OF_ADULT = 0.8;

const FASTING: Source = {
  cite: 'common practice; J. Hedley, Royal Veterinary College, 2023',
  status: 'read',
  note: 'Kept warm during the fast so that digestion goes on until the gut is empty.',
};

/** Sources of the gates whose rule has one. The rest are common practice. */
export const GATE_SOURCES: Partial<Record<GateName, Source>> = {
  illness: {
    cite: 'common practice; BSAVA, BVZS and BVA, joint release, 2016-10-18',
    status: 'read',
    note: 'Not if ill. The twelve months are common practice; a vet may clear it.',
  },
  treatment: { ...COMMON_PRACTICE, note: 'Twelve months; a vet may clear it.' },
  'new-arrival': {
    ...COMMON_PRACTICE,
    note: 'Twelve months, so that it is known through a whole year; a vet may clear it.',
  },
  'gut-cleared': FASTING,
  'last-bath': {
    cite: 'common practice (the day before); BSAVA, BVZS and BVA 2016 (none in the last week)',
    status: 'read',
    note: 'Published advice differs; a bath from one to eight days before is accepted.',
  },
  'start-mass': {
    cite: 'common practice',
    status: 'common-practice',
    note: 'Every later weighing is compared with it.',
  },
};

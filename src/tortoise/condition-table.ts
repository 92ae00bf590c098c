import type { Source } from '../measure/source.ts';
import type { Sex } from './types.ts';

/** log10 M = intercept + exponent log10 L, M in g, L (straight carapace length) in mm. */
export interface SizeCurve {
  readonly name: string;
  readonly intercept: number;
  readonly exponent: number;
  /** Lengths over which it was fitted, mm. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly source: Source;
}

const PRESPA: Source = {
  cite: 'open data of "Sex ratio bias triggers demographic suicide in a dense tortoise population", Ecology Letters 2026, doi 10.1111/ele.70296',
  status: 'data',
  note: 'Healthy mainland population of Testudo hermanni boettgeri at Lake Prespa; residual sd 0.028 (976 female records) and 0.030 (640 male).',
};

export const JACKSON_LINE: SizeCurve = {
  name: 'Jackson’s average line',
  intercept: -2.677,
  exponent: 2.552,
  fromMm: 110,
  toMm: 256,
  source: {
    cite: 'Jackson 1980, J. Small Anim. Pract. 21:409-416, twelve points of the average line as quoted by others; fit derived',
    status: 'derived',
    note: 'Testudo graeca and T. hermanni. The worst point lies 15 % off the fit, the others within 10 %.',
  },
};

/** Lines by sex for *Testudo hermanni*. */
export const PRESPA_LINES: Readonly<Record<Exclude<Sex, 'unknown'>, SizeCurve>> = {
  female: {
    name: 'wild females of Lake Prespa',
    intercept: -2.5798,
    exponent: 2.5191,
    fromMm: 150,
    toMm: 250,
    source: PRESPA,
  },
  male: {
    name: 'wild males of Lake Prespa',
    intercept: -2.8231,
    exponent: 2.6159,
    fromMm: 150,
    toMm: 250,
    source: PRESPA,
  },
};

/** Exponent that carries one animal's own mass to a new length: unbiased over 80 growing animals of the Prespa data. */
export const OWN_EXPONENT = 2.77;

/** Spread (log10) of two weighings of one animal in one season: 4 % of mass. */
export const WEIGHING_SD_LOG10 = Math.log10(1.04);

/** From three weighings on, the mean decides by the limit itself. */
export const WEIGHINGS_THAT_DECIDE = 3;

/** Limits of the condition index: wild animals lie mostly within. */
export const CONDITION_LIMITS = {
  lowIndex: -0.1,
  highIndex: 0.1,
  source: {
    cite: 'Willemsen & Hailey 2002, Herpetol. J. 12:105-114; Hailey 2000, Herpetol. J. 10:57-61',
    status: 'abstract',
    note: 'Most wild animals lie within -0.1 and +0.1 of the expected mass on a log10 scale, about 80 to 125 %.',
  } satisfies Source,
};

/** Bands of the ratio as commonly quoted, g/cm3. Only *Testudo graeca* and *T. hermanni*. */
export const JACKSON_BANDS = {
  seriouslyLightUnder: 0.16,
  lightUnder: 0.18,
  heavyFrom: 0.23,
  source: {
    cite: 'Jackson 1980, J. Small Anim. Pract. 21:409-416, bands as quoted by others',
    status: 'quoted',
    note: 'Only Testudo graeca and T. hermanni. Under 0.16 seriously light, to about 0.17 light for hibernation, 0.18 to 0.22 acceptable, 0.23 and more heavy.',
  } satisfies Source,
};

import { COMMON_PRACTICE, type Source } from '../measure/source.ts';

export type FactorId = 'loss' | 'mass' | 'sun' | 'airChange' | 'boxLoss' | 'boxMass';

export interface CalibrationFactor {
  /** As it stands in a sentence. */
  readonly name: string;
  /** Range of the factor on the described value that can be believed. */
  readonly low: number;
  readonly high: number;
  /** Standard deviation of the logarithm of the factor before any reading: how well such descriptions hold. */
  readonly priorLogSd: number;
  /** Values that make a house warmest and coldest for given weather. */
  readonly extreme: { readonly warmest: number; readonly coldest: number };
  /** Order in which factors are left as described when readings cannot tell them apart: highest first, 0 never. */
  readonly giveUp: number;
  readonly source: Source;
}

const range = (note: string): Source => ({
  cite: 'our estimate of how far a description can be off',
  status: 'estimate',
  note,
});

export const calibrationFactors: Readonly<Record<FactorId, CalibrationFactor>> = {
  loss: {
    name: 'the heat loss of the place',
    low: 0.15,
    high: 6,
    priorLogSd: 0.4,
    extreme: { warmest: 0.15, coldest: 1 },
    giveUp: 0,
    source: range('From a wall with a hidden layer of insulation to one with gaps'),
  },
  mass: {
    name: 'the heat stored by the place',
    low: 0.1,
    high: 10,
    priorLogSd: 0.5,
    extreme: { warmest: 1, coldest: 1 },
    giveUp: 1,
    source: range('Contents and floor are guesses'),
  },
  sun: {
    name: 'the sun the place takes in',
    low: 0.02,
    high: 6,
    priorLogSd: 0.7,
    extreme: { warmest: 6, coldest: 0.02 },
    giveUp: 4,
    source: range('From full shade to white walls taken for dark ones'),
  },
  airChange: {
    name: 'the air change',
    low: 0.05,
    high: 12,
    priorLogSd: 0.7,
    extreme: { warmest: 0.05, coldest: 1 },
    giveUp: 5,
    source: range('EN ISO 13789 classes of unheated spaces run from 0.1 to 10 per hour (from memory)'),
  },
  boxLoss: {
    name: 'the heat loss of the box',
    low: 0.25,
    high: 4,
    priorLogSd: 0.3,
    extreme: { warmest: 0.25, coldest: 1 },
    giveUp: 2,
    source: range('Lids that leak, fill that was pressed'),
  },
  boxMass: {
    name: 'the heat stored by the box',
    low: 0.25,
    high: 4,
    priorLogSd: 0.3,
    extreme: { warmest: 1, coldest: 1 },
    giveUp: 3,
    source: range('Damp bedding, bottles not counted'),
  },
};

/** What a dry run must hold, and how good a keeper's thermometer is. */
export const thermometer = {
  /** Fewest point readings, or max-min readings, for a calibration. */
  leastReadings: 24,
  leastSpans: 5,
  leastSpanS: 48 * 3600,
  /** Max-min thermometers are sold as right to 0.5 or 1 K; within this a max-min reading is satisfied. */
  maxMinToleranceK: 0.5,
  resolutionK: 0.03,
  /** Outdoors must move this much for a loss to be told from a heat store. */
  leastOutsideRangeK: 2,
  /** Smallest eigenvalue of the scaled J'J (1 when parameters act apart, 0 when they act alike). */
  leastDistinct: 1e-4,
  /** Standard error of the logarithm above which a factor is not known: within a factor of 2 either way at 90 %. */
  vagueLogError: 0.42,
  /** A factor is told when the readings have narrowed its prior to less than this share. */
  toldShare: 0.8,
  /** Steady difference between place and readings from what is not described (ground, neighbour, the thermometer's own offset), K. */
  baselineSdK: 0.7,
  /** Unknown start, K. */
  startSdK: 5,
  /** Standard deviations of its prior beyond which a factor is not believed. */
  beyondBelief: 3.5,
  worstResidualK: 3,
  contradictionK: 2,
  source: {
    ...COMMON_PRACTICE,
    note: 'Limits of our own choosing; the tolerance of thermometers is what packets say',
  } as Source,
} as const;

import type { PlannedDay } from '../../src/physiology/body-temperature.ts';
import type { GutState } from '../../src/physiology/gut-clearing.ts';
import type { MassEventKind } from '../../src/physiology/mass-estimator.ts';

/** A course of weigh-ins in an ordinary box, one a week, and what the last one is. */
export interface MassCase {
  readonly tale: string;
  readonly ground: string;
  readonly massesG: readonly number[];
  /** Relative humidity of each week; not measured when absent. */
  readonly humidity?: readonly number[];
  readonly resolutionG?: number;
  readonly event: MassEventKind | 'none';
  readonly weighAgain: boolean;
}

const USUAL = 'common practice: 1 to 2 % a month at 1 kg';
const CATALAN =
  'Catalan school weighings of T. hermanni (García Jurado 2011 and others): mass recovers in part after damp spells';
const PRACTICE = 'common practice, no source';
const COURSE = [1000, 998, 995, 993, 990];

export const MASS_CASES: readonly MassCase[] = [
  { tale: '2 to 3 g a week at 1 kg', ground: USUAL, massesG: [...COURSE, 988], event: 'none', weighAgain: false },
  {
    tale: '6 g in a week, still inside 2 % a month',
    ground: USUAL,
    massesG: [...COURSE, 984],
    event: 'none',
    weighAgain: false,
  },
  {
    tale: 'a hatchling of 24 g that loses 4.7 % a month',
    ground: 'one keeper’s Gopherus hatchling, 1980-81: 24.1 to 20.7 g in 92 days',
    massesG: [24.1, 23.8, 23.6, 23.3, 23.1, 22.8],
    resolutionG: 0.1,
    event: 'none',
    weighAgain: false,
  },
  {
    tale: 'a gain of 4 g after damp days',
    ground: CATALAN,
    massesG: [...COURSE, 994],
    humidity: [0.7, 0.7, 0.7, 0.7, 0.95],
    event: 'small-gain',
    weighAgain: false,
  },
  {
    tale: '50 g less than last week',
    ground: `${PRACTICE}: urine ends the sleep`,
    massesG: [...COURSE, 940],
    event: 'drop',
    weighAgain: true,
  },
  {
    tale: '50 g less, and the second weighing agrees',
    ground: PRACTICE,
    massesG: [...COURSE, 940, 937],
    event: 'step-confirmed',
    weighAgain: false,
  },
  {
    tale: '50 g less, and the second weighing does not',
    ground: PRACTICE,
    massesG: [...COURSE, 940, 985],
    event: 'misreading',
    weighAgain: false,
  },
  {
    tale: 'the neighbour’s tortoise on the scale',
    ground: 'no animal changes by 40 % in a week',
    massesG: [...COURSE, 1410],
    event: 'impossible',
    weighAgain: true,
  },
  { tale: 'typed in kilograms', ground: 'unit', massesG: [...COURSE, 0.988], event: 'wrong-unit', weighAgain: true },
  {
    tale: 'drank unseen',
    ground: 'Royal Veterinary College 2023: a full bladder is the store',
    massesG: [...COURSE, 1030],
    event: 'rise',
    weighAgain: true,
  },
];

/** An autumn of planned days after the last meal, and what it does to the gut of a 1 kg adult. */
export interface GutCase {
  readonly tale: string;
  readonly ground: string;
  readonly days: number;
  readonly day: PlannedDay;
  readonly state: GutState;
}

const HOLT =
  'Holt 1978, Vet. Rec. 103:198: barium, two T. graeca, 25 and 28 days at 20.6 °C by day and 13.9 °C by night';
const RVC = 'J. Hedley, Royal Veterinary College, 2023: keep warm during the fast so that digestion goes on';
const summer: PlannedDay = { lampHours: 0, baskingC: 20.6, dayC: 20.6, nightC: 13.9 };

export const GUT_CASES: readonly GutCase[] = [
  { tale: 'two weeks of the barium summer', ground: HOLT, days: 14, day: summer, state: 'clearing' },
  { tale: 'four and a half weeks of it', ground: HOLT, days: 32, day: summer, state: 'probably-clear' },
  {
    tale: 'two weeks in a cold greenhouse, 8 h at 15 °C',
    ground: `${RVC}; derived: 80 to 140 days`,
    days: 14,
    day: { lampHours: 8, baskingC: 15, dayC: 8, nightC: 8 },
    state: 'too-cold-to-clear',
  },
  {
    tale: 'four weeks with the lamp on',
    ground: RVC,
    days: 28,
    day: { lampHours: 10, baskingC: 28, dayC: 18, nightC: 15 },
    state: 'probably-clear',
  },
  {
    tale: 'two weeks with the lamp on',
    ground: RVC,
    days: 14,
    day: { lampHours: 10, baskingC: 28, dayC: 18, nightC: 15 },
    state: 'clearing',
  },
  {
    tale: 'seven weeks with the lamp on',
    ground: RVC,
    days: 49,
    day: { lampHours: 10, baskingC: 28, dayC: 18, nightC: 15 },
    state: 'clear',
  },
];

import { daysBetween } from '../measure/day.ts';
import { figure, mass, percent } from '../measure/figures.ts';
import { COMMON_PRACTICE } from '../measure/source.ts';
import { type Message, message } from '../wording/say.ts';
import {
  CONDITION_LIMITS,
  JACKSON_BANDS,
  JACKSON_LINE,
  OWN_EXPONENT,
  PRESPA_LINES,
  type SizeCurve,
  WEIGHING_SD_LOG10,
  WEIGHINGS_THAT_DECIDE,
} from './condition-table.ts';
import { findSpecies } from './species.ts';
import type { Condition, ConditionBand, GateState, Sex, SizeRecord } from './types.ts';

/** Weighings so near in time count together as one state of the animal, days. */
const SAME_STATE_DAYS = 21;

/** J = mass[g] / SCL[cm]^3 (Jackson 1980). Mass and length above 0. */
export function jacksonRatio(massG: number, sclMm: number): number {
  return massG / (sclMm / 10) ** 3;
}

/** Mass (g) of an average animal of straight carapace length `sclMm` (mm) on a size curve. */
export function expectedMassG(curve: SizeCurve, sclMm: number): number {
  return 10 ** (curve.intercept + curve.exponent * Math.log10(sclMm));
}

/** CI = log10(M / M') (Hailey 2000): 0 is average, -0.1 about 80 % of the expected mass. */
export function conditionIndex(massG: number, expectedG: number): number {
  return Math.log10(massG / expectedG);
}

/** Mass (g) expected at `sclMm` of an animal that weighed `before.massG` at `before.sclMm` in good order: M (L/L0)^2.77. */
export function ownExpectedMassG(before: Pick<SizeRecord, 'massG' | 'sclMm'>, sclMm: number): number {
  return before.massG * (sclMm / before.sclMm) ** OWN_EXPONENT;
}

/** The size curve that holds for a taxon, sex and length; undefined where none was measured. */
export function sizeCurveFor(species: string, sex: Sex, sclMm: number): SizeCurve | undefined {
  const row = findSpecies(species);
  if (!row?.jackson) return undefined;
  if (row.name.startsWith('Testudo hermanni') && sex !== 'unknown') {
    const line = PRESPA_LINES[sex];
    if (sclMm >= line.fromMm && sclMm <= line.toMm) return line;
  }
  return sclMm >= JACKSON_LINE.fromMm ? JACKSON_LINE : undefined;
}

export interface ConditionQuestion {
  readonly species: string;
  readonly sex: Sex;
  readonly massG: number;
  readonly sclMm: number;
  readonly onDay: string;
  readonly earlier?: readonly SizeRecord[] | undefined;
  /** Weight through the summer as the keeper answers it. */
  readonly weightNormal?: boolean | undefined;
}

/**
 * Judges the condition. By the size curve where one holds, else by the animal's own earlier weighings, else by what the keeper
 * says of the summer. Near a limit fewer than three weighings decide nothing, unless Jackson's bands also call it acceptable.
 */
export function judgeCondition(question: ConditionQuestion): Condition {
  const { species, sex, sclMm, onDay } = question;
  const earlier = (question.earlier ?? []).filter((record) => record.day <= onDay);
  const recent = earlier.filter((record) => daysBetween(record.day, onDay) <= SAME_STATE_DAYS && record.day !== onDay);
  const old = earlier.filter((record) => daysBetween(record.day, onDay) > SAME_STATE_DAYS);
  const weighings = recent.length + 1;
  const massG =
    [question.massG, ...recent.map((record) => record.massG)].reduce((sum, each) => sum + each, 0) / weighings;

  const ratio = jacksonRatio(massG, sclMm);
  const judgedByRatio = findSpecies(species)?.jackson ?? false;
  const jackson = judgedByRatio ? jacksonBand(ratio) : undefined;
  const curve = sizeCurveFor(species, sex, sclMm);
  const expected = curve && expectedMassG(curve, sclMm);
  const index = expected === undefined ? undefined : conditionIndex(massG, expected);
  const ownExpected = ownExpectation(old, sclMm);
  const ownIndex = ownExpected === undefined ? undefined : conditionIndex(massG, ownExpected);

  const notes: Message[] = [];
  if (!judgedByRatio) notes.push(message('tortoise.condition.noJackson'));
  if (weighings === 1) notes.push(message('tortoise.condition.singleWeighing'));
  if (curve && (sclMm < curve.fromMm || sclMm > curve.toMm))
    notes.push(message('tortoise.condition.beyondCurve', { from: figure(curve.fromMm), to: figure(curve.toMm) }));

  const asked: Judged = { index, ownIndex, jackson, ratio, weighings, question };
  const final = worse(byCurve(asked) ?? byRatioAlone(asked), byOwnHistory(asked)) ?? bySummer(question.weightNormal);
  const indexBand = index === undefined ? undefined : bandOfIndex(index);
  if (jackson !== undefined && indexBand !== undefined && differs(jackson, indexBand))
    notes.push(
      message('tortoise.condition.disagree', {
        ratio: figure(ratio, 3),
        jackson: jackson.replace('-', ' '),
        share: percent(10 ** index!),
      }),
    );

  return {
    band: final.band,
    state: final.state,
    reason: final.reason,
    source: index === undefined ? (judgedByRatio ? JACKSON_BANDS.source : COMMON_PRACTICE) : CONDITION_LIMITS.source,
    jacksonRatio: ratio,
    ...(jackson === undefined ? {} : { jacksonBand: jackson }),
    ...(curve && expected !== undefined && index !== undefined
      ? { expectedMassG: expected, conditionIndex: index, curve: curve.name }
      : {}),
    ...(ownExpected !== undefined && ownIndex !== undefined
      ? { ownExpectedMassG: ownExpected, ownConditionIndex: ownIndex }
      : {}),
    weighings,
    notes,
  };
}

interface Judged {
  index: number | undefined;
  ownIndex: number | undefined;
  jackson: Condition['jacksonBand'] | undefined;
  ratio: number;
  weighings: number;
  question: ConditionQuestion;
}
interface Finding {
  band: ConditionBand;
  state: GateState;
  reason: Message;
}

function jacksonBand(ratio: number): NonNullable<Condition['jacksonBand']> {
  if (ratio < JACKSON_BANDS.seriouslyLightUnder) return 'seriously-light';
  if (ratio < JACKSON_BANDS.lightUnder) return 'light';
  return ratio < JACKSON_BANDS.heavyFrom ? 'acceptable' : 'heavy';
}

function bandOfIndex(index: number): ConditionBand {
  if (index < CONDITION_LIMITS.lowIndex) return 'light';
  return index > CONDITION_LIMITS.highIndex ? 'heavy' : 'normal';
}

const differs = (jackson: NonNullable<Condition['jacksonBand']>, band: ConditionBand): boolean =>
  (jackson === 'acceptable') !== (band === 'normal');

/** How far to each side of a limit `weighings` weighings leave it open (log10): one standard deviation of their mean. */
function openMargin(weighings: number): number {
  return weighings >= WEIGHINGS_THAT_DECIDE ? 0 : WEIGHING_SD_LOG10 / Math.sqrt(weighings);
}

function byCurve({ index, jackson, ratio, weighings, question }: Judged): Finding | undefined {
  if (index === undefined) return undefined;
  const values = { share: percent(10 ** index), ratio: figure(ratio, 3), mass: mass(question.massG) };
  const margin = openMargin(weighings);
  if (index > CONDITION_LIMITS.highIndex)
    return { band: 'heavy', state: 'borderline', reason: message('tortoise.condition.heavy', values) };
  const outside = index < CONDITION_LIMITS.lowIndex;
  const open = Math.abs(index - CONDITION_LIMITS.lowIndex) < margin;
  // Where Jackson's bands say the same (acceptable by more than the noise of a weighing), the two measures settle it.
  const serious = jackson === 'seriously-light';
  const agreed = outside ? serious : jackson === 'acceptable' && ratio >= JACKSON_BANDS.lightUnder * 1.04;
  if (open && !agreed)
    return {
      band: outside ? 'light' : 'normal',
      state: 'borderline',
      reason: message('tortoise.condition.nearLimit', values),
    };
  if (!outside) return { band: 'normal', state: 'passes', reason: message('tortoise.condition.normal', values) };
  return {
    band: serious ? 'seriously-light' : 'light',
    state: 'fails',
    reason: message(serious ? 'tortoise.condition.seriouslyLight' : 'tortoise.condition.light', values),
  };
}

function byOwnHistory({ ownIndex, weighings }: Judged): Finding | undefined {
  if (ownIndex === undefined) return undefined;
  const values = { share: percent(10 ** ownIndex) };
  const { lowIndex } = CONDITION_LIMITS;
  if (Math.abs(ownIndex - lowIndex) < openMargin(weighings))
    return { band: 'light', state: 'borderline', reason: message('tortoise.condition.ownNearLimit', values) };
  if (ownIndex < lowIndex)
    return { band: 'light', state: 'fails', reason: message('tortoise.condition.ownLight', values) };
  return { band: 'normal', state: 'passes', reason: message('tortoise.condition.ownNormal', values) };
}

/** Too small for any curve: the ratio alone, light side only, for healthy small animals run above its band. */
function byRatioAlone({ jackson, ratio }: Judged): Finding | undefined {
  if (jackson === undefined) return undefined;
  const values = { ratio: figure(ratio, 3) };
  if (jackson === 'seriously-light')
    return {
      band: 'seriously-light',
      state: 'fails',
      reason: message('tortoise.condition.smallSeriouslyLight', values),
    };
  return jackson === 'light'
    ? { band: 'light', state: 'borderline', reason: message('tortoise.condition.smallLight', values) }
    : { band: 'normal', state: 'passes', reason: message('tortoise.condition.smallNormal', values) };
}

/** No curve and no record of its own: what the keeper says of the summer. */
function bySummer(weightNormal: boolean | undefined): Finding {
  if (weightNormal === undefined)
    return { band: 'no-verdict', state: 'not-yet-known', reason: message('tortoise.condition.unknown') };
  return weightNormal
    ? { band: 'no-verdict', state: 'passes', reason: message('tortoise.condition.bySummer') }
    : { band: 'no-verdict', state: 'borderline', reason: message('tortoise.condition.summerNotNormal') };
}

/** Median of what the earlier weighings lead one to expect at this length. */
function ownExpectation(old: readonly SizeRecord[], sclMm: number): number | undefined {
  if (old.length === 0) return undefined;
  const expected = old.map((record) => ownExpectedMassG(record, sclMm)).sort((a, b) => a - b);
  const middle = expected.length >> 1;
  return expected.length % 2 === 1 ? expected[middle]! : (expected[middle - 1]! + expected[middle]!) / 2;
}

const ORDER: readonly GateState[] = ['passes', 'not-yet-known', 'borderline', 'fails'];

function worse(a: Finding | undefined, b: Finding | undefined): Finding | undefined {
  if (!a || !b) return a ?? b;
  return ORDER.indexOf(b.state) > ORDER.indexOf(a.state) ? b : a;
}

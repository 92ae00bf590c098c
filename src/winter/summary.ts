import { daysBetween } from '../measure/day.ts';
import { type MassUnit, mass, percent, type TemperatureUnit, temperature } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import { meanKineticTemperatureC } from './mean-kinetic.ts';
import type { PlanRequest, WinterPlan } from './plan-types.ts';
import type { RuleId } from './watch-types.ts';

const DAY_MS = 86_400_000;
const MONTH_DAYS = 30.44;
/** Loss over the winter that the next plan stays under, share of the starting mass. */
const PLANNED_LOSS = 0.08;
/** More than this a month is water lost faster than usual for a grown animal (Beaumont Veterinary Centre: 1 to 2 % a month). */
const FAST_LOSS_A_MONTH = 0.02;
/** More of the hours read than this over 8 °C calls for a colder place. Our own choice, no source. */
const WARM_SHARE = 0.1;

export interface WinterFacts {
  /** The plan as it was first made, and the days as they came. */
  readonly plan: WinterPlan;
  readonly nightsSlept: number;
  readonly startMassG?: number;
  readonly wakingMassG?: number;
  /** Readings of the sleep in time order; a gap longer than `longestGapMs` counts for nothing. */
  readonly timesMs: ArrayLike<number>;
  readonly tempsC: ArrayLike<number>;
  readonly longestGapMs: number;
  /** Rules that spoke during the sleep. */
  readonly ruleIds: readonly RuleId[];
  /** Days from waking to the first meal; left out while it has not eaten. */
  readonly daysToFirstFood?: number;
  readonly temperatureUnit?: TemperatureUnit;
  readonly massUnit?: MassUnit;
}

export interface WinterSummary {
  readonly nightsPlanned: number;
  readonly nightsSlept: number;
  readonly lossG?: number;
  readonly lossShare?: number;
  readonly monthlyLossShare?: number;
  readonly coldestC?: number;
  readonly warmestC?: number;
  /** Mean kinetic temperature of the sleep, °C: how warm it was as one number. */
  readonly meanKineticC?: number;
  /** Share of the hours read that lay in the band of 3 to 8 °C. */
  readonly steadiness?: number;
  readonly sentences: readonly Message[];
  readonly lessons: readonly Message[];
  /** What the next winter's plan starts from: this request without its dates, with the lessons drawn. */
  readonly next: PlanRequest;
}

/** The winter in figures and sentences, with the lessons drawn from it and the request that the next one starts from. */
export function summarizeWinter(facts: WinterFacts): WinterSummary {
  const { plan, nightsSlept, startMassG, wakingMassG } = facts;
  const nightsPlanned = plan.length?.days ?? daysBetween(plan.fromDay, plan.toDay);
  const box = boxFigures(facts);
  const lossG = startMassG === undefined || wakingMassG === undefined ? undefined : startMassG - wakingMassG;
  const lossShare = lossG === undefined ? undefined : lossG / startMassG!;
  const monthly = lossShare === undefined || nightsSlept < 7 ? undefined : (lossShare * MONTH_DAYS) / nightsSlept;
  const lessons: Message[] = [];
  const spoke = (...ids: RuleId[]) => facts.ruleIds.some((id) => ids.includes(id));
  let sleepDays = plan.request.sleepDays;
  if (lossShare !== undefined && lossShare > PLANNED_LOSS) {
    // Loss grows with the nights: as many as would have stayed under the limit.
    sleepDays = Math.max(1, Math.floor((nightsSlept * PLANNED_LOSS) / lossShare));
    lessons.push(message('winter.lesson.shorter', { count: sleepDays }));
  }
  if (monthly !== undefined && monthly > FAST_LOSS_A_MONTH) lessons.push(message('winter.lesson.damper'));
  if (spoke('warm-week', 'over-10') || (box && box.warmShare > WARM_SHARE))
    lessons.push(message('winter.lesson.colder'));
  if (spoke('frost', 'under-2', 'under-3') || (box && box.coldestC < 3))
    lessons.push(message('winter.lesson.insulate'));
  if (spoke('urine', 'mass-10')) lessons.push(message('winter.lesson.awakeNext'));
  if (facts.daysToFirstFood !== undefined && facts.daysToFirstFood >= 7)
    lessons.push(message('winter.lesson.slowStart'));
  if (lessons.length === 0) lessons.push(message('winter.lesson.same'));
  const { sleepDay: _, sleepDays: __, shortPreparation: ___, ...request } = plan.request;
  return {
    nightsPlanned,
    nightsSlept,
    ...(lossG === undefined ? {} : { lossG, lossShare: lossShare! }),
    ...(monthly === undefined ? {} : { monthlyLossShare: monthly }),
    ...(box
      ? { coldestC: box.coldestC, warmestC: box.warmestC, meanKineticC: box.meanKineticC, steadiness: box.steadiness }
      : {}),
    sentences: sentencesOf(facts, nightsPlanned, lossG, lossShare, monthly, box),
    lessons,
    next: { ...request, ...(sleepDays === undefined ? {} : { sleepDays }) },
  };
}

interface BoxFigures {
  readonly coldestC: number;
  readonly warmestC: number;
  readonly meanKineticC: number;
  readonly steadiness: number;
  readonly warmShare: number;
}

/** Each reading holds until the next; a gap counts for nothing. Undefined without any stretch of readings. */
function boxFigures({ timesMs, tempsC, longestGapMs }: WinterFacts): BoxFigures | undefined {
  const temps: number[] = [];
  const weights: number[] = [];
  let inBand = 0;
  let warm = 0;
  let total = 0;
  for (let i = 0; i + 1 < timesMs.length; i++) {
    const lasting = timesMs[i + 1]! - timesMs[i]!;
    if (lasting > longestGapMs || lasting <= 0) continue;
    const tempC = tempsC[i]!;
    temps.push(tempC);
    weights.push(lasting / DAY_MS);
    total += lasting;
    if (tempC >= 3 && tempC <= 8) inBand += lasting;
    if (tempC > 8) warm += lasting;
  }
  if (total === 0) return undefined;
  const all = Array.from(tempsC);
  return {
    coldestC: all.reduce((least, tempC) => Math.min(least, tempC)),
    warmestC: all.reduce((most, tempC) => Math.max(most, tempC)),
    meanKineticC: meanKineticTemperatureC(temps, weights),
    steadiness: inBand / total,
    warmShare: warm / total,
  };
}

function sentencesOf(
  facts: WinterFacts,
  planned: number,
  lossG: number | undefined,
  lossShare: number | undefined,
  monthly: number | undefined,
  box: BoxFigures | undefined,
): Message[] {
  const unit = facts.temperatureUnit ?? 'C';
  return [
    message('winter.summary.slept', { count: facts.nightsSlept, planned }),
    lossG === undefined || lossShare === undefined
      ? message('winter.summary.lossUnknown')
      : message('winter.summary.loss', {
          grams: mass(lossG, facts.massUnit ?? 'g'),
          share: percent(lossShare, 1),
          monthly: monthly === undefined ? '–' : percent(monthly, 1),
        }),
    box
      ? message('winter.summary.temperature', {
          coldest: temperature(box.coldestC, unit),
          warmest: temperature(box.warmestC, unit),
          steadiness: percent(box.steadiness),
        })
      : message('winter.summary.temperatureUnknown'),
  ];
}

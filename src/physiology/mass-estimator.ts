import type { Spread } from '../measure/spread.ts';
import { type BoxClimate, exposure } from './box-climate.ts';
import {
  HANDLING_G,
  HANDLING_SHARE,
  IMPOSSIBLE_CHANGE,
  LOG_DEFICIT_SPREAD_UNMEASURED,
  LOG_K_SPREAD,
  SURFACE_WATER_PER_HUMIDITY,
  SURFACE_WATER_SHARE,
} from './constants.ts';
import {
  type Belief,
  logRatioQuantile,
  moments,
  predict,
  priorBelief,
  quantileG,
  shift,
  update,
} from './mass-filter.ts';
import { digitSlips, type UnitSlip, unitSlips } from './mistyped.ts';

/** One weighing of a sleeping animal. */
export interface WeighIn {
  readonly atMs: number;
  readonly massG: number;
  /** Smallest step of the scale, g; 1 when not given. */
  readonly resolutionG?: number;
  /** What the diary says happened since the last weigh-in and explains a step: the mass starts anew from this figure. */
  readonly since?: 'urine' | 'drank' | 'other-scale';
}

/** What is known of one animal's mass in one sleep. Plain data: keep it as JSON, pass it on, nothing is changed in place. */
export interface MassEstimate {
  readonly startAtMs: number;
  readonly startMassG: number;
  readonly atMs: number;
  readonly belief: Belief;
  /** Measured humidity at the last weigh-in, for the water that clings to shell and skin. */
  readonly lastHumidity?: number;
  /** A weigh-in that did not fit and waits for a second weighing. */
  readonly pending?: { readonly atMs: number; readonly massG: number; readonly stepG: number };
}

export type MassEventKind =
  /** Fell by more than the model allows: urine, another scale, the wrong animal, a slip of the finger. Weigh again. */
  | 'drop'
  /** Rose by more than damp explains: a drink, another scale, the wrong animal, a slip. Weigh again. */
  | 'rise'
  /** No animal can change so much: wrong animal or wrong figure. Weigh again. */
  | 'impossible'
  /** The figure fits when it is read in another unit. */
  | 'wrong-unit'
  /** The second weighing agrees with the step. */
  | 'step-confirmed'
  /** The second weighing agrees with the course before: the odd figure was a misreading. */
  | 'misreading'
  /** A little heavier than last time, as damp shells are. For the record. */
  | 'small-gain'
  /** The diary explains the step. */
  | 'urine'
  | 'drank'
  | 'other-scale';

interface MassEvent {
  readonly kind: MassEventKind;
  /** How far the figure lies from what was expected, g. */
  readonly stepG: number;
  /** Figures one slip away that would have fitted, most likely first. */
  readonly perhapsG: readonly number[];
  readonly unit?: UnitSlip['unit'];
}

/** One weigh-in, judged. */
export interface JudgedWeighIn {
  readonly weighIn: WeighIn;
  /** What a weigh-in was expected to show, nine times in ten, before this one was seen. */
  readonly expectedG: Spread;
  /** Under the range expected, though not by so much that it is an event. */
  readonly underExpected: boolean;
  readonly event?: MassEvent;
  /** Asks for a second weighing. */
  readonly weighAgain: boolean;
  /** The worse of what was weighed and what is believed: what the rules go by until it is settled. */
  readonly worseG: number;
}

// 3.3 standard deviations: one ordinary weigh-in in a thousand; and nothing smaller than this share is an event.
const EVENT_SDS = 3.3;
const LEAST_EVENT_SHARE = 0.006;
const DOUBT_SDS = 2.5;
const SMALL_GAIN_SHARE = 0.002;

/** Variance of one weighing, g2: scale step, handling, and water on the animal that comes and goes with the damp. */
function weighingNoiseG2(massG: number, resolutionG: number, humidityStep = 0): number {
  const handling = HANDLING_G.value + HANDLING_SHARE.value * massG;
  const surface = (SURFACE_WATER_SHARE.value + SURFACE_WATER_PER_HUMIDITY.value * Math.abs(humidityStep)) * massG;
  return resolutionG ** 2 / 12 + handling ** 2 + surface ** 2;
}

/**
 * Begins an estimate with the starting weigh-in. Until others come it rests on the usual loss and its spread; unmeasured
 * humidity makes it wider.
 */
export function startMassEstimate(start: WeighIn, humidityMeasured: boolean): MassEstimate {
  if (!(start.massG > 0)) throw new RangeError(`mass must be above 0 g, not ${start.massG}`);
  const spread = humidityMeasured
    ? LOG_K_SPREAD.value
    : Math.hypot(LOG_K_SPREAD.value, LOG_DEFICIT_SPREAD_UNMEASURED.value);
  return {
    startAtMs: start.atMs,
    startMassG: start.massG,
    atMs: start.atMs,
    belief: priorBelief(start.massG, weighingNoiseG2(start.massG, start.resolutionG ?? 1), spread),
  };
}

/** Takes one more weigh-in, later than the last: the new estimate and what this figure means. */
export function addWeighIn(
  estimate: MassEstimate,
  weighIn: WeighIn,
  climate: BoxClimate,
): { estimate: MassEstimate; judged: JudgedWeighIn } {
  if (!(weighIn.massG > 0)) throw new RangeError(`mass must be above 0 g, not ${weighIn.massG}`);
  if (weighIn.atMs < estimate.atMs) throw new RangeError('weigh-ins must be given in order of time');
  const exposed = exposure(climate, estimate.atMs, weighIn.atMs);
  const belief = predict(estimate.belief, exposed);
  const humidity = exposed.humidityAtEnd;
  const humidityStep =
    humidity !== undefined && estimate.lastHumidity !== undefined ? humidity - estimate.lastHumidity : 0;
  const { meanG, varianceG2 } = moments(belief);
  const noiseG2 = weighingNoiseG2(meanG, weighIn.resolutionG ?? 1, humidityStep);
  const sdG = Math.sqrt(varianceG2 + noiseG2);
  const offG = weighIn.massG - meanG;
  const expectedG: Spread = {
    low: quantileG(belief, 0.05, noiseG2),
    mid: meanG,
    high: quantileG(belief, 0.95, noiseG2),
  };
  const { pending, ...rest } = estimate;
  const moved = { ...rest, atMs: weighIn.atMs, ...(humidity === undefined ? {} : { lastHumidity: humidity }) };
  const judge = (next: MassEstimate, event?: MassEvent, worseG = weighIn.massG) => ({
    estimate: next,
    judged: {
      weighIn,
      expectedG,
      underExpected: weighIn.massG < expectedG.low,
      ...(event ? { event } : {}),
      weighAgain: next.pending !== undefined || event?.kind === 'wrong-unit',
      worseG: Math.min(worseG, meanG),
    },
  });
  const event = (kind: MassEventKind): MassEvent => ({ kind, stepG: offG, perhapsG: [] });

  if (weighIn.since)
    return judge({ ...moved, belief: shift(restart(belief, meanG), offG, noiseG2) }, event(weighIn.since));

  const fits = (expected: number, sd: number) =>
    Math.abs(weighIn.massG - expected) <= Math.max(EVENT_SDS * sd, LEAST_EVENT_SHARE * meanG);
  if (pending) {
    // The step course is known less well: the odd figure had its own noise.
    const stepSdG = Math.sqrt(varianceG2 + 2 * noiseG2);
    const onStep = fits(meanG + pending.stepG, stepSdG);
    if (onStep && Math.abs(offG - pending.stepG) < Math.abs(offG)) {
      const stepped = update(shift(belief, pending.stepG, noiseG2), weighIn.massG, noiseG2);
      return judge({ ...moved, belief: stepped }, { kind: 'step-confirmed', stepG: pending.stepG, perhapsG: [] });
    }
    if (fits(meanG, sdG))
      return judge(
        { ...moved, belief: learn(belief, weighIn.massG, offG, sdG, noiseG2) },
        { kind: 'misreading', stepG: pending.stepG, perhapsG: [] },
      );
  }
  if (fits(meanG, sdG)) {
    const gainG = weighIn.massG - moments(estimate.belief).meanG;
    const next = { ...moved, belief: learn(belief, weighIn.massG, offG, sdG, noiseG2) };
    return judge(next, gainG > SMALL_GAIN_SHARE * meanG ? event('small-gain') : undefined);
  }
  const slip = unitSlips(weighIn.massG, expectedG.low - EVENT_SDS * sdG, expectedG.high + EVENT_SDS * sdG)[0];
  if (slip && Math.abs(offG) > IMPOSSIBLE_CHANGE.value * meanG) {
    return judge(
      { ...moved, belief, ...(pending ? { pending } : {}) },
      { kind: 'wrong-unit', stepG: offG, perhapsG: [slip.massG], unit: slip.unit },
      slip.massG,
    );
  }
  const perhapsG = digitSlips(weighIn.massG, expectedG.low, expectedG.high).slice(0, 3);
  const kind = Math.abs(offG) > IMPOSSIBLE_CHANGE.value * meanG ? 'impossible' : offG < 0 ? 'drop' : 'rise';
  return judge(
    { ...moved, belief, pending: { atMs: weighIn.atMs, massG: weighIn.massG, stepG: offG } },
    { kind, stepG: offG, perhapsG },
  );
}

/** An unlikely but not impossible figure is believed less: its noise grows until it lies 2.5 standard deviations off. */
function learn(belief: Belief, massG: number, offG: number, sdG: number, noiseG2: number): Belief {
  const doubt = Math.abs(offG) / sdG > DOUBT_SDS ? (offG / DOUBT_SDS) ** 2 - sdG ** 2 : 0;
  return update(belief, massG, noiseG2 + Math.max(0, doubt));
}

/** Every node at the mean mass, without variance: what was believed of the mass is replaced by a fresh figure, k is kept. */
function restart(belief: Belief, meanG: number): Belief {
  return { weight: belief.weight, meanG: belief.meanG.map(() => meanG), varianceG2: belief.varianceG2.map(() => 0) };
}

/** The whole history at once: the first weigh-in starts the sleep, the others follow in order of time. */
export function estimateMass(
  weighIns: readonly WeighIn[],
  climate: BoxClimate,
  humidityMeasured: boolean,
): { estimate: MassEstimate; judged: JudgedWeighIn[] } {
  const [start, ...later] = weighIns;
  if (!start) throw new RangeError('an estimate begins with the starting weigh-in');
  let estimate = startMassEstimate(start, humidityMeasured);
  const judged: JudgedWeighIn[] = [];
  for (const weighIn of later) {
    const next = addWeighIn(estimate, weighIn, climate);
    estimate = next.estimate;
    judged.push(next.judged);
  }
  return { estimate, judged };
}

/** The present belief in figures a keeper can read. Ranges hold nine times in ten. */
export function massNow(estimate: MassEstimate): { massG: Spread; lossShare: Spread; timesUsual: Spread } {
  const massG = {
    low: quantileG(estimate.belief, 0.05),
    mid: quantileG(estimate.belief, 0.5),
    high: quantileG(estimate.belief, 0.95),
  };
  const loss = (g: number) => 1 - g / estimate.startMassG;
  const k = (share: number) => Math.exp(logRatioQuantile(estimate.belief, share));
  return {
    massG,
    lossShare: { low: loss(massG.high), mid: loss(massG.mid), high: loss(massG.low) },
    timesUsual: { low: k(0.05), mid: k(0.5), high: k(0.95) },
  };
}

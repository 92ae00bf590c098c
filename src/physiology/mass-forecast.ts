import { type BoxClimate, exposure } from './box-climate.ts';
import { LOSS_END_LIMIT, LOSS_PLAN_LIMIT } from './constants.ts';
import type { MassEstimate } from './mass-estimator.ts';
import { type Belief, blur, predict, probabilityUnder, quantileG } from './mass-filter.ts';

const DAY_MS = 86_400_000;
/** Air that is only expected: standard deviation of the logarithm of its deficit, kept for the whole forecast. */
const EXPECTED_AIR_LOG_SD = 0.1;

/** When a loss is reached, and how likely it is on each day of the forecast. */
interface LossLimit {
  /** Share of the starting mass. */
  readonly share: number;
  /** Probability that the loss has been reached, by day. */
  readonly probability: Float64Array;
  /** First day of the forecast on which the probability is at least 5, 50 and 95 %. Absent: not within the forecast. */
  readonly earlyMs?: number;
  readonly expectedMs?: number;
  readonly lateMs?: number;
}

/** True mass day by day: the middle half lies from p25 to p75, nine in ten from p05 to p95. Index 0 is the moment of the estimate. */
export interface MassForecast {
  readonly atMs: Float64Array;
  readonly p05G: Float64Array;
  readonly p25G: Float64Array;
  readonly p50G: Float64Array;
  readonly p75G: Float64Array;
  readonly p95G: Float64Array;
  /** 8 % (shorten the sleep) and 10 % (end it). */
  readonly limits: readonly [LossLimit, LossLimit];
}

/**
 * Forecast of the mass for `days` days from the estimate on, in air as `climate` expects it. When a weigh-in waits for its
 * second weighing the worse course is forecast.
 */
export function forecastMass(estimate: MassEstimate, climate: BoxClimate, days: number): MassForecast {
  const length = Math.max(0, Math.floor(days)) + 1;
  const atMs = Float64Array.from({ length }, (_, day) => estimate.atMs + day * DAY_MS);
  const bands = [0.05, 0.25, 0.5, 0.75, 0.95].map((share) => ({ share, massG: new Float64Array(length) }));
  const limits = [LOSS_PLAN_LIMIT.value, LOSS_END_LIMIT.value].map((share) => ({
    share,
    probability: new Float64Array(length),
  }));
  let belief = outset(estimate);
  for (let day = 0; day < length; day++) {
    if (day > 0) belief = predict(belief, exposure(climate, atMs[day - 1]!, atMs[day]!));
    for (const band of bands) band.massG[day] = quantileG(belief, band.share);
    for (const limit of limits) {
      const now = probabilityUnder(belief, (1 - limit.share) * estimate.startMassG);
      // A loss once reached stays reached.
      limit.probability[day] = Math.max(now, day > 0 ? limit.probability[day - 1]! : 0);
    }
  }
  const [p05, p25, p50, p75, p95] = bands.map((band) => band.massG);
  const [plan, end] = limits.map((limit): LossLimit => ({ ...limit, ...crossings(limit.probability, atMs) }));
  return { atMs, p05G: p05!, p25G: p25!, p50G: p50!, p75G: p75!, p95G: p95!, limits: [plan!, end!] };
}

function outset(estimate: MassEstimate): Belief {
  const belief = blur(estimate.belief, EXPECTED_AIR_LOG_SD);
  const step = estimate.pending?.stepG ?? 0;
  if (step >= 0) return belief;
  return { ...belief, meanG: belief.meanG.map((mean) => Math.max(1e-3, mean + step)) };
}

function crossings(probability: Float64Array, atMs: Float64Array): Omit<LossLimit, 'share' | 'probability'> {
  const first = (level: number) => {
    const day = probability.findIndex((p) => p >= level);
    return day < 0 ? undefined : atMs[day];
  };
  const [early, expected, late] = [first(0.05), first(0.5), first(0.95)];
  return {
    ...(early === undefined ? {} : { earlyMs: early }),
    ...(expected === undefined ? {} : { expectedMs: expected }),
    ...(late === undefined ? {} : { lateMs: late }),
  };
}

/**
 * The first instant, in whole days from the estimate, at which the upper end of the range that holds nine in ten has lost 8 % of
 * the starting mass: `limits[0].earlyMs` of the forecast, without the rest of it. Absent when not within `days`.
 */
export function planLimitMs(estimate: MassEstimate, climate: BoxClimate, days: number): number | undefined {
  const least = (1 - LOSS_PLAN_LIMIT.value) * estimate.startMassG;
  let belief = outset(estimate);
  for (let day = 0; day <= days; day++) {
    const atMs = estimate.atMs + day * DAY_MS;
    if (day > 0) belief = predict(belief, exposure(climate, atMs - DAY_MS, atMs));
    if (probabilityUnder(belief, least) >= 0.05) return atMs;
  }
  return undefined;
}

/**
 * The longest sleep, in whole days from its start, whose loss stays under 8 % of the starting mass at the upper end of the
 * range that holds nine in ten, at most `ceilingDays`. A fresh estimate answers for a sleep not yet begun.
 */
export function longestSleepDays(estimate: MassEstimate, climate: BoxClimate, ceilingDays: number): number {
  const sleptDays = Math.floor((estimate.atMs - estimate.startAtMs) / DAY_MS);
  const passesMs = planLimitMs(estimate, climate, ceilingDays - sleptDays);
  if (passesMs === undefined) return ceilingDays;
  const moreDays = Math.max(0, Math.round((passesMs - estimate.atMs) / DAY_MS) - 1);
  return Math.min(ceilingDays, sleptDays + moreDays);
}

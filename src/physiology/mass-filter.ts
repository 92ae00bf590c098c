import type { Exposure } from './box-climate.ts';
import { DAYS_PER_MONTH, LOG_K_DRIFT_PER_MONTH, WEEKLY_SCATTER } from './constants.ts';
import { evaporationM3S, USUAL_K_MS } from './water-loss.ts';

/**
 * Belief about one animal: for each value of k on a grid its probability, and for each the mean and variance of the true
 * mass. Given k the loss is linear, so each node carries an exact Kalman filter and no shape is forced on k. Plain arrays,
 * so that it can be kept as JSON.
 */
export interface Belief {
  readonly weight: readonly number[];
  readonly meanG: readonly number[];
  readonly varianceG2: readonly number[];
}

const NODES = 61;
const STEP = 0.1;
const MIDDLE = (NODES - 1) / 2;

/** ln(k / usual k) of a node: -3 to 3 in steps of 0.1. */
const logRatio = (node: number): number => (node - MIDDLE) * STEP;

const K_MS: readonly number[] = Array.from({ length: NODES }, (_, node) => USUAL_K_MS * Math.exp(logRatio(node)));

/** Belief before any weigh-in but the first: mass as weighed, ln k normal around the usual with standard deviation `logSpread`. */
export function priorBelief(massG: number, varianceG2: number, logSpread: number): Belief {
  const raw = Array.from({ length: NODES }, (_, node) => Math.exp(-0.5 * (logRatio(node) / logSpread) ** 2));
  const total = raw.reduce((sum, w) => sum + w, 0);
  return {
    weight: raw.map((w) => w / total),
    meanG: raw.map(() => massG),
    varianceG2: raw.map(() => varianceG2),
  };
}

/** ln k wanders by `logSd`: neighbours exchange probability and, by their moments, mass. */
function wander(belief: Belief, logSd: number): Belief {
  let current = belief;
  // Each pass moves at most a third of a node's weight to either side.
  const passes = Math.max(1, Math.ceil(logSd ** 2 / (2 * STEP ** 2) / (1 / 3)));
  const aside = logSd ** 2 / (2 * STEP ** 2) / passes;
  for (let pass = 0; pass < passes; pass++) current = exchange(current, aside);
  return current;
}

function exchange(belief: Belief, aside: number): Belief {
  const weight = new Array<number>(NODES);
  const meanG = new Array<number>(NODES);
  const varianceG2 = new Array<number>(NODES);
  for (let node = 0; node < NODES; node++) {
    const below = node === 0 ? 0 : node - 1;
    const above = node === NODES - 1 ? node : node + 1;
    const fromBelow = belief.weight[below]! * aside;
    const stays = belief.weight[node]! * (1 - 2 * aside);
    const fromAbove = belief.weight[above]! * aside;
    const total = fromBelow + stays + fromAbove;
    weight[node] = total;
    if (total < 1e-300) {
      meanG[node] = belief.meanG[node]!;
      varianceG2[node] = belief.varianceG2[node]!;
      continue;
    }
    const mean =
      (fromBelow * belief.meanG[below]! + stays * belief.meanG[node]! + fromAbove * belief.meanG[above]!) / total;
    const second = (i: number, w: number) => w * (belief.varianceG2[i]! + (belief.meanG[i]! - mean) ** 2);
    meanG[node] = mean;
    varianceG2[node] = (second(below, fromBelow) + second(node, stays) + second(above, fromAbove)) / total;
  }
  return { weight, meanG, varianceG2 };
}

/** Belief after an exposure without a weigh-in. */
export function predict(belief: Belief, exposed: Exposure): Belief {
  if (exposed.days === 0) return belief;
  const wandered = wander(belief, LOG_K_DRIFT_PER_MONTH.value * Math.sqrt(exposed.days / DAYS_PER_MONTH));
  const weeks = exposed.days / 7;
  const meanG = new Array<number>(NODES);
  const varianceG2 = new Array<number>(NODES);
  for (let node = 0; node < NODES; node++) {
    const massG = wandered.meanG[node]!;
    const lossG = 1000 * evaporationM3S(Math.max(massG, 0) / 1000, K_MS[node]!) * exposed.deficitKgSM3;
    meanG[node] = massG - lossG;
    varianceG2[node] = wandered.varianceG2[node]! + (WEEKLY_SCATTER.value * lossG) ** 2 / weeks;
  }
  return { weight: wandered.weight, meanG, varianceG2 };
}

/** ln k becomes less certain by `logSd`, for air that is only expected. */
export const blur = (belief: Belief, logSd: number): Belief => (logSd > 0 ? wander(belief, logSd) : belief);

/** Belief after weighing `massG` with noise of `noiseG2`. */
export function update(belief: Belief, massG: number, noiseG2: number): Belief {
  const log = new Array<number>(NODES);
  let most = Number.NEGATIVE_INFINITY;
  for (let node = 0; node < NODES; node++) {
    const spread = belief.varianceG2[node]! + noiseG2;
    const off = massG - belief.meanG[node]!;
    log[node] = Math.log(belief.weight[node]! + 1e-300) - 0.5 * (Math.log(spread) + (off * off) / spread);
    if (log[node]! > most) most = log[node]!;
  }
  let total = 0;
  for (let node = 0; node < NODES; node++) total += Math.exp(log[node]! - most);
  return {
    weight: log.map((value) => Math.exp(value - most) / total),
    meanG: belief.meanG.map((mean, node) => {
      const gain = belief.varianceG2[node]! / (belief.varianceG2[node]! + noiseG2);
      return mean + gain * (massG - mean);
    }),
    varianceG2: belief.varianceG2.map((variance) => (variance * noiseG2) / (variance + noiseG2)),
  };
}

/** The whole belief moved by `stepG` (urine, a drink, another scale), less certain by `noiseG2`. */
export function shift(belief: Belief, stepG: number, noiseG2: number): Belief {
  return {
    weight: belief.weight,
    meanG: belief.meanG.map((mean) => mean + stepG),
    varianceG2: belief.varianceG2.map((variance) => variance + noiseG2),
  };
}

/** Mean and variance of the mass over all nodes. */
export function moments(belief: Belief): { meanG: number; varianceG2: number } {
  let meanG = 0;
  for (let node = 0; node < NODES; node++) meanG += belief.weight[node]! * belief.meanG[node]!;
  let varianceG2 = 0;
  for (let node = 0; node < NODES; node++)
    varianceG2 += belief.weight[node]! * (belief.varianceG2[node]! + (belief.meanG[node]! - meanG) ** 2);
  return { meanG, varianceG2 };
}

/** Probability that the mass (plus `noiseG2` of weighing) is at or under `massG`. */
export function probabilityUnder(belief: Belief, massG: number, noiseG2 = 0): number {
  let sum = 0;
  for (let node = 0; node < NODES; node++) {
    const weight = belief.weight[node]!;
    if (weight > 1e-12)
      sum += weight * normalShareUnder((massG - belief.meanG[node]!) / Math.sqrt(belief.varianceG2[node]! + noiseG2));
  }
  return Math.min(1, sum);
}

/** The mass under which the animal is with probability `share`, by halving. */
export function quantileG(belief: Belief, share: number, noiseG2 = 0): number {
  const { meanG, varianceG2 } = moments(belief);
  const reach = 12 * Math.sqrt(varianceG2 + noiseG2) + 1e-9;
  let low = meanG - reach;
  let high = meanG + reach;
  for (let i = 0; i < 60 && high - low > 1e-4; i++) {
    const middle = (low + high) / 2;
    if (probabilityUnder(belief, middle, noiseG2) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** ln(k / usual k) under which the animal lies with probability `share`, straight between nodes. */
export function logRatioQuantile(belief: Belief, share: number): number {
  let sum = 0;
  for (let node = 0; node < NODES; node++) {
    const next = sum + belief.weight[node]!;
    if (next >= share) return logRatio(node) + STEP * ((share - sum) / belief.weight[node]! - 0.5);
    sum = next;
  }
  return logRatio(NODES - 1);
}

/** Standard normal distribution function, to 1e-7 (Abramowitz and Stegun 1964, 26.2.17). */
function normalShareUnder(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    0.3989422804014327 *
    Math.exp(-0.5 * z * z) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z >= 0 ? 1 - tail : tail;
}

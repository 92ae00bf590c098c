/**
 * Calibration: the few free factors of a place and its box from a dry run's readings, at any spacing, from several probes, with
 * max-min readings as constraints on a window. What the readings cannot tell is refused, with the reason.
 */
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { figure, temperatureDifference } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import { calibrationFactors, type FactorId, thermometer } from './calibration-data.ts';
import {
  type CalibratedHouse,
  type CalibrationReadings,
  extremeOver,
  grids,
  interpolate,
  type MaxMinReading,
  type ProbeReadings,
} from './calibration-readings.ts';
import { meanOf, rangeDuring, unusable, whyNot } from './calibration-refusals.ts';
import { type CorrectedCovariance, correctedCovariance, type ResidualRun } from './correlated-errors.ts';
import { dot, inverseNormal, type LeastSquaresFit, leastSquares } from './least-squares.ts';

interface FittedFactor {
  readonly id: FactorId;
  /** Factor on the described value. */
  readonly value: number;
  /** 90 % interval, corrected for residuals that follow one another. */
  readonly low: number;
  readonly high: number;
  /** Standard error of the natural logarithm of the factor, and how many times too small it would be if readings were independent. */
  readonly logError: number;
  readonly inflation: number;
}

export interface Calibration {
  readonly outcome: 'calibrated';
  readonly factors: readonly FittedFactor[];
  /** What the readings could not tell, and why; such factors stay near their description. */
  readonly untold: readonly { readonly id: FactorId; readonly reason: Message }[];
  /** Values for `predict` of the house fitted: factors, offsets. */
  readonly values: Float64Array;
  /** Covariance of the logarithms of the factors, then of the offsets, in the order of the house. */
  readonly covariance: readonly (readonly number[])[];
  /** By probe with point readings: standard deviation of what is left, K; NaN for others. */
  readonly residualSdK: readonly number[];
  /** Time over which what is left hangs together, s. */
  readonly memoryS: number;
  /** Independent residuals the readings are worth. */
  readonly freedom: number;
  /** Fitted without the last third and tried on it: root mean square and mean error, K; absent without enough point readings. */
  readonly holdOut?: { readonly rmsK: number; readonly biasK: number; readonly readings: number };
  readonly readings: number;
}

export interface CalibrationRefused {
  readonly outcome: 'refused';
  readonly reasons: readonly Message[];
}

/**
 * What is known before the readings. `described`: the description, as well as such descriptions hold; factors the readings cannot tell stay
 * near it. `stated`: nothing; every factor must be found by the readings alone, or the calibration is refused.
 */
export type CalibrationPrior = 'described' | 'stated';

/** Calibrates `house` by `readings`. */
export function calibrate(
  house: CalibratedHouse,
  readings: CalibrationReadings,
  prior: CalibrationPrior = 'described',
): Calibration | CalibrationRefused {
  const wrong = unusable(house, readings);
  if (wrong) return { outcome: 'refused', reasons: [wrong] };
  const fitted = fitFactors(house, readings, prior);
  const reasons = 'reason' in fitted ? [fitted.reason] : suspicious(house, readings, prior, fitted);
  if ('reason' in fitted || reasons.length > 0) return { outcome: 'refused', reasons };
  return conclude(house, readings, prior, fitted);
}

interface Fitted {
  readonly fit: LeastSquaresFit;
  /** Values for `predict`. */
  readonly values: Float64Array;
  readonly corrected: CorrectedCovariance;
  /** Standard deviations of the probes used as weights, K. */
  readonly weights: readonly number[];
  readonly runs: readonly ResidualRun[];
  readonly points: number;
}

/** Readings that follow one another count as fewer: first guess, and what each round finds. */
const FIRST_REDUNDANCY = 10;

function fitFactors(
  house: CalibratedHouse,
  readings: CalibrationReadings,
  prior: CalibrationPrior,
  from?: Float64Array,
): Fitted | { readonly reason: Message } {
  const points = readings.points.filter((one) => one.atS.length > 0);
  const pointCount = points.reduce((sum, one) => sum + one.atS.length, 0);
  const factorCount = house.factors.length;
  const count = factorCount + house.offsets.length;
  const priorSds = [
    ...house.factors.map((id) =>
      prior === 'described' ? calibrationFactors[id].priorLogSd : Number.POSITIVE_INFINITY,
    ),
    ...house.offsets.map((one) => one.sdK),
  ];
  const held = priorSds.flatMap((sd, p) => (Number.isFinite(sd) ? [p] : []));
  const dataRows = pointCount + 2 * readings.spans.length;
  // With point readings a max-min reading is a fence: nothing within its tolerance, a pull beyond. Alone, its middle is the reading.
  const fence = pointCount >= thermometer.leastReadings;
  const predicted = grids(house);
  const values = new Float64Array(count);
  const place = (parameters: Float64Array) => {
    for (let p = 0; p < count; p++) values[p] = p < factorCount ? Math.exp(parameters[p]!) : parameters[p]!;
    return values;
  };
  let weights: number[] = Array.from({ length: house.probes }, () => 0.5);
  let redundancy = prior === 'described' ? FIRST_REDUNDANCY : 1;
  const evaluate = (parameters: Float64Array, out: Float64Array) => {
    house.predict(place(parameters), predicted);
    const thin = 1 / Math.sqrt(redundancy);
    let row = 0;
    for (const { probe, atS, tempC } of points) {
      const grid = predicted[probe]!;
      const weight = thin / weights[probe]!;
      for (let i = 0; i < atS.length; i++) out[row++] = (interpolate(house, grid, atS[i]!) - tempC[i]!) * weight;
    }
    for (const span of readings.spans)
      for (const side of [1, -1] as const) {
        const miss = extremeOver(house, predicted[span.probe]!, span, side) - (side > 0 ? span.maxC : span.minC);
        const beyond = fence ? Math.sign(miss) * Math.max(0, Math.abs(miss) - thermometer.maxMinToleranceK) : miss;
        out[row++] = beyond / thermometer.maxMinToleranceK;
      }
    for (const p of held) out[row++] = parameters[p]! / priorSds[p]!;
  };
  const low = [...house.factors.map((id) => Math.log(calibrationFactors[id].low)), ...house.offsets.map(() => -30)];
  const high = [...house.factors.map((id) => Math.log(calibrationFactors[id].high)), ...house.offsets.map(() => 30)];
  const runs = residualRuns(points);
  const spanRuns = [spanRun(readings.spans)];
  const rounds = prior === 'described' ? 3 : new Set(points.map((one) => one.probe)).size > 1 ? 2 : 1;
  let start: ArrayLike<number> = from ?? new Float64Array(count);
  let fitted: Fitted | undefined;
  for (let round = 0; round < rounds; round++) {
    const fit = leastSquares({
      start,
      low,
      high,
      residuals: dataRows + held.length,
      evaluate,
      stepOf: () => 1e-3,
      tolerance: round + 1 < rounds ? 1e-3 : prior === 'described' ? 1e-6 : 1e-12,
    });
    start = fit.parameters;
    const vague = prior === 'stated' ? unseparated(house, readings, fit) : undefined;
    if (vague) return { reason: vague };
    const data = fence ? pointCount : dataRows;
    const corrected = correctedCovariance(
      unthinned(fit.residuals.subarray(0, data), redundancy),
      fit.jacobian.map((column) => unthinned(column.subarray(0, data), redundancy)),
      inverseNormal(activeColumns(fit.jacobian)),
      fence ? runs : spanRuns,
      { redundancy, priorSds },
    );
    fitted = { fit, values: place(fit.parameters).slice(), corrected, weights: [...weights], runs, points: pointCount };
    if (round + 1 < rounds) {
      weights = probeSds(points, unthinned(fit.residuals, redundancy), weights);
      if (prior === 'described' && fence) redundancy = corrected.redundancy;
    }
  }
  return fitted!;
}

/** Residuals or derivatives as they are when each reading counts whole. */
const unthinned = (values: Float64Array, redundancy: number) => values.map((value) => value * Math.sqrt(redundancy));

/** A start that has faded before the first reading moves nothing; a whisper of a column keeps the algebra whole. */
function activeColumns(jacobian: readonly Float64Array[]): Float64Array[] {
  return jacobian.map((column) => {
    if (column.some((value) => value !== 0)) return column;
    const whisper = new Float64Array(column.length);
    whisper[0] = 1e-6;
    return whisper;
  });
}

const spanRun = (spans: readonly MaxMinReading[]): ResidualRun => ({
  atS: Float64Array.from(spans.flatMap((span) => [span.toS - 1, span.toS])),
  from: 0,
  count: 2 * spans.length,
});

/** Where each probe's residuals lie in the whole vector. `atS` is spread over the whole so that runs share one index. */
function residualRuns(points: readonly ProbeReadings[]): ResidualRun[] {
  const all = new Float64Array(points.reduce((sum, one) => sum + one.atS.length, 0));
  let from = 0;
  return points.map((one) => {
    all.set(one.atS, from);
    const run = { atS: all, from, count: one.atS.length };
    from += one.atS.length;
    return run;
  });
}

function probeSds(points: readonly ProbeReadings[], residuals: Float64Array, weights: readonly number[]): number[] {
  const sds = [...weights];
  let row = 0;
  for (const { probe, atS } of points) {
    let sum = 0;
    for (let i = 0; i < atS.length; i++) sum += (residuals[row++]! * weights[probe]!) ** 2;
    sds[probe] = Math.max(Math.sqrt(sum / Math.max(atS.length, 1)), thermometer.resolutionK);
  }
  return sds;
}

/** Why the readings alone cannot tell every factor from every other; undefined when they can. */
function unseparated(house: CalibratedHouse, readings: CalibrationReadings, fit: LeastSquaresFit): Message | undefined {
  const factorCount = house.factors.length;
  const sizes = fit.jacobian.map((column) => Math.sqrt(column.reduce((sum, value) => sum + value * value, 0)));
  const largest = Math.max(...sizes);
  for (let p = 0; p < factorCount; p++)
    if (!(sizes[p]! > 1e-7 * largest)) return whyNot(house, readings, [house.factors[p]!]);
  const active = sizes.flatMap((size, p) => (size > 1e-7 * largest ? [p] : []));
  const scaled = new Matrix(active.length, active.length);
  active.forEach((p, i) => {
    active.forEach((q, j) => {
      scaled.set(i, j, dot(fit.jacobian[p]!, fit.jacobian[q]!) / (sizes[p]! * sizes[q]!));
    });
  });
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(scaled, { assumeSymmetric: true });
  const weakest = realEigenvalues.indexOf(Math.min(...realEigenvalues));
  if (realEigenvalues[weakest]! >= thermometer.leastDistinct) return undefined;
  const ids = active
    .map((p, i) => ({ p, size: Math.abs(eigenvectorMatrix.get(i, weakest)) }))
    .filter(({ p, size }) => p < factorCount && size > 0.2)
    .sort((a, b) => b.size - a.size)
    .map(({ p }) => house.factors[p]!);
  return ids.length > 0 ? whyNot(house, readings, ids) : undefined;
}

/** Why a fit that came out says something no house could be, or too vaguely to use. */
function suspicious(
  house: CalibratedHouse,
  readings: CalibrationReadings,
  prior: CalibrationPrior,
  fitted: Fitted,
): Message[] {
  const sds = residualSds(readings.points, fitted);
  for (const { probe, tempC } of readings.points) {
    const left = sds[probe]!;
    const mean = meanOf(tempC, 0);
    const spread = Math.sqrt(tempC.reduce((sum, value) => sum + (value - mean) ** 2, 0) / tempC.length);
    if (left > thermometer.worstResidualK || (left > 1 && left > 0.8 * spread && rangeDuring(house, readings) > 5))
      return [message('heat.calibration.does-not-follow', { left: temperatureDifference(left) })];
  }
  const far = house.factors.findIndex(
    (id, p) =>
      fitted.fit.atBound[p] ||
      (prior === 'described' &&
        Math.abs(fitted.fit.parameters[p]!) > thermometer.beyondBelief * calibrationFactors[id].priorLogSd),
  );
  if (far >= 0)
    return [
      message('heat.calibration.beyond-belief', {
        name: calibrationFactors[house.factors[far]!].name,
        factor: figure(fitted.values[far]!, 2),
      }),
    ];
  const untold = untoldFactors(house, readings, prior, fitted);
  if (prior === 'stated' ? untold.length > 0 : untold.length === house.factors.length)
    return [...new Map(untold.map(({ reason }) => [`${reason.key}${reason.values?.name}`, reason])).values()];
  return [];
}

/** Factors about which the readings say little, with the reason. */
function untoldFactors(
  house: CalibratedHouse,
  readings: CalibrationReadings,
  prior: CalibrationPrior,
  fitted: Fitted,
): { id: FactorId; reason: Message }[] {
  return house.factors.flatMap((id, p) => {
    const error = Math.sqrt(fitted.corrected.covariance.get(p, p));
    const most =
      prior === 'stated' ? thermometer.vagueLogError : thermometer.toldShare * calibrationFactors[id].priorLogSd;
    return error > most ? [{ id, reason: whyNot(house, readings, [id]) }] : [];
  });
}

function residualSds(points: readonly ProbeReadings[], fitted: Fitted): number[] {
  const sds = fitted.weights.map(() => Number.NaN);
  points
    .filter((one) => one.atS.length > 0)
    .forEach(({ probe }, k) => {
      const { from, count } = fitted.runs[k]!;
      let sum = 0;
      for (let i = from; i < from + count; i++) sum += (fitted.fit.residuals[i]! * fitted.weights[probe]!) ** 2;
      const all = fitted.fit.residuals.subarray(0, fitted.points);
      const raw = all.reduce((a, b) => a + b * b, 0) / Math.max(fitted.points, 1);
      const correction = raw > 0 ? fitted.corrected.variance / raw : 1;
      sds[probe] = Math.sqrt((sum / Math.max(count, 1)) * correction);
    });
  return sds;
}

function conclude(
  house: CalibratedHouse,
  readings: CalibrationReadings,
  prior: CalibrationPrior,
  fitted: Fitted,
): Calibration {
  const { covariance, inflation, memory, freedom } = fitted.corrected;
  const holdOut = tryOnLastThird(house, readings, prior, fitted);
  return {
    outcome: 'calibrated',
    factors: house.factors.map((id, p) => {
      const logError = Math.sqrt(covariance.get(p, p));
      const value = fitted.values[p]!;
      return {
        id,
        value,
        low: value * Math.exp(-1.645 * logError),
        high: value * Math.exp(1.645 * logError),
        logError,
        inflation: inflation[p]!,
      };
    }),
    untold: untoldFactors(house, readings, prior, fitted),
    values: fitted.values,
    covariance: covariance.to2DArray(),
    residualSdK: residualSds(readings.points, fitted),
    memoryS: memory.timeS,
    freedom,
    ...(holdOut ? { holdOut } : {}),
    readings: readings.points.reduce((sum, one) => sum + one.atS.length, 0) + readings.spans.length,
  };
}

/** Fits on the first two thirds of the point readings and compares on the rest. */
function tryOnLastThird(
  house: CalibratedHouse,
  { points }: CalibrationReadings,
  prior: CalibrationPrior,
  whole: Fitted,
): Calibration['holdOut'] {
  const used = points.filter((one) => one.atS.length >= 12);
  if (used.length === 0) return undefined;
  const first = Math.min(...used.map((one) => one.atS[0]!));
  const last = Math.max(...used.map((one) => one.atS.at(-1)!));
  const cut = first + ((last - first) * 2) / 3;
  const head = used.map((one) => {
    const end = one.atS.findIndex((atS) => atS > cut);
    const to = end < 0 ? one.atS.length : end;
    return { probe: one.probe, atS: one.atS.slice(0, to), tempC: one.tempC.slice(0, to) };
  });
  const fitted = fitFactors(house, { points: head, spans: [] }, prior, whole.fit.parameters);
  if ('reason' in fitted) return undefined;
  const predicted = grids(house);
  house.predict(fitted.values, predicted);
  let sum = 0;
  let square = 0;
  let count = 0;
  used.forEach(({ probe, atS, tempC }, k) => {
    for (let i = head[k]!.atS.length; i < atS.length; i++) {
      const miss = interpolate(house, predicted[probe]!, atS[i]!) - tempC[i]!;
      sum += miss;
      square += miss * miss;
      count += 1;
    }
  });
  return count > 0 ? { rmsK: Math.sqrt(square / count), biasK: sum / count, readings: count } : undefined;
}

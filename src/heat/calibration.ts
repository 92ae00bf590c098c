/**
 * Calibration: the few free factors of a place and its box from a dry run's readings, at any spacing, from several probes, with
 * max-min readings as constraints on a window. What the readings cannot tell is refused, with the reason.
 */
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { figure, temperatureDifference } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import { calibrationFactors, type FactorId, thermometer } from './calibration-data.ts';
import { type CorrectedCovariance, correctedCovariance, type ResidualRun } from './correlated-errors.ts';
import { dot, inverseNormal, type LeastSquaresFit, leastSquares } from './least-squares.ts';

/** A house whose temperatures can be computed for any values of its free parameters. */
export interface CalibratedHouse {
  /** Factors on the described values; all above 0. */
  readonly factors: readonly FactorId[];
  /**
   * Temperatures fitted beside the factors, K: starts, soon forgotten, and lasting differences, which go into forecasts. `sdK` is what they
   * may be before any reading; Infinity: anything.
   */
  readonly offsets: readonly { readonly sdK: number; readonly lasting: boolean }[];
  readonly probes: number;
  /** Grid of the prediction, s from the start of the readings' clock; may begin before the first reading. */
  readonly fromS: number;
  readonly stepS: number;
  readonly samples: number;
  /** Temperatures by probe on the grid for `values`: the factors in their order, then the offsets. */
  readonly predict: (values: Float64Array, out: readonly Float64Array[]) => void;
  /** Outdoors on the same grid, °C, to tell why a factor could not be found. */
  readonly outsideC: Float64Array;
  /** Sun on the same grid, W/m2; left out: no sun in this case. */
  readonly sunWm2?: Float64Array;
}

export interface ProbeReadings {
  readonly probe: number;
  /** Seconds on the clock of the house, rising. */
  readonly atS: Float64Array;
  readonly tempC: Float64Array;
}

/** What a max-min thermometer showed when it was reset at `toS`: the warmest and coldest since `fromS`. */
export interface MaxMinReading {
  readonly probe: number;
  readonly fromS: number;
  readonly toS: number;
  readonly maxC: number;
  readonly minC: number;
}

export interface CalibrationReadings {
  readonly points: readonly ProbeReadings[];
  readonly spans: readonly MaxMinReading[];
}

export interface FittedFactor {
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

/** Checks that need no fit. */
function unusable(house: CalibratedHouse, { points, spans }: CalibrationReadings): Message | undefined {
  const count = points.reduce((sum, one) => sum + one.atS.length, 0);
  if (count < thermometer.leastReadings && spans.length < thermometer.leastSpans)
    return message('heat.calibration.too-few', {
      count: figure(count),
      least: figure(thermometer.leastReadings),
      spans: figure(thermometer.leastSpans),
    });
  const starts = [...points.map((one) => one.atS[0] ?? Number.POSITIVE_INFINITY), ...spans.map((one) => one.fromS)];
  const ends = [...points.map((one) => one.atS.at(-1) ?? Number.NEGATIVE_INFINITY), ...spans.map((one) => one.toS)];
  const from = Math.min(...starts);
  const to = Math.max(...ends);
  if (to - from < thermometer.leastSpanS)
    return message('heat.calibration.too-short', {
      hours: figure((to - from) / 3600),
      least: figure(thermometer.leastSpanS / 3600),
    });
  const gridTo = house.fromS + (house.samples - 1) * house.stepS;
  if (from < house.fromS - 1 || to > gridTo + 1) return message('heat.calibration.no-weather');
  for (const { maxC, minC, fromS, toS } of spans)
    if (maxC < minC || !(toS > fromS)) return message('heat.calibration.max-under-min');
  for (const { atS } of points)
    for (let i = 1; i < atS.length; i++) if (!(atS[i]! > atS[i - 1]!)) return message('heat.calibration.order');
  return contradiction(house, { points, spans });
}

/**
 * Readings warmer (or colder) through their second half than the least loss, the most sun and a start as read could make them.
 */
function contradiction(house: CalibratedHouse, { points }: CalibrationReadings): Message | undefined {
  const predicted = grids(house);
  for (const side of [1, -1] as const)
    for (const { probe, atS, tempC } of points) {
      const half = Math.floor(atS.length / 2);
      if (half < 2) continue;
      const extreme = Float64Array.from({ length: house.factors.length + house.offsets.length }, (_, p) => {
        const id = house.factors[p];
        return id ? calibrationFactors[id].extreme[side > 0 ? 'warmest' : 'coldest'] : 0;
      });
      house.predict(extreme, predicted);
      const ahead = tempC[0]! - interpolate(house, predicted[probe]!, atS[0]!);
      if (side * ahead > 0) extreme.fill(ahead, house.factors.length);
      house.predict(extreme, predicted);
      let over = 0;
      for (let i = half; i < atS.length; i++) over += tempC[i]! - interpolate(house, predicted[probe]!, atS[i]!);
      over = (side * over) / (atS.length - half);
      if (over > thermometer.contradictionK)
        return message(side > 0 ? 'heat.calibration.too-warm' : 'heat.calibration.too-cold', {
          over: temperatureDifference(over),
        });
    }
  return undefined;
}

const meanOf = (values: Float64Array, from: number) =>
  values.subarray(from).reduce((a, b) => a + b, 0) / (values.length - from);

const grids = (house: CalibratedHouse) => Array.from({ length: house.probes }, () => new Float64Array(house.samples));

/** Value of a grid at `atS`, straight between samples. */
function interpolate(house: CalibratedHouse, grid: Float64Array, atS: number): number {
  const position = Math.min(Math.max((atS - house.fromS) / house.stepS, 0), house.samples - 1);
  const index = Math.min(Math.floor(position), house.samples - 2);
  return grid[index]! + (position - index) * (grid[index + 1]! - grid[index]!);
}

/** Highest or lowest of a grid over a window, its ends included. */
function extremeOver(house: CalibratedHouse, grid: Float64Array, span: MaxMinReading, side: 1 | -1): number {
  let best = Math.max(side * interpolate(house, grid, span.fromS), side * interpolate(house, grid, span.toS));
  const first = Math.ceil((span.fromS - house.fromS) / house.stepS);
  const last = Math.floor((span.toS - house.fromS) / house.stepS);
  for (let i = Math.max(first, 0); i <= Math.min(last, house.samples - 1); i++)
    if (side * grid[i]! > best) best = side * grid[i]!;
  return side * best;
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

/** Why the readings cannot tell these factors. */
function whyNot(house: CalibratedHouse, readings: CalibrationReadings, ids: readonly FactorId[]): Message {
  const names = ids.map((id) => calibrationFactors[id].name);
  if (ids.includes('sun') && !(house.sunWm2 ?? new Float64Array(0)).some((value) => value > 1))
    return message('heat.calibration.no-sun');
  if (rangeDuring(house, readings) < thermometer.leastOutsideRangeK)
    return message('heat.calibration.outside-constant');
  if (ids.includes('airChange') && ids.includes('loss')) return message('heat.calibration.loss-and-air');
  return ids.length > 1
    ? message('heat.calibration.cannot-tell-apart', { first: names[0]!, second: names[1]! })
    : message('heat.calibration.cannot-tell', { name: names[0]! });
}

function rangeDuring(house: CalibratedHouse, { points, spans }: CalibrationReadings): number {
  const from = Math.min(...points.map((one) => one.atS[0] ?? Infinity), ...spans.map((one) => one.fromS));
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < house.samples; i++) {
    if (house.fromS + i * house.stepS < from - 86_400) continue;
    low = Math.min(low, house.outsideC[i]!);
    high = Math.max(high, house.outsideC[i]!);
  }
  return high - low;
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

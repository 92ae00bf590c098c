/**
 * The next 72 hours in the box: a Kalman filter on the box's own network takes in the last two days of readings, then the network runs on
 * under the forecast of the weather. Beside the network's modes the state holds what the model does not know: a slowly wandering
 * difference of the air beside the box, and the lasting offset of each probe.
 */
import { settledTemperatures } from './calibration-exact.ts';
import { kalmanState, outlook, predictStep, takeReading } from './kalman.ts';
import { findModes, type Modes } from './modes.ts';
import type { Network } from './network.ts';
import { linearHold } from './run.ts';

export interface StateForecastModel {
  readonly network: Network;
  /** Temperature inputs that the unknown difference moves (air beside the box, floor). */
  readonly airInputs: readonly number[];
  /** Node forecast for: the animal. */
  readonly animalNode: number;
  /** Node of each probe. */
  readonly probeNodes: readonly number[];
}

export interface RecentReading {
  readonly probe: number;
  /** Seconds on the clock of the inputs. */
  readonly atS: number;
  readonly tempC: number;
}

export interface StateForecastInput {
  /** Inputs of the network every `stepS` from 0: past as known, future as forecast; one value where it never changes. */
  readonly inputs: readonly ArrayLike<number>[];
  readonly stepS: number;
  /** The present, s: readings later than this are not used. */
  readonly nowS: number;
  readonly aheadS?: number;
  readonly readings: readonly RecentReading[];
  /** How far the model is off, from a calibration where there is one. */
  readonly uncertainty?: {
    /** Lasting standard deviation of the difference of the air beside the box, K, and the time over which it wanders, s. */
    readonly airSdK?: number;
    readonly airTimeS?: number;
    readonly probeOffsetSdK?: number;
    readonly readingSdK?: number;
    /** Error of the weather forecast: standard deviation at 24 h, K; grows as the root of the lead time. */
    readonly weatherSdK24h?: number;
  };
}

export interface StateForecast {
  /** Instants of the forecast, s: every step from now. */
  readonly atS: Float64Array;
  readonly meanC: Float64Array;
  readonly sdK: Float64Array;
  readonly low90C: Float64Array;
  readonly high90C: Float64Array;
  /** Readings taken in, and those set aside because no state could explain them. */
  readonly used: number;
  readonly setAside: readonly RecentReading[];
  /** Expected surprise of a reading is 1: much more means a model that does not fit. */
  readonly meanSquaredSurprise: number;
}

const usual = {
  airSdK: 1,
  airTimeS: 12 * 3600,
  probeOffsetSdK: 0.3,
  readingSdK: 0.15,
  // Hourly 2 m temperature forecasts of weather services: about 1.5 K at a day (common practice, no source).
  weatherSdK24h: 1.5,
} as const;

/** A surprise this many standard deviations from what was expected is set aside: a slip of the pen, or a probe out of its box. */
const WILD = 5;
const TWO_SIDED_90 = 1.645;

/** Forecast from `nowS`. Throws RangeError when the inputs do not reach `nowS` and the time ahead, or there is no reading. */
export function forecastFromState(model: StateForecastModel, given: StateForecastInput): StateForecast {
  const { inputs, stepS, nowS, aheadS = 72 * 3600 } = given;
  const unknown = { ...usual, ...given.uncertainty };
  const samples = inputs.reduce((most, input) => Math.max(most, input.length), 1);
  if ((samples - 1) * stepS < nowS + aheadS - 1e-6)
    throw new RangeError('the weather forecast does not reach the end of the time asked for');
  const readings = given.readings.filter((one) => one.atS <= nowS && one.atS >= 0).sort((a, b) => a.atS - b.atS);
  if (readings.length === 0) throw new RangeError('a forecast from readings needs at least one reading before now');

  const modes = findModes(model.network);
  const m = modes.rates.length;
  const probes = model.probeNodes.length;
  // State: modes, wandering difference, one offset for each probe.
  const size = m + 1 + probes;
  const away = m;
  const at = (k: number) =>
    inputs.map((input) => (input.length === 1 ? input[0]! : input[Math.min(k, input.length - 1)]!));
  const settled = settledTemperatures(modes, at(0));
  const mean = new Float64Array(size);
  const variances = new Float64Array(size);
  for (let i = 0; i < m; i++) {
    let z = 0;
    let reach = 0;
    for (let node = 0; node < modes.nodeCount; node++) {
      z += modes.projection[i * modes.nodeCount + node]! * settled[node]!;
      reach += modes.projection[i * modes.nodeCount + node]!;
    }
    mean[i] = z;
    // The box may start 4 K from rest as a whole, and each mode 1 K on its own.
    variances[i] = (4 * reach) ** 2 + modeScale(modes, i) ** 2;
  }
  variances[away] = unknown.airSdK ** 2;
  for (let p = 0; p < probes; p++) variances[away + 1 + p] = unknown.probeOffsetSdK ** 2;
  const state = kalmanState(mean, variances);

  const h = (node: number, probe: number) => {
    const row = new Float64Array(size);
    for (let i = 0; i < m; i++) row[i] = modes.shapes[node * m + i]!;
    for (const input of model.airInputs) row[away]! += modes.direct[node * modes.inputCount + input]!;
    if (probe >= 0) row[away + 1 + probe] = 1;
    return row;
  };
  const probeRows = model.probeNodes.map(h);
  const animalRow = h(model.animalNode, -1);
  const directPart = (node: number, u: readonly number[]) =>
    u.reduce((sum, value, j) => sum + modes.direct[node * modes.inputCount + j]! * value, 0);

  const advance = (spanS: number, from: readonly number[], to: readonly number[], airSdK: number) => {
    const { transition, noise } = stepMatrices(modes, model.airInputs, spanS, unknown.airTimeS, airSdK, size);
    const push = new Float64Array(size);
    for (let i = 0; i < m; i++) {
      const { early, late } = linearHold(modes.rates[i]!, spanS);
      for (let j = 0; j < from.length; j++)
        push[i]! += modes.drives[i * modes.inputCount + j]! * (early * from[j]! + late * to[j]!);
    }
    predictStep(state, transition, push, noise);
  };
  const between = (atS: number) => {
    const k = Math.min(Math.floor(atS / stepS), samples - 1);
    const share = atS / stepS - k;
    const [a, b] = [at(k), at(k + 1)];
    return a.map((value, j) => value + share * (b[j]! - value));
  };

  let clock = 0;
  let used = 0;
  let surprises = 0;
  const setAside: RecentReading[] = [];
  const goTo = (untilS: number, airSdK: number) => {
    while (clock < untilS - 1e-9) {
      const next = Math.min(untilS, (Math.floor(clock / stepS + 1e-9) + 1) * stepS);
      advance(next - clock, between(clock), between(next), airSdK);
      clock = next;
    }
  };
  for (const reading of readings) {
    goTo(reading.atS, unknown.airSdK);
    const row = probeRows[reading.probe]!;
    const tempC = reading.tempC - directPart(model.probeNodes[reading.probe]!, between(reading.atS));
    const expected = outlook(state, row);
    const variance = expected.variance + unknown.readingSdK ** 2;
    const ratio = (tempC - expected.mean) ** 2 / variance;
    if (ratio > WILD * WILD && used > 0) {
      setAside.push(reading);
      continue;
    }
    takeReading(state, row, tempC, unknown.readingSdK ** 2);
    surprises += ratio;
    used += 1;
  }
  goTo(nowS, unknown.airSdK);

  const steps = Math.floor(aheadS / stepS + 1e-9);
  const out = {
    atS: new Float64Array(steps + 1),
    meanC: new Float64Array(steps + 1),
    sdK: new Float64Array(steps + 1),
    low90C: new Float64Array(steps + 1),
    high90C: new Float64Array(steps + 1),
  };
  for (let k = 0; k <= steps; k++) {
    const untilS = nowS + k * stepS;
    // The weather's own error joins the wandering difference: its spread grows as the root of the lead time.
    const leadDays = (untilS - nowS) / 86_400;
    goTo(untilS, Math.hypot(unknown.airSdK, unknown.weatherSdK24h * Math.sqrt(leadDays)));
    const { mean: part, variance } = outlook(state, animalRow);
    const sdK = Math.sqrt(Math.max(variance, 0));
    out.atS[k] = untilS;
    out.meanC[k] = part + directPart(model.animalNode, between(untilS));
    out.sdK[k] = sdK;
    out.low90C[k] = out.meanC[k]! - TWO_SIDED_90 * sdK;
    out.high90C[k] = out.meanC[k]! + TWO_SIDED_90 * sdK;
  }
  return { ...out, used, setAside, meanSquaredSurprise: used > 0 ? surprises / used : Number.NaN };
}

/** Size of mode i when the node it moves most moves by 1 K. */
function modeScale(modes: Modes, i: number): number {
  const m = modes.rates.length;
  let most = 0;
  for (let node = 0; node < modes.nodeCount; node++) most = Math.max(most, Math.abs(modes.shapes[node * m + i]!));
  return most > 0 ? 1 / most : 0;
}

/**
 * Transition and noise over `spanS`. The difference d wanders as dd/dt = -d/τ + noise with lasting variance s^2 and pushes mode i by
 * b_i d: closed forms of the integrals of exp((t - u) A) e e' exp((t - u) A').
 */
function stepMatrices(
  modes: Modes,
  airInputs: readonly number[],
  spanS: number,
  timeS: number,
  sdK: number,
  size: number,
): { transition: Float64Array; noise: Float64Array } {
  const m = modes.rates.length;
  const fade = 1 / timeS;
  const transition = new Float64Array(size * size);
  const noise = new Float64Array(size * size);
  const intensity = 2 * fade * sdK * sdK;
  // Answer of mode i to a unit of d at the start: c_i (exp(-fade t) - exp(-rate t)).
  const c = new Float64Array(m);
  const rates = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    // A mode as slow as the difference itself would divide by nothing; a hair aside is as good.
    const rate = Math.abs(modes.rates[i]! - fade) < 1e-6 * fade ? fade * (1 + 1e-6) : modes.rates[i]!;
    rates[i] = rate;
    let push = 0;
    for (const input of airInputs) push += modes.drives[i * modes.inputCount + input]!;
    c[i] = push / (rate - fade);
    transition[i * size + i] = Math.exp(-rate * spanS);
    transition[i * size + m] = c[i]! * (Math.exp(-fade * spanS) - Math.exp(-rate * spanS));
  }
  transition[m * size + m] = Math.exp(-fade * spanS);
  for (let p = m + 1; p < size; p++) transition[p * size + p] = 1;
  const area = (rate: number) => -Math.expm1(-rate * spanS) / rate;
  noise[m * size + m] = intensity * area(2 * fade);
  for (let i = 0; i < m; i++) {
    const withDifference = intensity * c[i]! * (area(2 * fade) - area(rates[i]! + fade));
    noise[i * size + m] = withDifference;
    noise[m * size + i] = withDifference;
    for (let j = 0; j <= i; j++) {
      const value =
        intensity *
        c[i]! *
        c[j]! *
        (area(2 * fade) - area(fade + rates[i]!) - area(fade + rates[j]!) + area(rates[i]! + rates[j]!));
      noise[i * size + j] = value;
      noise[j * size + i] = value;
    }
  }
  return { transition, noise };
}

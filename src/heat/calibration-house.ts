/** A described place with its box as a house whose factors readings can find, and the forecast redone with what they taught. */
import { buildBox } from './box.ts';
import type { Calibration } from './calibration.ts';
import { type FactorId, thermometer } from './calibration-data.ts';
import { settledTemperatures } from './calibration-exact.ts';
import type { CalibratedHouse } from './calibration-readings.ts';
import { student90 } from './correlated-errors.ts';
import type { BoxDescription, BuildingPlace, Tuning, WeatherPlace } from './description.ts';
import { findModes, type Modes } from './modes.ts';
import { buildPlace } from './place.ts';
import { type PreparedWinters, placeInputs } from './place-weather.ts';
import { makeRecursion, run } from './run.ts';
import { makePairRecursion, runPair } from './run-pair.ts';

/** Where a probe of the dry run is. */
export type DryRunProbe = 'place-air' | 'box';

export interface DescribedHouse {
  readonly place: WeatherPlace;
  /** Box standing in the place, with its probe; left out: only the place is calibrated. */
  readonly box?: BoxDescription;
  /** Weather from some days before the first reading to the last: exactly one stretch, made ready. */
  readonly weather: PreparedWinters;
  readonly probes: readonly DryRunProbe[];
  /** Heat of an animal in the box, W; a dry run has none. */
  readonly heatW?: number;
  /** Predict from rest, without unknown starting temperatures: for forecasts. */
  readonly fromRest?: boolean;
}

/** The house of `described`; its clock counts seconds from the first weather sample. Throws RangeError without a box for a box probe. */
export function houseOf(described: DescribedHouse): CalibratedHouse {
  const { place, box, weather, probes } = described;
  const prepared = weather.winters[0]!;
  const { stepS } = prepared.series;
  const samples = prepared.airC.length;
  if (probes.includes('box') && !box) throw new RangeError('a probe in the box needs a box');
  const factors: FactorId[] = [];
  if (place.kind === 'building') factors.push('loss', 'mass', 'sun', 'airChange');
  if (box && probes.includes('box')) factors.push('boxLoss', 'boxMass');
  // Offsets: start of the place, start of the box, then one lasting difference for each probe.
  const offsets: { sdK: number; lasting: boolean }[] = [];
  const addOffset = (sdK: number, lasting: boolean) => factors.length + offsets.push({ sdK, lasting }) - 1;
  const placeStart = place.kind === 'building' ? addOffset(thermometer.startSdK, false) : -1;
  const boxStart = factors.includes('boxLoss') ? addOffset(thermometer.startSdK, false) : -1;
  const baselines = probes.map(() => addOffset(thermometer.baselineSdK, true));
  const startOf = (values: Float64Array, at: number) => (described.fromRest || at < 0 ? 0 : values[at]!);
  const airC = new Float64Array(samples);
  const floorC = new Float64Array(samples);
  let lastPlace = '';
  let boxModes: { key: string; modes: Modes; probe: number } | undefined;
  // Inputs of the place are linear in its sun factor: made once without sun and once with.
  const [shaded, sunny] = place.kind === 'building' ? [0, 1].map((sun) => inputsAt(place, weather, sun)) : [];

  const runPlace = (values: Float64Array) => {
    if (place.kind === 'readings') {
      airC.set(prepared.airC);
      floorC.set(prepared.airC);
      return;
    }
    const start = startOf(values, placeStart);
    const key = `${values[0]},${values[1]},${values[2]},${values[3]},${start}`;
    if (key === lastPlace) return;
    lastPlace = key;
    const model = buildPlace(tunedPlace(place, values), weather.meanAirC);
    const modes = findModes(model.network);
    const inputs = shaded!.map((column, u) => blend(column, sunny![u]!, values[2]!));
    const from = settledTemperatures(modes, dailyStart(inputs, stepS)).map((tempC) => tempC + start);
    runPair(makePairRecursion(modes, [model.nodes.air, model.nodes.floor], stepS), inputs, airC, floorC, from);
  };
  const runBox = (values: Float64Array, out: Float64Array) => {
    const first = factors.indexOf('boxLoss');
    const key = `${values[first]},${values[first + 1]}`;
    if (boxModes?.key !== key) {
      const model = buildBox(tunedBox(box!, values[first]!, values[first + 1]!));
      boxModes = { key, modes: findModes(model.network), probe: model.nodes.probe };
    }
    const inputs = [airC, floorC, Float64Array.of(described.heatW ?? 0)];
    const from = settledTemperatures(boxModes.modes, dailyStart(inputs, stepS)).map(
      (tempC) => tempC + startOf(values, boxStart),
    );
    run(makeRecursion(boxModes.modes, boxModes.probe, stepS), inputs, out, from);
  };
  return {
    factors,
    offsets,
    probes: probes.length,
    fromS: 0,
    stepS,
    samples,
    outsideC: prepared.airC,
    sunWm2: prepared.instants.sun.up.map((sine) => (place.kind === 'building' ? 1000 * sine : 0)),
    predict(values, out) {
      runPlace(values);
      probes.forEach((probe, i) => {
        if (probe === 'box') runBox(values, out[i]!);
        else out[i]!.set(airC);
        const baseline = values[baselines[i]!]!;
        for (let k = 0; k < samples; k++) out[i]![k]! += baseline;
      });
    },
  };
}

function inputsAt(place: BuildingPlace, weather: PreparedWinters, sunFactor: number): readonly Float64Array[] {
  return placeInputs(
    buildPlace({ ...place, tuning: { sunFactor } }, weather.meanAirC),
    weather.ground,
  )(weather.winters[0]!);
}

const blend = (without: Float64Array, full: Float64Array, share: number) =>
  without === full ? full : without.map((value, i) => value + share * (full[i]! - value));

/** Means of the inputs over their first day: what the house had come to rest under, as far as is known. */
function dailyStart(inputs: readonly Float64Array[], stepS: number): number[] {
  const day = Math.max(1, Math.round(86_400 / stepS));
  return inputs.map((input) => {
    const first = input.subarray(0, day);
    return first.reduce((a, b) => a + b, 0) / first.length;
  });
}

// A factor stands on what is described. What an earlier dry run taught is replaced, not multiplied, so that the same readings twice say the same.
function tunedPlace(place: BuildingPlace, values: ArrayLike<number>) {
  const tuning: Tuning = {
    lossFactor: values[0]!,
    massFactor: values[1]!,
    sunFactor: values[2]!,
    airChangeFactor: values[3]!,
  };
  return { ...place, tuning };
}

const tunedBox = (box: BoxDescription, loss: number, mass: number): BoxDescription => ({
  ...box,
  tuning: { lossFactor: loss, massFactor: mass },
});

/** What was found for a factor; what was not looked for stays as it is known. */
const factorOf = (calibration: Calibration, id: FactorId, known: number | undefined) =>
  calibration.factors.find((factor) => factor.id === id)?.value ?? known ?? 1;

/** The place and box with what the readings taught, for any forecast. */
export function calibratedDescriptions(
  place: WeatherPlace,
  box: BoxDescription | undefined,
  calibration: Calibration,
): { readonly place: WeatherPlace; readonly box?: BoxDescription } {
  const found = (id: FactorId, known: number | undefined) => factorOf(calibration, id, known);
  return {
    place:
      place.kind === 'building'
        ? tunedPlace(place, [
            found('loss', place.tuning?.lossFactor),
            found('mass', place.tuning?.massFactor),
            found('sun', place.tuning?.sunFactor),
            found('airChange', place.tuning?.airChangeFactor),
          ])
        : place,
    ...(box
      ? { box: tunedBox(box, found('boxLoss', box.tuning?.lossFactor), found('boxMass', box.tuning?.massFactor)) }
      : {}),
  };
}

export interface PredictionInterval {
  readonly meanC: Float64Array;
  /** Standard deviation of one future reading: factors not exactly known, and what the model leaves over. */
  readonly sdK: Float64Array;
  /** 90 % interval; nine future readings in ten are expected inside. */
  readonly lowC: Float64Array;
  readonly highC: Float64Array;
}

/**
 * What `probe` of `house` would read, with its 90 % prediction interval, when the weather is as given: the same factors
 * as fitted, their covariance carried through by derivatives, and the process of what was left over. The hold-out error enters where it is
 * larger than what was left over, for then the model is worse on days it has not seen.
 */
export function predictWithInterval(
  house: CalibratedHouse,
  calibration: Calibration,
  probe: number,
): PredictionInterval {
  const values = calibration.values.slice();
  house.offsets.forEach(({ lasting }, k) => {
    if (!lasting) values[house.factors.length + k] = 0;
  });
  const out = () => Array.from({ length: house.probes }, () => new Float64Array(house.samples));
  const mean = out();
  house.predict(values, mean);
  const meanC = mean[probe]!;
  const carried = Array.from(values, (_, p) => p).filter(
    (p) => p < house.factors.length || house.offsets[p - house.factors.length]!.lasting,
  );
  const slopes = carried.map((p) => {
    const [up, down] = [out(), out()];
    for (const [step, grid] of [
      [0.02, up],
      [-0.02, down],
    ] as const) {
      const moved = values.slice();
      moved[p] = p < house.factors.length ? values[p]! * Math.exp(step) : values[p]! + step;
      house.predict(moved, grid);
    }
    return up[probe]!.map((value, i) => (value - down[probe]![i]!) / 0.04);
  });
  const left = calibration.residualSdK[probe] ?? Number.NaN;
  const known = calibration.residualSdK.filter((sd) => Number.isFinite(sd));
  const residual = Number.isFinite(left) ? left : Math.max(...known, 0.5);
  // The hold-out error is itself one draw: half-way between it and what was left over, in variance, when it is the larger.
  const tried = calibration.holdOut?.rmsK ?? 0;
  const process = tried > residual ? (residual * residual + tried * tried) / 2 : residual * residual;
  const sdK = new Float64Array(house.samples);
  for (let i = 0; i < sdK.length; i++) {
    let variance = process;
    for (let p = 0; p < carried.length; p++)
      for (let q = 0; q < carried.length; q++)
        variance += slopes[p]![i]! * slopes[q]![i]! * calibration.covariance[carried[p]!]![carried[q]!]!;
    sdK[i] = Math.sqrt(variance);
  }
  const t = student90(calibration.freedom);
  return {
    meanC,
    sdK,
    lowC: meanC.map((value, i) => value - t * sdK[i]!),
    highC: meanC.map((value, i) => value + t * sdK[i]!),
  };
}

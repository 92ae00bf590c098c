import { addDays, type Day, dayNumber, isDay } from '../measure/day.ts';
import { instantInZone } from '../measure/zone.ts';
import type { Winter } from '../weather/winters.ts';
import {
  type AnswerOverWinters,
  answerOverWinters,
  answerWinter,
  type Band,
  usualBand,
  type WinterAnswer,
} from './answer.ts';
import { type BoxModel, buildBox } from './box.ts';
import type { BoxDescription, WeatherPlace } from './description.ts';
import { BoxFrost } from './freezing-forecast.ts';
import { findModes, type Modes, sineResponse, steadyGain } from './modes.ts';
import { DAY_S } from './periodic.ts';
import { buildPlace, type PlaceModel } from './place.ts';
import { type PreparedWinters, placeInputs } from './place-weather.ts';
import { makeRecursion, type Recursion, run } from './run.ts';
import { makePairRecursion, type PairRecursion, runPair } from './run-pair.ts';

/** The air beside the box through one winter. */
interface PlaceWinter {
  readonly winter: Winter;
  readonly startMs: number;
  readonly stepS: number;
  readonly outdoorC: Float64Array;
  readonly airC: Float64Array;
  readonly floorC: Float64Array;
  /** Share of the present air temperature that rests on missing weather, 0 to 1; absent when none is missing. */
  readonly unknownShare?: Float64Array;
}

export interface PlaceForecast {
  readonly winters: readonly PlaceWinter[];
  readonly prepared: PreparedWinters;
  /** Absent for a place that is known by readings. */
  readonly model?: PlaceModel;
  readonly modes?: Modes;
}

/**
 * Air and floor of a place through all winters. A place of readings takes the winters' series as its own air. Work done
 * here is kept by the caller while only the box changes.
 */
export function forecastPlace(place: WeatherPlace, prepared: PreparedWinters): PlaceForecast {
  if (place.kind === 'readings') {
    const winters = prepared.winters.map(
      ({ winter, series, airC, missing }): PlaceWinter => ({
        winter,
        startMs: series.startMs,
        stepS: series.stepS,
        outdoorC: series.airTempC,
        airC,
        floorC: airC,
        ...(missing ? { unknownShare: missing } : {}),
      }),
    );
    return { winters, prepared };
  }
  const model = buildPlace(place, prepared.meanAirC);
  const modes = findModes(model.network);
  const still = Float64Array.of(0);
  const inputsOf = placeInputs(model, prepared.ground);
  const recursions = new Map<number, PairRecursion>();
  const winters = prepared.winters.map((one): PlaceWinter => {
    const { winter, series, airC: outdoorC, missing } = one;
    let recursion = recursions.get(series.stepS);
    if (!recursion) {
      recursion = makePairRecursion(modes, [model.nodes.air, model.nodes.floor], series.stepS, { accuracyK: 0.01 });
      recursions.set(series.stepS, recursion);
    }
    const airC = new Float64Array(outdoorC.length);
    const floorC = new Float64Array(outdoorC.length);
    runPair(recursion, inputsOf(one), airC, floorC, 'settled');
    let unknownShare: Float64Array | undefined;
    if (missing) {
      const air = makeRecursion(modes, model.nodes.air, series.stepS, { accuracyK: 0.01 });
      unknownShare = new Float64Array(outdoorC.length);
      run(air, [missing, missing, missing, missing, still, still, still], unknownShare, 'settled');
    }
    return {
      winter,
      startMs: series.startMs,
      stepS: series.stepS,
      outdoorC: series.airTempC,
      airC,
      floorC,
      ...(unknownShare ? { unknownShare } : {}),
    };
  });
  return { winters, prepared, model, modes };
}

/** Which nights count: a stretch of the year by its first day (`MM-DD`, in the site's zone) and its length; default the whole winter. */
export interface SleepWindow {
  readonly from: string;
  readonly days: number;
}

export interface BoxForecastRequest {
  readonly place: PlaceForecast;
  readonly box: BoxDescription;
  readonly sleep?: SleepWindow;
  readonly band?: Band;
  /** Heat of the animal, W; default 0.01 W per kg, between 0.003 and 0.03 at 5 °C. */
  readonly heatW?: number;
}

interface BoxWinter {
  readonly label: string;
  readonly startMs: number;
  readonly stepS: number;
  /** The animal, or where it would lie; NaN where the weather that made it was not known. */
  readonly animalC: Float64Array;
  readonly probeC: Float64Array;
  readonly placeC: Float64Array;
  readonly outdoorC: Float64Array;
  readonly answer: WinterAnswer;
}

export interface BoxForecast {
  readonly winters: readonly BoxWinter[];
  readonly answer: AnswerOverWinters;
  readonly box: BoxFigures;
  readonly model: BoxModel;
  readonly modes: Modes;
}

/** Figures of the box itself, whatever the weather. */
export interface BoxFigures {
  /** A daily change of the place's air and floor reaches the animal as one part in this many. */
  readonly dampingOneIn: number;
  readonly lagH: number;
  /** Time in which two thirds (1 - 1/e) of a lasting change have arrived, by the slowest mode, h. */
  readonly slowestH: number;
  /** Heat the box loses per kelvin of its inside air over the place, W/K. */
  readonly lossWK: number;
  /** Lasting warming by the animal's own heat, K. */
  readonly animalHeatingK: number;
  readonly heatW: number;
}

/** More than this share of a temperature resting on missing weather makes it not known. */
const UNKNOWN_FROM = 0.1;
/** Heat of a tortoise asleep at 5 °C, W/kg: between 0.003 and 0.03 by the published rates of oxygen use (derived). */
export const SLEEPING_HEAT_W_PER_KG = 0.01;

/** Figures of a box from its network. */
function boxFigures(model: BoxModel, modes: Modes, heatW: number): BoxFigures {
  const { animal, innerAir } = model.nodes;
  const { placeAir, floor, heat } = model.inputs;
  // Place air and floor move together over a day: their responses add as complex numbers.
  const turn = (input: number) => {
    const { share, lagS } = sineResponse(modes, animal, input, DAY_S);
    const angle = (2 * Math.PI * lagS) / DAY_S;
    return { re: share * Math.cos(angle), im: share * Math.sin(angle) };
  };
  const a = turn(placeAir);
  const f = turn(floor);
  const [re, im] = [a.re + f.re, a.im + f.im];
  const lag = Math.atan2(im, re) / (2 * Math.PI);
  return {
    dampingOneIn: 1 / Math.hypot(re, im),
    lagH: (lag < 0 ? lag + 1 : lag) * 24,
    slowestH: 1 / modes.rates[0]! / 3600,
    lossWK: 1 / steadyGain(modes, innerAir, heat),
    animalHeatingK: heatW * steadyGain(modes, animal, heat),
    heatW,
  };
}

/** The samples of one winter's sleep: from and to may lie outside the series, which is then not known there. */
interface SleepStretch {
  readonly place: PlaceWinter;
  readonly from: number;
  readonly to: number;
}

/** The stretches of the winters in which the animal sleeps. Throws RangeError when no winter reaches the sleep. */
export function sleepStretches(place: PlaceForecast, sleep?: SleepWindow): SleepStretch[] {
  const stretches = reachedStretches(place, sleep);
  if (stretches.length === 0) throw new RangeError('no winter of the record reaches the days of the sleep');
  return stretches;
}

/** The stretches of the winters in which the animal sleeps. Winters that do not reach the sleep are left out. */
export function reachedStretches(place: PlaceForecast, sleep?: SleepWindow): SleepStretch[] {
  const { zone } = place.prepared.site;
  // Generated winters stand on the same dates: their instants are looked up once.
  const instants = new Map<string, { fromMs: number; toMs: number }>();
  const stretches: SleepStretch[] = [];
  for (const one of place.winters) {
    const last = one.airC.length - 1;
    if (!sleep) {
      stretches.push({ place: one, from: 0, to: last });
      continue;
    }
    const first = one.winter.fromDay;
    let known = instants.get(first);
    if (!known) {
      const year = (add: number): Day => {
        const number = String(Number(first.slice(0, 4)) + add).padStart(4, '0');
        const day = `${number}-${sleep.from}`;
        return isDay(day) ? day : addDays(`${number}-02-28`, 1);
      };
      const fromDay = dayNumber(year(0)) >= dayNumber(first) ? year(0) : year(1);
      known = { fromMs: instantInZone(fromDay, zone), toMs: instantInZone(addDays(fromDay, sleep.days), zone) };
      instants.set(first, known);
    }
    const stepMs = one.stepS * 1000;
    const from = Math.ceil((known.fromMs - one.startMs) / stepMs);
    const to = Math.ceil((known.toMs - one.startMs) / stepMs);
    if (from < last && to > 0) stretches.push({ place: one, from, to });
  }
  return stretches;
}

/** A stretch of a series, NaN where the series does not reach. */
function stretch(values: Float64Array, from: number, to: number): Float64Array {
  if (from >= 0 && to < values.length) return values.subarray(from, to + 1);
  const out = new Float64Array(to - from + 1).fill(Number.NaN);
  const begin = Math.max(from, 0);
  out.set(values.subarray(begin, Math.min(to + 1, values.length)), begin - from);
  return out;
}

/**
 * The box in its place through every winter: animal and probe, the answer of each winter and the spread over them. Each
 * winter is run from its first sample, so that the box is in step with the weather when the sleep begins. Throws RangeError
 * when no winter reaches the sleep.
 */
export function forecastBox(request: BoxForecastRequest): BoxForecast {
  const { place, box, sleep, band = usualBand } = request;
  const model = buildBox(box);
  const modes = findModes(model.network);
  const { animal: animalNode, probe: probeNode } = model.nodes;
  const apart = probeNode !== animalNode;
  const heatW = request.heatW ?? ((box.animal?.massG ?? 0) / 1000) * SLEEPING_HEAT_W_PER_KG;
  const heat = Float64Array.of(heatW);
  const frost = new BoxFrost(model, modes, heatW, apart ? [animalNode, probeNode] : [animalNode]);
  const still = Float64Array.of(0);
  const byStep = new Map<number, { animal: Recursion; probe: Recursion }>();
  const winters: BoxWinter[] = [];
  for (const { place: one, from, to } of sleepStretches(place, sleep)) {
    let recursion = byStep.get(one.stepS);
    if (!recursion) {
      recursion = {
        animal: makeRecursion(modes, animalNode, one.stepS),
        probe: makeRecursion(modes, probeNode, one.stepS),
      };
      byStep.set(one.stepS, recursion);
    }
    const { animal, probe } = recursion;
    const inputs = [one.airC, one.floorC, heat];
    const n = one.airC.length;
    const animalC = new Float64Array(n);
    run(animal, inputs, animalC, 'settled');
    let probeC = animalC;
    if (apart) {
      probeC = new Float64Array(n);
      run(probe, inputs, probeC, 'settled');
    }
    // Bottles that freeze hold the box at 0 °C for days: there a run that counts their ice takes the place of the linear one.
    const [first, last] = [Math.max(from, 0), Math.min(to, n - 1)];
    frost.run(one.airC, one.floorC, one.stepS, first, last, apart ? [animalC, probeC] : [animalC]);
    if (one.unknownShare) {
      const share = new Float64Array(n);
      run(animal, [one.unknownShare, one.unknownShare, still], share, 'settled');
      for (let k = 0; k < n; k++)
        if (share[k]! > UNKNOWN_FROM) {
          animalC[k] = Number.NaN;
          probeC[k] = Number.NaN;
        }
    }
    const startMs = one.startMs + from * one.stepS * 1000;
    const inside = stretch(animalC, from, to);
    winters.push({
      label: one.winter.label,
      startMs,
      stepS: one.stepS,
      animalC: inside,
      probeC: stretch(probeC, from, to),
      placeC: stretch(one.airC, from, to),
      outdoorC: stretch(one.outdoorC, from, to),
      answer: answerWinter(one.winter.label, { startMs, stepS: one.stepS, tempC: inside }, band),
    });
  }
  return {
    winters,
    answer: answerOverWinters(winters.map((one) => one.answer)),
    box: boxFigures(model, modes, heatW),
    model,
    modes,
  };
}

/**
 * Answers alone of one build over many winters, for searches: only the animal's temperature, from as long before the sleep
 * as the box remembers (its ice from the first frost on), in one array that is used again.
 */
export function answersOfBuild(
  stretches: readonly SleepStretch[],
  box: BoxDescription,
  band: Band = usualBand,
  heatW = ((box.animal?.massG ?? 0) / 1000) * SLEEPING_HEAT_W_PER_KG,
): WinterAnswer[] {
  const model = buildBox(box);
  const modes = findModes(model.network);
  const frost = new BoxFrost(model, modes, heatW, [model.nodes.animal]);
  const heat = Float64Array.of(heatW);
  const still = Float64Array.of(0);
  let space = new Float64Array(0);
  const recursions = new Map<number, Recursion>();
  return stretches.map(({ place, from, to }) => {
    const { stepS, airC, floorC, unknownShare } = place;
    let recursion = recursions.get(stepS);
    if (!recursion) {
      recursion = makeRecursion(modes, model.nodes.animal, stepS);
      recursions.set(stepS, recursion);
    }
    // After eight of its slowest times a box has forgotten how it began to a third of a thousandth.
    const memory = Math.ceil(8 / (modes.rates[0]! * stepS));
    const begin = Math.max(0, Math.min(from, airC.length - 1) - memory);
    const end = Math.min(to + 1, airC.length);
    if (space.length < airC.length) space = new Float64Array(airC.length);
    const tempC = space.subarray(begin, end);
    run(recursion, [airC.subarray(begin, end), floorC.subarray(begin, end), heat], tempC, 'settled');
    frost.run(airC, floorC, stepS, Math.max(from, 0), end - 1, [space]);
    if (unknownShare) {
      const share = new Float64Array(end - begin);
      const shares = unknownShare.subarray(begin, end);
      run(recursion, [shares, shares, still], share, 'settled');
      for (let k = 0; k < share.length; k++) if (share[k]! > UNKNOWN_FROM) tempC[k] = Number.NaN;
    }
    const startMs = place.startMs + from * stepS * 1000;
    return answerWinter(place.winter.label, { startMs, stepS, tempC: stretch(tempC, from - begin, to - begin) }, band);
  });
}

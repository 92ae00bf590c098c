import { estimateMass } from '../../../src/physiology/mass-estimator.ts';
import { forecastMass } from '../../../src/physiology/mass-forecast.ts';
import { type Population, simulatedSleeper, USUAL_POPULATION } from './simulated-sleepers.ts';

const DAY_MS = 86_400_000;

export interface Coverage {
  readonly animals: number;
  readonly knownWeighIns: number;
  readonly aheadDays: number;
  /** Share of animals whose true mass lay in the band. */
  readonly in90: number;
  readonly in50: number;
  /** Share of true masses under the band's lower edge: the side that matters. */
  readonly under90: number;
  /** Share of weigh-ins that were taken for an event though nothing happened. */
  readonly falseEvents: number;
  /** Median width of the 90 % band, share of the starting mass. */
  readonly width: number;
}

/**
 * Weighs `animals` simulated sleepers weekly, `known` times after the start, and forecasts `aheadDays` from the last weigh-in
 * knowing only what was measured until then (the air to come is taken as its mean so far).
 */
export function coverage(
  animals: number,
  known: number,
  aheadDays: number,
  firstSeed = 1,
  population: Population = USUAL_POPULATION,
): Coverage {
  let in90 = 0;
  let in50 = 0;
  let under90 = 0;
  let events = 0;
  let weighIns = 0;
  const widths: number[] = [];
  for (let animal = 0; animal < animals; animal++) {
    const lastDay = known * 7;
    const sleeper = simulatedSleeper(firstSeed + animal, lastDay + aheadDays, population);
    const past = sleeper.climate.slice(0, lastDay);
    const mean = (of: (span: (typeof past)[number]) => number, or: number) =>
      past.length ? past.reduce((sum, span) => sum + of(span), 0) / past.length : or;
    const usual = {
      tempC: mean((span) => span.tempC, 5),
      relativeHumidity: mean((span) => span.relativeHumidity ?? 0.8, 0.8),
    };
    const weighed = Array.from({ length: known + 1 }, (_, week) => ({
      atMs: week * 7 * DAY_MS,
      massG: sleeper.shownG[week * 7]!,
      resolutionG: sleeper.startG < 200 ? 0.1 : 1,
    }));
    const { estimate, judged } = estimateMass(weighed, { spans: past, usual }, sleeper.humidityMeasured);
    weighIns += judged.length;
    events += judged.filter(({ weighAgain }) => weighAgain).length;
    const forecast = forecastMass(estimate, { spans: [], usual }, aheadDays);
    const truth = sleeper.trueG[lastDay + aheadDays]!;
    const at = (band: Float64Array) => band[aheadDays]!;
    if (truth >= at(forecast.p05G) && truth <= at(forecast.p95G)) in90++;
    if (truth >= at(forecast.p25G) && truth <= at(forecast.p75G)) in50++;
    if (truth < at(forecast.p05G)) under90++;
    widths.push((at(forecast.p95G) - at(forecast.p05G)) / sleeper.startG);
  }
  widths.sort((a, b) => a - b);
  return {
    animals,
    knownWeighIns: known,
    aheadDays,
    in90: in90 / animals,
    in50: in50 / animals,
    under90: under90 / animals,
    falseEvents: weighIns ? events / weighIns : 0,
    width: widths[animals >> 1]!,
  };
}

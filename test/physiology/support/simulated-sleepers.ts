/**
 * Sleeping animals made by equations of their own, to hold the estimator against: nothing here comes from src/. Saturation
 * pressure by the Magnus formula instead of Hyland and Wexler, loss per skin and breath instead of one k, humidity and
 * temperature that wander from day to day, water that the shell takes up and gives back with a lag, a restless day now and
 * then. Hours are the step.
 */

/** Small seeded generator (mulberry32), so that every animal can be made again. */
export function dice(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export interface Sleeper {
  readonly startG: number;
  /** True mass of the animal itself, without the water that clings to it, at the start of each day. */
  readonly trueG: readonly number[];
  /** What the scale shows on each day. */
  readonly shownG: readonly number[];
  readonly climate: { fromMs: number; toMs: number; tempC: number; relativeHumidity?: number }[];
  readonly humidityMeasured: boolean;
}

const DAY_MS = 86_400_000;

/** How leaky the animals are: logarithms of the middle and of the spread, against the usual loss. */
export interface Population {
  readonly logMiddle: number;
  readonly logSpread: number;
}
export const USUAL_POPULATION: Population = { logMiddle: 0, logSpread: 0.5 };

export function simulatedSleeper(seed: number, days: number, population: Population = USUAL_POPULATION): Sleeper {
  const roll = dice(seed);
  const normal = () => Math.sqrt(-2 * Math.log(1 - roll())) * Math.cos(2 * Math.PI * roll());
  const startG = Math.exp(Math.log(30) + roll() * Math.log(2200 / 30));
  const humidityMeasured = roll() < 0.5;
  const meanC = 4 + 2.5 * roll();
  const meanHumidity = Math.min(0.93, Math.max(0.62, 0.8 + 0.06 * normal()));
  // How leaky this animal is, against 1 % a month for 1 kg at 5 °C and 80 %: a wide family of animals.
  const leaky = Math.exp(population.logMiddle + population.logSpread * normal());
  const breathShare = 0.05 + 0.2 * roll();
  const resolutionG = startG < 200 ? 0.1 : roll() < 0.7 ? 1 : 2;
  const trueG = [startG];
  const shownG: number[] = [];
  const climate: Sleeper['climate'] = [];
  let tempC = meanC;
  let humidity = meanHumidity;
  let drift = 0;
  let clinging = 0.015 * (humidity - 0.8) * startG;
  let massG = startG;
  const weigh = () => {
    const soil = Math.abs(normal()) * 0.0008 * startG;
    const tilt = normal() * 0.0006 * startG;
    return Math.round((massG + clinging + soil + tilt) / resolutionG) * resolutionG;
  };
  shownG.push(weigh());
  for (let day = 0; day < days; day++) {
    tempC = meanC + 0.85 * (tempC - meanC) + 0.6 * normal();
    humidity = Math.min(0.99, Math.max(0.45, meanHumidity + 0.9 * (humidity - meanHumidity) + 0.02 * normal()));
    drift = 0.985 * drift + 0.025 * normal();
    const restless = roll() < 0.03 ? 1 + roll() : 1;
    for (let hour = 0; hour < 24; hour++) {
      const airC = tempC + 0.7 * Math.sin((2 * Math.PI * (hour - 9)) / 24);
      const magnus = (c: number) => (611.2 * Math.exp((17.62 * c) / (243.12 + c))) / (461.5 * (c + 273.15));
      const bodyC = airC + 0.05 * restless;
      const skin = Math.max(0, magnus(bodyC) - humidity * magnus(airC));
      const breath = Math.max(0, magnus(bodyC) - 0.95 * humidity * magnus(airC));
      const usualGPerS = (0.01 * 1000) / (30.44 * 86_400) / (0.2 * magnus(5));
      massG -=
        leaky *
        Math.exp(drift) *
        restless *
        usualGPerS *
        (startG / 1000) ** 0.68 *
        ((1 - breathShare) * skin + breathShare * breath) *
        3600;
      clinging += (0.015 * (humidity - 0.8) * startG - clinging) / 48;
    }
    climate.push({
      fromMs: day * DAY_MS,
      toMs: (day + 1) * DAY_MS,
      tempC,
      ...(humidityMeasured ? { relativeHumidity: humidity } : {}),
    });
    trueG.push(massG);
    shownG.push(weigh());
  }
  return { startG, trueG, shownG, climate, humidityMeasured };
}

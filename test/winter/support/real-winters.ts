import { readFileSync } from 'node:fs';
import type { PastWinter } from '../../../src/winter/replay.ts';
import { solveAdaptively } from '../../outside/adaptive-solver.ts';
import { dice } from '../../physiology/support/simulated-sleepers.ts';

/**
 * Winters made from real weather (Seattle daily record 2012-2015, NOAA, in vega-datasets) by physics of its own: outdoor day
 * curve, building, box wall and contents as three coupled equations with sun and a clear-sky loss, solved by an independent
 * adaptive solver; an animal with its own water loss; a probe with noise, resolution and gaps; weather forecasts whose error
 * grows with lead time. Nothing here comes from src/ but the type of what is handed over.
 */

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

interface WeatherDay {
  readonly day: string;
  readonly maxC: number;
  readonly minC: number;
  readonly clear: boolean;
}

const SEATTLE: readonly WeatherDay[] = readFileSync('node_modules/vega-datasets/data/seattle-weather.csv', 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','))
  .map((cells) => ({ day: cells[0]!, maxC: Number(cells[2]), minC: Number(cells[3]), clear: cells[5] === 'sun' }));

/** How a house and its box behave. Time constants in hours. */
export interface House {
  readonly name: string;
  readonly buildingH: number;
  readonly gainK: number;
  readonly sunK: number;
  readonly skyK: number;
  readonly wallH: number;
  readonly boxH: number;
}
export const HOUSES: readonly House[] = [
  { name: 'timber shed, light box', buildingH: 3, gainK: 0.5, sunK: 4, skyK: 1.2, wallH: 0.7, boxH: 9 },
  { name: 'timber shed, heavy box', buildingH: 3, gainK: 0.5, sunK: 4, skyK: 1.2, wallH: 1.2, boxH: 34 },
  { name: 'brick outbuilding, light box', buildingH: 26, gainK: 1.2, sunK: 1.2, skyK: 0.4, wallH: 0.7, boxH: 9 },
  { name: 'brick outbuilding, heavy box', buildingH: 26, gainK: 1.2, sunK: 1.2, skyK: 0.4, wallH: 1.2, boxH: 34 },
];

type Outdoors = (hour: number) => { airC: number; clear: boolean };

/** Day curve: cosine from the minimum at 6 h to the maximum at 15 h and on to the next minimum. */
function outdoorsFrom(firstDay: number, shiftK: number): Outdoors {
  const cosine = (from: number, to: number, share: number) =>
    from + ((to - from) * (1 - Math.cos(Math.PI * share))) / 2;
  return (hour) => {
    const index = firstDay + Math.floor(hour / 24);
    const today = SEATTLE[index]!;
    const h = hour % 24;
    const airC =
      h < 6
        ? cosine(SEATTLE[index - 1]!.maxC, today.minC, (h + 9) / 15)
        : h < 15
          ? cosine(today.minC, today.maxC, (h - 6) / 9)
          : cosine(today.maxC, SEATTLE[index + 1]!.minC, (h - 15) / 15);
    return { airC: airC + shiftK, clear: today.clear };
  };
}

function derivative(house: House, outdoors: Outdoors, extraK: (hour: number) => number) {
  return (hour: number, [building, wall, box]: number[]): number[] => {
    const { airC, clear } = outdoors(hour);
    const h = hour % 24;
    const sun = h > 8 && h < 16 ? house.sunK * Math.sin((Math.PI * (h - 8)) / 8) * (clear ? 1 : 0.25) : 0;
    const sky = clear && (h < 7 || h > 17) ? house.skyK : 0;
    const around = airC + extraK(hour) + house.gainK + sun - sky;
    return [
      (around - building!) / house.buildingH,
      (building! - wall! + (box! - wall!)) / house.wallH,
      (2 * (wall! - box!)) / house.boxH,
    ];
  };
}

/** Box temperature every hour by the adaptive solver, restarted each hour so that the day curve is smooth within a step. */
function solveWinter(house: House, outdoors: Outdoors, hours: number): number[][] {
  const f = derivative(house, outdoors, () => 0);
  const first = outdoors(0).airC + house.gainK;
  const states = [[first, first, Math.min(7, Math.max(3.6, first))]];
  for (let hour = 0; hour < hours; hour++) states.push(solveAdaptively(f, hour, states[hour]!, hour + 1, 1e-7));
  return states;
}

/** A forecast from a known state, by a fixed-step method (Heun, a quarter of an hour): thousands are needed. */
function forecastFrom(
  house: House,
  outdoors: Outdoors,
  state: number[],
  fromHour: number,
  hours: number,
  errorK: (lead: number) => number,
): number[] {
  const f = derivative(house, outdoors, (hour) => errorK(hour - fromHour));
  let y = state;
  const boxC = [y[2]!];
  const dt = 0.25;
  for (let step = 1; step <= hours * 4; step++) {
    const t = fromHour + (step - 1) * dt;
    const k1 = f(t, y);
    const k2 = f(
      t + dt,
      y.map((v, i) => v + dt * k1[i]!),
    );
    y = y.map((v, i) => v + (dt / 2) * (k1[i]! + k2[i]!));
    if (step % 4 === 0) boxC.push(y[2]!);
  }
  return boxC;
}

export interface MadeWinter {
  readonly name: string;
  readonly past: PastWinter;
  readonly endMs: number;
  readonly intervalMs: number;
  /** True temperature in the box, every hour from the putting down; straight between. */
  readonly trueC: readonly number[];
  /** Probe silent from, to. */
  readonly gaps: readonly (readonly [number, number])[];
  /** True share of the starting mass lost at each weigh-in. */
  readonly trueLoss: readonly { readonly atMs: number; readonly share: number }[];
  /** A figure was typed wrong at these weigh-ins. */
  readonly mistypedMs: readonly number[];
  readonly urineMs: readonly number[];
}

export const trueAt = (winter: Pick<MadeWinter, 'trueC' | 'past'>, atMs: number): number => {
  const hour = Math.min(winter.trueC.length - 1.001, Math.max(0, (atMs - winter.past.setup.fromMs) / HOUR_MS));
  const i = Math.floor(hour);
  return winter.trueC[i]! + (hour - i) * (winter.trueC[i + 1]! - winter.trueC[i]!);
};

/** One animal through one of the three whole winters (`year` 2012 to 2014), in a house, the weather shifted by `shiftK`. */
export function madeWinter(seed: number, year: number, house: House, shiftK: number): MadeWinter {
  const roll = dice(seed);
  const normal = () => Math.sqrt(-2 * Math.log(1 - roll())) * Math.cos(2 * Math.PI * roll());
  const startDay = `${year}-12-0${1 + Math.floor(roll() * 8)}`;
  const firstDay = SEATTLE.findIndex((row) => row.day === startDay);
  const days = 77;
  const fromMs = Date.parse(`${startDay}T00:00:00Z`);
  const endMs = fromMs + days * DAY_MS;
  const outdoors = outdoorsFrom(firstDay, shiftK);
  const states = solveWinter(house, outdoors, days * 24 + 73);
  const trueC = states.slice(0, days * 24 + 1).map((state) => state[2]!);
  const truth = { trueC, past: { setup: { fromMs } } as PastWinter };

  const intervalMs = 15 * 60_000;
  const gaps: [number, number][] = [];
  for (let i = 0; i < 2; i++) {
    if (roll() > 0.5) continue;
    const from = fromMs + (5 + roll() * (days - 10)) * DAY_MS;
    gaps.push([from, from + (3 + roll() * 20) * HOUR_MS]);
  }
  const silent = (atMs: number) => gaps.some(([from, to]) => atMs >= from && atMs < to);
  const readings = [];
  for (let atMs = fromMs; atMs <= endMs; atMs += intervalMs)
    if (!silent(atMs)) readings.push({ atMs, tempC: Math.round((trueAt(truth, atMs) + 0.05 * normal()) * 10) / 10 });

  // The animal: Magnus formula, its own leakiness, weighed weekly on a 1 g (small: 0.1 g) scale.
  const startG = Math.exp(Math.log(60) + roll() * Math.log(25));
  const leaky = Math.exp(0.5 * normal());
  const humidity = 0.7 + 0.22 * roll();
  const resolution = startG < 200 ? 0.1 : 1;
  const show = (g: number) => Math.round((g * (1 + 0.0012 * normal())) / resolution) * resolution;
  const vapour = (c: number) => (611.2 * Math.exp((17.62 * c) / (243.12 + c))) / (461.5 * (c + 273.15));
  const urineDay = roll() < 0.15 ? 14 + Math.floor(roll() * 50) : Number.POSITIVE_INFINITY;
  const wrongWeek = roll() < 0.15 ? 2 + Math.floor(roll() * 8) : -1;
  const weighIns = [{ atMs: fromMs, massG: show(startG), resolutionG: resolution }];
  const diary: { atMs: number; kind: 'lid-opened' | 'urine' }[] = [];
  const trueLoss: { atMs: number; share: number }[] = [];
  const mistypedMs: number[] = [];
  const urineMs: number[] = [];
  let massG = startG;
  for (let hour = 0; hour < days * 24; hour++) {
    const atMs = fromMs + hour * HOUR_MS;
    const usual = (0.01 * 1000) / (30.44 * 24) / (0.2 * vapour(5));
    massG -= leaky * usual * (startG / 1000) ** (2 / 3) * (1 - humidity) * vapour(trueC[hour]!);
    if (hour === urineDay * 24 + 12) {
      massG *= 0.93;
      urineMs.push(atMs);
      diary.push({ atMs: atMs + HOUR_MS, kind: 'urine' });
    }
    if (hour % 168 === 34 && hour > 100) {
      const typed = show(massG);
      const wrong = Math.floor(hour / 168) === wrongWeek;
      if (wrong) mistypedMs.push(atMs);
      weighIns.push({
        atMs,
        massG: wrong ? Number(`${String(typed)[0]}${String(typed).slice(2)}`) : typed,
        resolutionG: resolution,
      });
      // The second weighing that the first one asked for.
      if (wrong) weighIns.push({ atMs: atMs + HOUR_MS / 2, massG: show(massG), resolutionG: resolution });
      diary.push({ atMs, kind: 'lid-opened' });
      trueLoss.push({ atMs, share: 1 - massG / startG });
    }
  }

  const forecasts = [];
  for (let hour = 6; hour < days * 24; hour += 6) {
    const slope = 1.5 * normal();
    const offset = 0.4 * normal();
    const start = states[hour]!.map((c) => c + 0.1 * normal());
    const boxC = forecastFrom(house, outdoors, start, hour, 72, (lead) => offset + (slope * lead) / 72);
    forecasts.push({
      atMs: fromMs + hour * HOUR_MS,
      timesMs: boxC.map((_, i) => fromMs + (hour + i) * HOUR_MS),
      tempsC: boxC,
    });
  }
  const setup = {
    stayId: `${seed}`,
    fromMs,
    startMassG: weighIns[0]!.massG,
    plannedWakeMs: endMs,
    expectedIntervalS: intervalMs / 1000,
  };
  return {
    name: `${year}, ${house.name}, ${shiftK >= 0 ? '+' : ''}${shiftK} K`,
    past: { setup, readings, weighIns, diary, forecasts },
    endMs,
    intervalMs,
    trueC,
    gaps,
    trueLoss,
    mistypedMs,
    urineMs,
  };
}

/** Search over builds a keeper could really make: which keep the box in its band in 95 winters of a hundred, cheapest first. */
import { addDays } from '../measure/day.ts';
import { type Band, usualBand } from './answer.ts';
import { buildBox } from './box.ts';
import { buildChoices, buildCosts, keptWinter } from './build-costs.ts';
import { countSamples, type ScanCount, scanStretch } from './build-scan.ts';
import type { BoxDescription } from './description.ts';
import { type PlaceForecast, reachedStretches, SLEEPING_HEAT_W_PER_KG, type SleepWindow } from './forecast.ts';
import { BoxFrost } from './freezing-forecast.ts';
import { findModes } from './modes.ts';
import { makeRecursion } from './run.ts';

interface SearchPlace {
  readonly id: string;
  readonly forecast: PlaceForecast;
}

export interface BuildSearchRequest {
  /** Where the box would stand now. */
  readonly place: SearchPlace;
  /** Other places the keeper has or could use; tried only when the present one will not do. */
  readonly otherPlaces?: readonly SearchPlace[];
  readonly box: BoxDescription;
  readonly sleep: SleepWindow;
  readonly band?: Band;
  /** Told after each wall thickness how many builds have been tried in all, and what else there may be to try. */
  readonly onProgress?: (tried: number, atMost: number) => void;
  /** Choices in place of those on sale. */
  readonly choices?: {
    readonly wallMm?: readonly number[];
    readonly litres?: readonly number[];
    readonly shiftWeeks?: readonly number[];
  };
}

/** One build, what it costs in points, and how its winters came out. */
export interface ScoredBuild {
  readonly placeId: string;
  readonly box: BoxDescription;
  readonly sleep: SleepWindow;
  readonly wallMm: number;
  readonly litres: number;
  readonly shiftWeeks: number;
  readonly cost: number;
  readonly score: BuildScore;
}

export interface BuildScore {
  readonly winters: number;
  /** Share of the winters kept: nothing under 2 or over 10 °C, nine hours in ten in the band. */
  readonly keptShare: number;
  readonly inBandShare: number;
  /** Hours a winter, on average, beyond the band on either side, and beyond the limits that harm. */
  readonly belowH: number;
  readonly aboveH: number;
  readonly coldH: number;
  readonly warmH: number;
  readonly meanC: number;
  readonly lowestC: number;
  readonly highestC: number;
}

/** Errors of this size do not change which build is better; the answer shown for a build is computed to 0.002 K. */
const SEARCH_ACCURACY_K = 0.02;
/** The start of a run is forgotten after this many of the slowest time constants. */
const FORGET = 6;

/** One winter of a place, and the part of it that each sleep covers. */
interface SearchWinter {
  readonly airC: Float64Array;
  readonly floorC: Float64Array;
  readonly stepS: number;
  readonly sleeps: readonly { readonly sleep: number; readonly countFrom: number; readonly countTo: number }[];
  /** First and last sample any of them counts. */
  readonly firstFrom: number;
  readonly lastTo: number;
}

/** A winter known well enough to judge by, and the samples of it that the sleep counts. */
interface JudgedStretch {
  readonly winter: PlaceForecast['winters'][number];
  readonly countFrom: number;
  readonly countTo: number;
}

/** The stretches of the sleep to judge boxes by: half-known winters are none. */
function judgedStretches(place: PlaceForecast, sleep: SleepWindow): JudgedStretch[] {
  return reachedStretches(place, sleep).flatMap(({ place: winter, from, to }) => {
    const countFrom = Math.max(from, 0);
    const countTo = Math.min(to, winter.airC.length - 1);
    if (countTo - countFrom < 0.8 * (to - from)) return [];
    const unknown = winter.unknownShare?.subarray(countFrom, countTo + 1);
    if (unknown && unknown.reduce((sum, share) => sum + share, 0) > 0.1 * unknown.length) return [];
    return [{ winter, countFrom, countTo }];
  });
}

/** True when some winter is known over the sleep and over every move of it that a search tries. */
export function canSearch(place: PlaceForecast, sleep: SleepWindow): boolean {
  return [...buildChoices.shiftWeeks, -1, 1].every(
    (weeks) => judgedStretches(place, movedSleep(sleep, weeks)).length > 0,
  );
}

/** A place's winters that sleeps cover, to be scanned with boxes. */
function wintersOf(place: PlaceForecast, sleeps: readonly SleepWindow[]): SearchWinter[] {
  const found = new Map<
    Float64Array,
    SearchWinter & { sleeps: SearchWinter['sleeps'][number][]; firstFrom: number; lastTo: number }
  >();
  sleeps.forEach((window, sleep) => {
    const judged = judgedStretches(place, window);
    if (judged.length === 0) throw new RangeError('no winter of the record reaches the days of the sleep');
    for (const { winter, countFrom, countTo } of judged) {
      const { airC, floorC, stepS } = winter;
      let one = found.get(airC);
      if (!one) {
        one = { airC, floorC, stepS, sleeps: [], firstFrom: countFrom, lastTo: countTo };
        found.set(airC, one);
      }
      one.sleeps.push({ sleep, countFrom, countTo });
      one.firstFrom = Math.min(one.firstFrom, countFrom);
      one.lastTo = Math.max(one.lastTo, countTo);
    }
  });
  return [...found.values()];
}

/** Scores boxes in one place. Keeps the work that depends only on the place and the dates. */
export class BuildScorer {
  readonly #place: PlaceForecast;
  readonly #band: Band;
  readonly #winters = new Map<string, readonly SearchWinter[]>();
  #scratch = new Float64Array(0);

  constructor(place: PlaceForecast, band: Band = usualBand) {
    this.#place = place;
    this.#band = band;
  }

  /** Scores of a box for each sleep; the box is solved once. A winter in which its bottles freeze is run with their ice. */
  scores(box: BoxDescription, sleeps: readonly SleepWindow[]): BuildScore[] {
    const model = buildBox(box);
    const modes = findModes(model.network);
    const heatW = ((box.animal?.massG ?? 0) / 1000) * SLEEPING_HEAT_W_PER_KG;
    const limits = { ...this.#band, coldC: keptWinter.coldC, warmC: keptWinter.warmC };
    const count: ScanCount = { inBand: 0, cold: 0, warm: 0, below: 0, above: 0, sumC: 0, lowestC: 0, highestC: 0 };
    const recursions = new Map<number, ReturnType<typeof makeRecursion>>();
    const frost = new BoxFrost(model, modes, heatW, [model.nodes.animal], SEARCH_ACCURACY_K);
    const sums = sleeps.map(emptySum);
    for (const winter of this.#wintersFor(sleeps)) {
      const { airC, floorC, stepS, firstFrom, lastTo } = winter;
      let recursion = recursions.get(stepS);
      if (!recursion) {
        recursion = makeRecursion(modes, model.nodes.animal, stepS, { accuracyK: SEARCH_ACCURACY_K });
        recursions.set(stepS, recursion);
      }
      if (this.#scratch.length < airC.length) this.#scratch = new Float64Array(airC.length);
      const forget = Math.ceil(FORGET / (modes.rates[0]! * stepS));
      const scratch = this.#scratch;
      const frosty = frost.courses(airC, floorC, stepS, firstFrom, lastTo);
      for (const { sleep, countFrom, countTo } of winter.sleeps) {
        if (frosty) countSamples(frosty.tempC[0]!, countFrom, countTo, limits, count);
        else {
          const runFrom = Math.max(0, countFrom - forget);
          scanStretch(recursion, { airC, floorC, runFrom, countFrom, countTo }, heatW, limits, scratch, count);
        }
        addCount(sums[sleep]!, count, countTo - countFrom + 1, stepS / 3600);
      }
    }
    return sums.map(scoreOf);
  }

  #wintersFor(sleeps: readonly SleepWindow[]): readonly SearchWinter[] {
    const key = sleeps.map(({ from, days }) => `${from}/${days}`).join();
    let winters = this.#winters.get(key);
    if (!winters) {
      winters = wintersOf(this.#place, sleeps);
      this.#winters.set(key, winters);
    }
    return winters;
  }
}

const emptySum = () => ({
  winters: 0,
  kept: 0,
  inBand: 0,
  below: 0,
  above: 0,
  cold: 0,
  warm: 0,
  hours: 0,
  sumC: 0,
  samples: 0,
  lowestC: Number.POSITIVE_INFINITY,
  highestC: Number.NEGATIVE_INFINITY,
});
type ScoreSum = ReturnType<typeof emptySum>;

/** Adds one winter's count of `samples`, each `hour` hours long. */
function addCount(sum: ScoreSum, count: ScanCount, samples: number, hour: number): void {
  sum.winters += 1;
  if (count.cold === 0 && count.warm === 0 && count.inBand >= keptWinter.inBandShare * samples) sum.kept += 1;
  sum.inBand += count.inBand * hour;
  sum.below += count.below * hour;
  sum.above += count.above * hour;
  sum.cold += count.cold * hour;
  sum.warm += count.warm * hour;
  sum.hours += samples * hour;
  sum.sumC += count.sumC;
  sum.samples += samples;
  sum.lowestC = Math.min(sum.lowestC, count.lowestC);
  sum.highestC = Math.max(sum.highestC, count.highestC);
}

const scoreOf = (sum: ScoreSum): BuildScore => ({
  winters: sum.winters,
  keptShare: sum.kept / sum.winters,
  inBandShare: sum.inBand / sum.hours,
  belowH: sum.below / sum.winters,
  aboveH: sum.above / sum.winters,
  coldH: sum.cold / sum.winters,
  warmH: sum.warm / sum.winters,
  meanC: sum.sumC / sum.samples,
  lowestC: sum.lowestC,
  highestC: sum.highestC,
});

/** The box with its outermost shell's first wall at a thickness and so many litres of bottles in it. */
export function withWallAndWater(box: BoxDescription, wallMm: number, litres: number): BoxDescription {
  const shells = box.shells.map((shell, k) => {
    if (k > 0) return shell;
    const walls = shell.walls.map((layer, i) => (i === insulationOf(box) ? { ...layer, thicknessMm: wallMm } : layer));
    return { ...shell, walls };
  });
  const { ballast: _, ...rest } = box;
  const first = box.ballast?.[0];
  return {
    ...rest,
    shells,
    ...(litres > 0
      ? {
          ballast: [
            { bottles: litres / 1.5, litresEach: 1.5, ...(first?.shell === undefined ? {} : { shell: first.shell }) },
          ],
        }
      : {}),
  };
}

/** The layer of the outermost wall that would be made thicker: the one that insulates most now. */
function insulationOf(box: BoxDescription): number {
  const { walls } = box.shells[0]!;
  const polystyrene = walls.findIndex((layer) => layer.material === 'polystyrene');
  if (polystyrene >= 0) return polystyrene;
  return walls.reduce((best, layer, i) => (layer.thicknessMm > walls[best]!.thicknessMm ? i : best), 0);
}

export const wallOf = (box: BoxDescription): number => box.shells[0]!.walls[insulationOf(box)]!.thicknessMm;
export const litresOf = (box: BoxDescription): number =>
  (box.ballast ?? []).reduce((sum, one) => sum + one.bottles * one.litresEach, 0);

/** A sleep moved by whole weeks. */
export function movedSleep(sleep: SleepWindow, weeks: number): SleepWindow {
  return weeks === 0 ? sleep : { ...sleep, from: addDays(`2001-${sleep.from}`, 7 * weeks).slice(5) };
}

export interface BuildSearchResult {
  /** Builds that keep 95 % of the winters, cheapest first, at most three; different in more than the dates. */
  readonly best: readonly ScoredBuild[];
  /** The keeper's own build. */
  readonly now: ScoredBuild;
  /** Of all builds tried in the present place the one that keeps most winters, then the steadiest. */
  readonly nearest: ScoredBuild;
  readonly tried: number;
}

/** Tries every combination of the choices in the place, then, only when none keeps 95 % of the winters, in the other places. */
export function searchBuilds(asked: BuildSearchRequest): BuildSearchResult {
  const { place, box, sleep, band = usualBand } = asked;
  const report = progressOf(asked);
  const here = buildsIn(place, asked, band, 0, report);
  const own = new BuildScorer(place.forecast, band).scores(box, [sleep])[0]!;
  const now: ScoredBuild = {
    placeId: place.id,
    box,
    sleep,
    wallMm: wallOf(box),
    litres: litresOf(box),
    shiftWeeks: 0,
    cost: 0,
    score: own,
  };
  const all = [now, ...here];
  const keeps = (build: ScoredBuild) => build.score.keptShare >= keptWinter.ofWinters;
  let found = all.filter(keeps);
  let tried = all.length;
  if (found.length === 0)
    for (const other of asked.otherPlaces ?? []) {
      const builds = buildsIn(other, asked, band, buildCosts.place, report);
      tried += builds.length;
      found = [...found, ...builds.filter(keeps)];
    }
  const nearest = all.reduce((a, b) => (better(b.score, a.score) ? b : a));
  return { best: cheapestThree(found), now, nearest, tried };
}

const better = (a: BuildScore, b: BuildScore) =>
  a.keptShare > b.keptShare ||
  (a.keptShare === b.keptShare &&
    (a.coldH + a.warmH < b.coldH + b.warmH - 1e-9 ||
      (Math.abs(a.coldH + a.warmH - b.coldH - b.warmH) <= 1e-9 && a.inBandShare > b.inBandShare)));

/** Counts the builds of all places towards the most there can be. */
function progressOf({ otherPlaces = [], choices, onProgress }: BuildSearchRequest): (more: number) => void {
  const sizes = (['wallMm', 'litres', 'shiftWeeks'] as const).map((of) => (choices?.[of] ?? buildChoices[of]).length);
  const atMost = (1 + otherPlaces.length) * sizes.reduce((product, size) => product * size, 1);
  let tried = 0;
  return (more) => {
    tried += more;
    onProgress?.(tried, atMost);
  };
}

function buildsIn(
  place: SearchPlace,
  asked: BuildSearchRequest,
  band: Band,
  extraCost: number,
  report: (more: number) => void,
): ScoredBuild[] {
  const { box, sleep } = asked;
  const wallMm = asked.choices?.wallMm ?? buildChoices.wallMm;
  const litres = asked.choices?.litres ?? buildChoices.litres;
  const shiftWeeks = asked.choices?.shiftWeeks ?? buildChoices.shiftWeeks;
  const [wallNow, litresNow] = [wallOf(box), litresOf(box)];
  const scorer = new BuildScorer(place.forecast, band);
  const sleeps = shiftWeeks.map((weeks) => movedSleep(sleep, weeks));
  const builds: ScoredBuild[] = [];
  for (const wall of wallMm) {
    for (const water of litres) {
      const tried = withWallAndWater(box, wall, water);
      scorer.scores(tried, sleeps).forEach((score, i) => {
        builds.push({
          placeId: place.id,
          box: tried,
          sleep: sleeps[i]!,
          wallMm: wall,
          litres: water,
          shiftWeeks: shiftWeeks[i]!,
          cost:
            extraCost +
            (Math.max(0, wall - wallNow) / 10) * buildCosts.wallPer10Mm +
            Math.max(0, water - litresNow) * buildCosts.ballastPerLitre +
            Math.abs(shiftWeeks[i]!) * buildCosts.datesPerWeek,
          score,
        });
      });
    }
    report(litres.length * sleeps.length);
  }
  return builds;
}

/** The three cheapest, no two alike but for a bottle or two. */
function cheapestThree(found: readonly ScoredBuild[]): ScoredBuild[] {
  const sorted = [...found].sort((a, b) => a.cost - b.cost || b.score.inBandShare - a.score.inBandShare);
  const best: ScoredBuild[] = [];
  for (const build of sorted) {
    const alike = best.some(
      (one) => one.placeId === build.placeId && one.wallMm === build.wallMm && one.shiftWeeks === build.shiftWeeks,
    );
    if (!alike) best.push(build);
    if (best.length === 3) break;
  }
  return best;
}

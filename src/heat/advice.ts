/** What would make a box stay in its band: how much each value matters, which single change helps most, and when no box can. */
import { figure, percent, type TemperatureUnit, temperature } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import { usualBand } from './answer.ts';
import { buildChoices, keptWinter } from './build-costs.ts';
import {
  type BuildScore,
  BuildScorer,
  type BuildSearchRequest,
  type BuildSearchResult,
  litresOf,
  movedSleep,
  type ScoredBuild,
  searchBuilds,
  wallOf,
  withWallAndWater,
} from './build-search.ts';
import { type PlaceForecast, type SleepWindow, sleepStretches } from './forecast.ts';

/** Change of an average winter's hours for a small change of one value. */
interface Sensitivity {
  readonly of: 'wall' | 'water' | 'dates' | 'place-mean';
  /** 10 mm of wall, 1 litre of water, 1 week later, 1 K warmer place. */
  readonly hoursBelowBand: number;
  readonly hoursAboveBand: number;
  readonly hoursBeyondLimits: number;
}

interface SingleChange {
  readonly change: 'wall' | 'water' | 'earlier' | 'later' | 'place';
  /** Millimetres, litres, weeks; for a place its id. */
  readonly to: number | string;
  readonly score: BuildScore;
  /** Fewer hours outside the band in an average winter, hours beyond 2 and 10 °C counted five times. */
  readonly gainH: number;
}

/** What stands in the way when no build will do: the place's own warmth or cold, or its swings. */
type Trouble = 'none' | 'place-too-warm' | 'place-too-cold' | 'swings';

export interface BuildAdvice {
  readonly search: BuildSearchResult;
  readonly sensitivities: readonly Sensitivity[];
  /** Single changes that help, best first. */
  readonly changes: readonly SingleChange[];
  readonly trouble: Trouble;
  readonly messages: readonly Message[];
}

/** Hours beyond the limits that harm count this many times. */
const HARM = 5;
/** Fewer winters than this are told by their number: of them, 95 in a hundred are all. */
export const HUNDRED_FROM = 20;
/** A box of ordinary size cannot bridge a spell of this many days. */
const SPELL_DAYS = 10;

const harm = (score: BuildScore) => score.belowH + score.aboveH + (HARM - 1) * (score.coldH + score.warmH);

/** Advice on a build. `placeName` gives a place's name in the reader's words. */
export function adviseBuild(
  asked: BuildSearchRequest,
  placeName: (id: string) => string = (id) => id,
  unit: TemperatureUnit = 'C',
): BuildAdvice {
  const search = searchBuilds(asked);
  const scorer = new BuildScorer(asked.place.forecast, asked.band ?? usualBand);
  const sensitivities = sensitivitiesOf(asked, scorer);
  const changes = singleChanges(asked, scorer, search.now);
  const placeC = placeMeans(asked.place.forecast, asked.sleep);
  const trouble = troubleOf(asked, search, placeC);
  return {
    search,
    sensitivities,
    changes,
    trouble,
    messages: inWords(asked, search, changes, trouble, placeC, placeName, unit),
  };
}

/** Derivatives by central differences on the same winters. */
function sensitivitiesOf(asked: BuildSearchRequest, scorer: BuildScorer): Sensitivity[] {
  const { box, sleep, band = usualBand } = asked;
  const [wall, litres] = [wallOf(box), litresOf(box)];
  const one = (wallMm: number, water: number) => scorer.scores(withWallAndWater(box, wallMm, water), [sleep])[0]!;
  const slope = (of: Sensitivity['of'], high: BuildScore, low: BuildScore, steps: number): Sensitivity => ({
    of,
    hoursBelowBand: (high.belowH - low.belowH) / steps,
    hoursAboveBand: (high.aboveH - low.aboveH) / steps,
    hoursBeyondLimits: (high.coldH + high.warmH - low.coldH - low.warmH) / steps,
  });
  const thin = Math.max(wall - 5, wall / 2);
  const dry = Math.max(litres - 0.5, 0);
  const [earlier, later] = scorer.scores(box, [movedSleep(sleep, -1), movedSleep(sleep, 1)]);
  // A place warmer by 1 K warms a box by 1 K throughout: the same winters against limits half a kelvin either way.
  const shifted = (by: number) =>
    new BuildScorer(shiftedPlace(asked.place.forecast, by), band).scores(box, [sleep])[0]!;
  return [
    slope('wall', one(wall + 5, litres), one(thin, litres), (wall + 5 - thin) / 10),
    slope('water', one(wall, litres + 0.5), one(wall, dry), litres + 0.5 - dry),
    slope('dates', later!, earlier!, 2),
    slope('place-mean', shifted(0.5), shifted(-0.5), 1),
  ];
}

function shiftedPlace(place: PlaceForecast, byK: number): PlaceForecast {
  return {
    ...place,
    winters: place.winters.map((winter) => ({
      ...winter,
      airC: winter.airC.map((value) => value + byK),
      floorC: winter.floorC.map((value) => value + byK),
    })),
  };
}

function singleChanges(asked: BuildSearchRequest, scorer: BuildScorer, now: ScoredBuild): SingleChange[] {
  const { box, sleep, band = usualBand } = asked;
  const thicker = (asked.choices?.wallMm ?? buildChoices.wallMm).find((mm) => mm >= now.wallMm + 20);
  const wetter = now.litres + 6;
  const changes: Omit<SingleChange, 'gainH'>[] = [];
  if (thicker !== undefined)
    changes.push({
      change: 'wall',
      to: thicker,
      score: scorer.scores(withWallAndWater(box, thicker, now.litres), [sleep])[0]!,
    });
  changes.push({
    change: 'water',
    to: wetter,
    score: scorer.scores(withWallAndWater(box, now.wallMm, wetter), [sleep])[0]!,
  });
  for (const [change, weeks] of [
    ['earlier', -2],
    ['later', 2],
  ] as const)
    changes.push({ change, to: 2, score: scorer.scores(box, [movedSleep(sleep, weeks)])[0]! });
  for (const other of asked.otherPlaces ?? [])
    changes.push({
      change: 'place',
      to: other.id,
      score: new BuildScorer(other.forecast, band).scores(box, [sleep])[0]!,
    });
  return changes
    .map((one) => ({ ...one, gainH: harm(now.score) - harm(one.score) }))
    .filter((one) => one.gainH > 1)
    .sort((a, b) => b.gainH - a.gainH);
}

interface PlaceMeans {
  /** Mean of the place's air during the sleep, over the winters. */
  readonly meanC: number;
  /** Share of the winters with a spell of ten days whose mean lies over, or under, the band. */
  readonly warmSpells: (highC: number) => number;
  readonly coldSpells: (lowC: number) => number;
}

function placeMeans(place: PlaceForecast, sleep: SleepWindow): PlaceMeans {
  let sum = 0;
  let count = 0;
  const warmest: number[] = [];
  const coldest: number[] = [];
  for (const { place: winter, from: begins, to: ends } of sleepStretches(place, sleep)) {
    const from = Math.max(begins, 0);
    const to = Math.min(ends, winter.airC.length - 1);
    const spell = Math.round((SPELL_DAYS * 86_400) / winter.stepS);
    let rolling = 0;
    let high = Number.NEGATIVE_INFINITY;
    let low = Number.POSITIVE_INFINITY;
    for (let k = from; k <= to; k++) {
      const tempC = winter.airC[k]!;
      sum += tempC;
      count += 1;
      rolling += tempC;
      if (k - from < spell - 1) continue;
      high = Math.max(high, rolling / spell);
      low = Math.min(low, rolling / spell);
      rolling -= winter.airC[k - spell + 1]!;
    }
    if (Number.isFinite(high)) {
      warmest.push(high);
      coldest.push(low);
    }
  }
  return {
    meanC: sum / count,
    warmSpells: (highC) => warmest.filter((value) => value > highC).length / Math.max(warmest.length, 1),
    coldSpells: (lowC) => coldest.filter((value) => value < lowC).length / Math.max(coldest.length, 1),
  };
}

/** When nothing in the present place keeps 95 % of the winters: is it the place's mean, or its swings? */
function troubleOf(asked: BuildSearchRequest, search: BuildSearchResult, place: PlaceMeans): Trouble {
  const here = search.best.some((build) => build.placeId === asked.place.id);
  if (here) return 'none';
  const band = asked.band ?? usualBand;
  const { aboveH, belowH } = search.nearest.score;
  const tooMany = 1 - keptWinter.ofWinters;
  if (place.meanC > band.highC) return 'place-too-warm';
  if (place.meanC < band.lowC) return 'place-too-cold';
  if (aboveH >= belowH && place.warmSpells(band.highC) > tooMany) return 'place-too-warm';
  if (belowH > aboveH && place.coldSpells(band.lowC) > tooMany) return 'place-too-cold';
  return 'swings';
}

function inWords(
  asked: BuildSearchRequest,
  search: BuildSearchResult,
  changes: readonly SingleChange[],
  trouble: Trouble,
  place: PlaceMeans,
  placeName: (id: string) => string,
  unit: TemperatureUnit,
): Message[] {
  const messages: Message[] = [];
  const { now, best } = search;
  const { winters } = now.score;
  if (trouble === 'none' && now.score.keptShare >= keptWinter.ofWinters)
    messages.push(
      winters < HUNDRED_FROM ? message('heat.advice.good-known', { count: winters }) : message('heat.advice.good'),
    );
  else if (best.length > 0) messages.push(message('heat.advice.found', { count: best.length, tried: search.tried }));
  for (const build of best)
    messages.push(
      message(build.placeId === asked.place.id ? 'heat.advice.build' : 'heat.advice.build-elsewhere', {
        place: placeName(build.placeId),
        wall: figure(build.wallMm),
        litres: figure(build.litres, build.litres % 1 ? 1 : 0),
        kept: percent(build.score.keptShare),
        dates: build.sleep.from,
      }),
    );
  const band = asked.band ?? usualBand;
  const mean = temperature(place.meanC, unit);
  if (trouble === 'place-too-warm')
    messages.push(message('heat.advice.place-too-warm', { mean, high: temperature(band.highC, unit) }));
  if (trouble === 'place-too-cold')
    messages.push(message('heat.advice.place-too-cold', { mean, low: temperature(band.lowC, unit) }));
  if (trouble === 'swings')
    messages.push(message('heat.advice.swings', { kept: percent(search.nearest.score.keptShare) }));
  if (best.length === 0) messages.push(message('heat.advice.refrigerator', { tried: search.tried }));
  const first = changes[0];
  if (first)
    messages.push(
      message(`heat.advice.change.${first.change}`, {
        to: first.change === 'place' ? placeName(String(first.to)) : figure(Number(first.to)),
        before: percent(now.score.inBandShare),
        after: percent(first.score.inBandShare),
      }),
    );
  if (trouble !== 'none' && !changes.some((one) => one.change === 'water'))
    messages.push(message('heat.advice.water-idle'));
  return messages;
}

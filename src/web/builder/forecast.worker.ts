import { expose, transfer } from 'comlink';
import { adviseBuild, type BuildAdvice } from '../../heat/advice.ts';
import { type AnswerOverWinters, answerOverWinters, isWhole, type WinterAnswer } from '../../heat/answer.ts';
import { keptWinter } from '../../heat/build-costs.ts';
import { canSearch, type ScoredBuild } from '../../heat/build-search.ts';
import type { BoxDescription, PlaceDescription, WeatherPlace } from '../../heat/description.ts';
import {
  type BoxFigures,
  type BoxForecast,
  forecastBox,
  forecastPlace,
  type PlaceForecast,
} from '../../heat/forecast.ts';
import { type PreparedWinters, prepareWinters, USUAL_CLOUD_SHARE } from '../../heat/place-weather.ts';
import { type AnswerRange, answerRange } from '../../heat/range.ts';
import { placeOfReadings, type ReadPlace } from '../../heat/read-place.ts';
import { forecastRefrigerator, type RefrigeratorForecast } from '../../heat/refrigerator-forecast.ts';
import { isDay } from '../../measure/day.ts';
import { percent, type TemperatureUnit } from '../../measure/figures.ts';
import { dayInZone } from '../../measure/zone.ts';
import type { Winters } from '../../schema/winters.ts';
import type { Site } from '../../weather/day-curve.ts';
import type { MonthlyNormals } from '../../weather/normals.ts';
import type { WeatherSeries } from '../../weather/series.ts';
import { cutWinters, type Winter } from '../../weather/winters.ts';
import { WINTER_DAYS, winterFrom } from '../../winter/season.ts';
import { type Message, message } from '../../wording/say.ts';

/** One winter as the server hands it out; a missing hour is null. */
type WinterSent = Winters['winters'][number];

export interface Question {
  readonly place: PlaceDescription;
  readonly box: BoxDescription;
  readonly sleep: { readonly from: string; readonly days: number };
}

export interface WinterDrawn {
  readonly label: string;
  readonly stepS: number;
  readonly insideC: Float32Array;
  /** Outdoors; the air of the place where it goes by readings, of the shelf in a refrigerator. */
  readonly outsideC: Float32Array;
  readonly answer: WinterAnswer;
}

/** How far the probe reads from the animal, K; above 0 where it reads warmer. */
export interface ProbeDifference {
  readonly meanK: number;
  readonly lowestK: number;
  readonly highestK: number;
}

export interface Forecast {
  /** What was asked, so that what is drawn and what it is drawn for change together. */
  readonly question: Question;
  readonly winters: readonly WinterDrawn[];
  readonly answer: AnswerOverWinters;
  /** Absent in a refrigerator, whose thermostat holds the box. */
  readonly box?: BoxFigures;
  readonly refrigerator?: Pick<RefrigeratorForecast, 'powerCut' | 'duty' | 'shelfDifferenceK'>;
  readonly probe: ProbeDifference | undefined;
  readonly notes: readonly Message[];
  /** Present for a place that goes by its readings. */
  readonly read?: {
    /** What is known of each winter's sleep, in the order of the winters. */
    readonly winters: readonly ReadSleep[];
    /** False where no winter is known as a whole, with two weeks before and after it: nothing to try other builds on. */
    readonly searchable: boolean;
  };
}

/** How far one winter's sleep is known. */
export interface ReadSleep {
  readonly winter: string;
  readonly whole: boolean;
  readonly firstMs: number;
  readonly lastMs: number;
}

/** Readings of too few days of the sleep: no forecast. */
export interface TooFewRead extends Pick<ReadPlace, 'mostDays' | 'leastDays'> {
  readonly tooFew: true;
}

export interface PlaceOffered {
  readonly id: string;
  readonly name: string;
  readonly description: WeatherPlace;
}

/** One of the builds found, with the full answer over its winters. */
export interface ConfirmedBuild extends ScoredBuild {
  readonly answer: AnswerOverWinters;
}

export interface Advised {
  readonly advice: BuildAdvice;
  readonly best: readonly ConfirmedBuild[];
  readonly range: AnswerRange;
}

let prepared: PreparedWinters | undefined;
/** The air of the one place that goes by its readings, cut into winters. */
let ownAir: PreparedWinters | undefined;
const places = new Map<string, PlaceForecast>();
const PLACES_KEPT = 10;

const winters = (): PreparedWinters => {
  if (!prepared) throw new Error('no winters');
  return prepared;
};

/** A place is worked out once and kept while only the box changes. */
function placeFor(place: WeatherPlace, sleep: Question['sleep']): PlaceForecast {
  if (place.kind === 'readings') {
    const read = readIn(sleep).place;
    if (!read) throw new Error('no readings');
    return read;
  }
  const key = JSON.stringify(place);
  let known = places.get(key);
  if (!known) {
    known = forecastPlace(place, winters());
    if (places.size >= PLACES_KEPT) places.delete(places.keys().next().value as string);
    places.set(key, known);
  }
  return known;
}

const readIn = (sleep: Question['sleep']): ReadPlace =>
  ownAir ? placeOfReadings(ownAir, sleep) : { place: undefined, mostDays: 0, leastDays: 0 };

const column = (values: readonly (number | null)[]) => Float64Array.from(values, (value) => value ?? Number.NaN);

function probeDifference(series: readonly { animalC: Float64Array; probeC: Float64Array }[]) {
  let [sum, count] = [0, 0];
  let [lowestK, highestK] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { animalC, probeC } of series)
    for (let k = 0; k < animalC.length; k++) {
      const differenceK = probeC[k]! - animalC[k]!;
      if (Number.isNaN(differenceK)) continue;
      sum += differenceK;
      count += 1;
      if (differenceK < lowestK) lowestK = differenceK;
      if (differenceK > highestK) highestK = differenceK;
    }
  return count > 0 ? { meanK: sum / count, lowestK, highestK } : undefined;
}

/** What was taken for granted, told beside the answer. */
function notesOn(place: PlaceDescription): Message[] {
  const notes: Message[] = [];
  if (place.kind !== 'building') return notes;
  const { cloudAssumed, groundAssumed } = winters();
  if (cloudAssumed) notes.push(message('heat.note.cloudAssumed', { percent: percent(USUAL_CLOUD_SHARE) }));
  if (groundAssumed) notes.push(message('heat.note.groundAssumed'));
  if (!place.tuning) notes.push(message('heat.note.presetAssumed'));
  return notes;
}

/** A forecast with its long series handed over instead of copied. */
const handedOver = (forecast: Forecast): Forecast =>
  transfer(
    forecast,
    forecast.winters.flatMap((one) => [one.insideC.buffer, one.outsideC.buffer]),
  );

function coldStore(question: Question, label: string): Forecast {
  const { place, box, sleep } = question;
  if (place.kind !== 'refrigerator') throw new Error('not a refrigerator');
  const found = forecastRefrigerator(place, box, {
    label,
    startMs: 0,
    // Any year will do: the kitchen has the same one every year.
    firstDay: isDay(`2001-${sleep.from}`) ? `2001-${sleep.from}` : '2001-03-01',
    days: sleep.days,
    latitudeDeg: winters().site.latitudeDeg,
  });
  const { stepS, animalC, shelfAirC, winter, answer, powerCut, duty, shelfDifferenceK, notes } = found;
  const drawn: WinterDrawn = {
    label,
    stepS,
    insideC: new Float32Array(animalC),
    outsideC: new Float32Array(shelfAirC),
    answer: winter,
  };
  return handedOver({
    question,
    winters: [drawn],
    answer,
    refrigerator: { powerCut, duty, shelfDifferenceK },
    probe: probeDifference([found]),
    notes,
  });
}

const drawn = (found: BoxForecast): WinterDrawn[] =>
  found.winters.map((one) => ({
    label: one.label,
    stepS: one.stepS,
    insideC: new Float32Array(one.animalC),
    outsideC: new Float32Array(one.outdoorC),
    answer: one.answer,
  }));

/** A box where the readings are the air: a winter known in part counts only where none is known as a whole. */
function byReadings(question: Question): Forecast | TooFewRead {
  const { box, sleep } = question;
  const { place, ...days } = readIn(sleep);
  if (!place) return { tooFew: true, ...days };
  const all = forecastBox({ place, box, sleep });
  // A box that remembers for longer than the readings last has nothing known of it.
  const found = { ...all, winters: all.winters.filter(({ answer }) => answer.unknownHours < answer.hours) };
  if (found.winters.length === 0) return { tooFew: true, ...days };
  const answered = found.winters.map(({ answer }) => answer);
  const whole = answered.filter(isWhole);
  return handedOver({
    question,
    winters: drawn(found),
    answer: answerOverWinters(whole.length > 0 ? whole : answered),
    box: found.box,
    probe: probeDifference(found.winters),
    notes: [],
    read: {
      winters: found.winters.map(({ startMs, stepS, animalC, answer }): ReadSleep => {
        const at = (index: number) => startMs + index * stepS * 1000;
        const known = (tempC: number) => !Number.isNaN(tempC);
        return {
          winter: answer.winter,
          whole: isWhole(answer),
          firstMs: at(animalC.findIndex(known)),
          lastMs: at(animalC.findLastIndex(known)),
        };
      }),
      searchable: canSearch(place, sleep),
    },
  });
}

const keeps = (found: BoxForecast): boolean => {
  const kept = found.winters.filter(
    ({ answer }) =>
      answer.under.every((one) => one.limitC !== keptWinter.coldC || one.hours === 0) &&
      answer.over.every((one) => one.limitC !== keptWinter.warmC || one.hours === 0) &&
      answer.steadiness >= keptWinter.inBandShare,
  );
  return kept.length >= keptWinter.ofWinters * found.winters.length;
};

/** The winters that readings hold, each as long as the weather of a winter. */
const readWinters = (site: Site, air: WeatherSeries): Winter[] =>
  cutWinters(air, site.zone, {
    from: winterFrom(dayInZone(air.startMs, site.zone), site.latitudeDeg).slice(5),
    days: WINTER_DAYS,
  });

const answers = {
  /** Takes the winters once, and the air of a place that goes by its readings; they are made ready for any place and box. */
  setWinters(
    site: Site,
    sent: readonly WinterSent[],
    normals: MonthlyNormals | undefined,
    air: WeatherSeries | undefined,
  ): void {
    places.clear();
    const outdoors = sent.map(
      (one): Winter => ({
        label: one.label,
        origin: one.origin,
        fromDay: one.fromDay,
        missingShare: one.missingShare,
        series: {
          startMs: one.startMs,
          stepS: one.stepS,
          airTempC: column(one.airTempC),
          ...(one.cloudShare ? { cloudShare: column(one.cloudShare) } : {}),
        },
      }),
    );
    prepared = outdoors.length > 0 ? prepareWinters(site, outdoors, normals ? { normals } : undefined) : undefined;
    const read = air ? readWinters(site, air) : [];
    ownAir = read.length > 0 ? prepareWinters(site, read) : undefined;
  },

  /**
   * The box through all winters, with every hour for the chart. `label` names what stands for the winters where no winter reaches.
   */
  forecast(question: Question, label: string): Forecast | TooFewRead {
    const { place, sleep } = question;
    if (place.kind === 'refrigerator') return coldStore(question, label);
    if (place.kind === 'readings') return byReadings(question);
    const found = forecastBox({ ...question, place: placeFor(place, sleep) });
    return handedOver({
      question,
      winters: drawn(found),
      answer: found.answer,
      box: found.box,
      probe: probeDifference(found.winters),
      notes: notesOn(place),
    });
  },

  /**
   * What would make the build stay in its band: the search, the sensitivities, how far the answer may lie off. The search judges to 0.02 K:
   * the builds found are run once more in full, and one that lies on a limit and then fails is left out.
   */
  advise(
    question: Question,
    here: string,
    others: readonly PlaceOffered[],
    unit: TemperatureUnit,
    progress: (share: number) => void,
  ): Advised {
    const { place, box, sleep } = question;
    if (place.kind === 'refrigerator') throw new Error('a refrigerator is not searched');
    const names = new Map(others.map((one) => [one.id, one.name]));
    const advice = adviseBuild(
      {
        place: { id: 'here', forecast: placeFor(place, sleep) },
        otherPlaces: prepared
          ? others.map(({ id, description }) => ({ id, forecast: placeFor(description, sleep) }))
          : [],
        box,
        sleep,
        onProgress: (tried, atMost) => progress(tried / atMost),
      },
      (id) => names.get(id) ?? here,
      unit,
    );
    const best = advice.search.best.flatMap((build): ConfirmedBuild[] => {
      const where = others.find((one) => one.id === build.placeId)?.description ?? place;
      const found = forecastBox({ place: placeFor(where, sleep), box: build.box, sleep: build.sleep });
      return keeps(found) ? [{ ...build, answer: found.answer }] : [];
    });
    return { advice, best, range: answerRange(place, box, placeFor(place, sleep).prepared, sleep) };
  },
};

export type ForecastWorker = typeof answers;
expose(answers);

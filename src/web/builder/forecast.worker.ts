import { expose, transfer } from 'comlink';
import type { AnswerOverWinters, WinterAnswer } from '../../heat/answer.ts';
import type { BoxDescription, PlaceDescription } from '../../heat/description.ts';
import { type BoxFigures, forecastBox, forecastPlace, type PlaceForecast } from '../../heat/forecast.ts';
import { type PreparedWinters, prepareWinters } from '../../heat/place-weather.ts';
import type { Winters } from '../../schema/winters.ts';
import type { Site } from '../../weather/day-curve.ts';
import type { MonthlyNormals } from '../../weather/normals.ts';
import type { Winter } from '../../weather/winters.ts';

/** One winter as the server hands it out; a missing hour is null. */
type WinterSent = Winters['winters'][number];

export interface Question {
  readonly place: PlaceDescription;
  readonly box: BoxDescription;
  readonly sleep: { readonly from: string; readonly days: number };
}

export interface WinterDrawn {
  readonly label: string;
  readonly insideC: Float32Array;
  readonly outsideC: Float32Array;
  readonly answer: WinterAnswer;
}

export interface Forecast {
  readonly winters: readonly WinterDrawn[];
  readonly answer: AnswerOverWinters;
  readonly box: BoxFigures;
  readonly tookMs: number;
}

let prepared: PreparedWinters | undefined;
const places = new Map<string, PlaceForecast>();
const PLACES_KEPT = 10;

/** A place is worked out once and kept while only the box changes. */
function placeFor(place: PlaceDescription): PlaceForecast {
  if (!prepared) throw new Error('no winters');
  const key = JSON.stringify(place);
  let known = places.get(key);
  if (!known) {
    known = forecastPlace(place, prepared);
    if (places.size >= PLACES_KEPT) places.delete(places.keys().next().value as string);
    places.set(key, known);
  }
  return known;
}

const column = (values: readonly (number | null)[]) => Float64Array.from(values, (value) => value ?? Number.NaN);

const answers = {
  /** Takes the winters once; they are made ready for any place and box. */
  setWinters(site: Site, winters: readonly WinterSent[], normals: MonthlyNormals | undefined): void {
    places.clear();
    prepared = prepareWinters(
      site,
      winters.map(
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
      ),
      normals ? { normals } : undefined,
    );
  },

  /** The box through all winters, with every hour for the chart. */
  forecast(question: Question): Forecast {
    const began = performance.now();
    const found = forecastBox({ ...question, place: placeFor(question.place) });
    const winters = found.winters.map(
      (one): WinterDrawn => ({
        label: one.label,
        insideC: Float32Array.from(one.animalC),
        outsideC: Float32Array.from(one.outdoorC),
        answer: one.answer,
      }),
    );
    return transfer(
      { winters, answer: found.answer, box: found.box, tookMs: performance.now() - began },
      winters.flatMap((one) => [one.insideC.buffer, one.outsideC.buffer]),
    );
  },

  /** Only the answer: for the builds that are compared and the changes that are tried. */
  answer(question: Question): { answer: AnswerOverWinters; box: BoxFigures } {
    const { answer, box } = forecastBox({ ...question, place: placeFor(question.place) });
    return { answer, box };
  },
};

export type ForecastWorker = typeof answers;
expose(answers);

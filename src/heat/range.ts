import type { AnswerOverWinters } from './answer.ts';
import { answerOverWinters } from './answer.ts';
import type { BoxDescription, LayerDescription, WeatherPlace } from './description.ts';
import { answersOfBuild, forecastPlace, type SleepWindow, sleepStretches } from './forecast.ts';
import { materials } from './materials.ts';
import { placePresets } from './place-presets.ts';
import type { PreparedWinters } from './place-weather.ts';

/** What is not known closely about a described place and box, and was therefore taken at both ends. */
type Doubt = 'air-change' | 'materials';

export interface AnswerRange {
  readonly doubts: readonly Doubt[];
  /** Lowest and highest of the medians over winters, over all ends. */
  readonly steadiness: readonly [number, number];
  readonly hoursUnder2: readonly [number, number];
  readonly hoursOver10: readonly [number, number];
  readonly coldestC: readonly [number, number];
  readonly warmestC: readonly [number, number];
}

/** The place with its preset's lowest and highest air change; itself alone where the keeper gave one or has readings. */
function placeEnds(place: WeatherPlace): WeatherPlace[] {
  if (place.kind === 'readings' || place.airChangesPerHour !== undefined || place.tuning?.airChangeFactor !== undefined)
    return [place];
  return placePresets[place.preset].airChangesRange.map((airChangesPerHour) => ({ ...place, airChangesPerHour }));
}

const layersAt = (layers: readonly LayerDescription[], end: 0 | 1): LayerDescription[] =>
  layers.map((layer) =>
    layer.exact?.conductivityWmK === undefined
      ? {
          ...layer,
          exact: { ...layer.exact, conductivityWmK: materials[layer.material].conductivityRangeWmK[end] },
        }
      : layer,
  );

/** The box with every conductivity not stated exactly at the low and at the high end of its range; itself once readings have tuned it. */
function boxEnds(box: BoxDescription): BoxDescription[] {
  if (box.tuning?.lossFactor !== undefined) return [box];
  return ([0, 1] as const).map((end) => ({
    ...box,
    shells: box.shells.map((shell) => ({
      ...shell,
      walls: layersAt(shell.walls, end),
      ...(shell.lid ? { lid: layersAt(shell.lid, end) } : {}),
      ...(shell.base ? { base: layersAt(shell.base, end) } : {}),
    })),
  }));
}

/**
 * How far the answer may lie off because the place and the box are known by words: the answer at every combination of
 * ends. Narrows to nothing once air change and loss are known from readings.
 */
export function answerRange(
  place: WeatherPlace,
  box: BoxDescription,
  prepared: PreparedWinters,
  sleep?: SleepWindow,
): AnswerRange {
  const places = placeEnds(place);
  const boxes = boxEnds(box);
  const answers: AnswerOverWinters[] = places.flatMap((one) => {
    const stretches = sleepStretches(forecastPlace(one, prepared), sleep);
    return boxes.map((build) => answerOverWinters(answersOfBuild(stretches, build)));
  });
  const ends = (pick: (answer: AnswerOverWinters) => number): [number, number] => {
    const values = answers.map(pick);
    return [Math.min(...values), Math.max(...values)];
  };
  return {
    doubts: [
      ...(places.length > 1 ? (['air-change'] as const) : []),
      ...(boxes.length > 1 ? (['materials'] as const) : []),
    ],
    steadiness: ends((a) => a.steadiness.median),
    hoursUnder2: ends((a) => a.hoursUnder.find((one) => one.limitC === 2)!.hours.median),
    hoursOver10: ends((a) => a.hoursOver.find((one) => one.limitC === 10)!.hours.median),
    coldestC: ends((a) => a.coldestC.median),
    warmestC: ends((a) => a.warmestC.median),
  };
}

import type { BoxDescription, PlaceDescription } from '../../heat/description.ts';
import { addDays, daysBetween } from '../../measure/day.ts';
import type { PlaceRecord } from '../../schema/housing.ts';
import { say } from '../../wording/say.ts';
import { atPlace, type Build, bottlesFor, inRefrigerator, litresOf, placeOf, placePresets } from './build.ts';
import type { ConfirmedBuild, PlaceOffered, Question } from './forecast.worker.ts';
import { wordFor } from './words.ts';

/** A saved place with its description as the heat rooms take it. */
export interface SavedPlace {
  readonly id: string;
  readonly name: string;
  readonly description: PlaceDescription;
}

/** The wire's description is checked where it is saved. */
export const described = (places: readonly PlaceRecord[]): SavedPlace[] =>
  places.map(({ id, name, description }) => ({ id, name, description: description as unknown as PlaceDescription }));

export function questionOf(build: Build, places: readonly SavedPlace[], box: BoxDescription): Question {
  const saved = places.find((one) => one.id === build.placeId);
  return {
    place: saved?.description ?? placeOf(build),
    box,
    sleep: { from: build.fromDay.slice(5), days: daysBetween(build.fromDay, build.toDay) },
  };
}

export const placeNameOf = (build: Build, places: readonly SavedPlace[]) =>
  places.find((one) => one.id === build.placeId)?.name ?? wordFor.place(build.preset);

export function nameOf(build: Build, places: readonly SavedPlace[]): string {
  const place = placeNameOf(build, places);
  const litres = litresOf(build);
  const water = litres === 0 ? say('web.builder.noWater') : say('web.builder.waterText', { count: litres, litres });
  if (inRefrigerator(build)) return `${place}, ${wordFor.fan(build.refrigerator.fan)}, ${water}`;
  return say('web.builder.named', { wall: build.wallMm, material: wordFor.material(build.wallMaterial), water, place });
}

/** Kinds of place that many keepers have, tried after their own. */
const usualPlaces = ['cellar', 'brick-outbuilding', 'timber-shed', 'unheated-room'] as const;

/** Where else the box might stand: the other saved places, then the usual kinds. */
export function otherPlaces(build: Build, places: readonly SavedPlace[]): PlaceOffered[] {
  const own = places.flatMap(({ id, name, description }) =>
    id === build.placeId || description.kind !== 'building' ? [] : [{ id, name, description }],
  );
  const usual = usualPlaces
    .filter((preset) => build.placeId !== undefined || preset !== build.preset)
    .map((preset) => ({
      id: preset,
      name: wordFor.place(preset),
      description: { kind: 'building', preset, facingDeg: build.facingDeg } as const,
    }));
  return [...own, ...usual];
}

/** A build that the search found, as a change to the one told now. */
export function shownBuild(build: Build, found: ConfirmedBuild, places: readonly SavedPlace[]): Partial<Build> {
  const days = 7 * found.shiftWeeks;
  const saved = places.find((one) => one.id === found.placeId);
  const preset = placePresets.find((one) => one === found.placeId);
  return {
    wallMm: found.wallMm,
    bottles: bottlesFor(found.litres),
    fromDay: addDays(build.fromDay, days),
    toDay: addDays(build.toDay, days),
    ...(saved ? atPlace(saved, build) : preset ? { placeId: undefined, preset } : {}),
  };
}

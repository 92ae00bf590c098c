import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';

/** Where a thermometer can hang, for a list to choose from. */
export const placings = (boxes: readonly BoxRecord[], places: readonly PlaceRecord[]) => [
  { value: 'outdoors', label: say('web.readings.outdoors') },
  ...boxes.map((box) => ({ value: `box:${box.id}`, label: box.name })),
  ...places.map((place) => ({ value: `place:${place.id}`, label: place.name })),
  { value: 'nowhere', label: say('web.probes.nowhere') },
];

/** The chosen place as fields of a probe. */
export function placed(where: string): Pick<Probe, 'boxId' | 'placeId' | 'outdoors'> {
  const [kind, id] = where.split(':');
  if (kind === 'outdoors') return { outdoors: true };
  if (kind === 'box' && id) return { boxId: id };
  return kind === 'place' && id ? { placeId: id } : {};
}

export const placingOf = (probe: Probe): string =>
  probe.outdoors
    ? 'outdoors'
    : probe.boxId
      ? `box:${probe.boxId}`
      : probe.placeId
        ? `place:${probe.placeId}`
        : 'nowhere';

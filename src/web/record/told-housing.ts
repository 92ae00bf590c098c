import type { BoxDescription, LayerDescription, PlaceDescription } from '../../heat/description.ts';
import { say } from '../../wording/say.ts';
import { sized, wordFor } from '../builder/words.ts';

const layers = (list: readonly LayerDescription[]) =>
  list.map((one) => `${sized(one.thicknessMm, 1)}\u00a0mm ${say(`heat.material.${one.material}`)}`).join(' + ');

/** How a place was told, in one line: its kind, and what differs from what such a place usually is. */
export function tellPlace(place: PlaceDescription, temperature: (tempC: number) => string): string {
  if (place.kind === 'readings') return say('web.told.byReadings');
  if (place.kind === 'refrigerator') {
    const { preset, fan, onAtC, offAtC, shelf } = place.refrigerator;
    return [
      wordFor.place('refrigerator'),
      `${wordFor.refrigerator(preset)} ${wordFor.fan(fan)}`,
      say('web.told.thermostat', { on: temperature(onAtC), off: temperature(offAtC) }),
      wordFor.shelf(shelf),
      say('web.told.kitchen', { kitchen: temperature(place.kitchenC) }),
    ].join(', ');
  }
  const sizes = [place.lengthM, place.widthM, place.heightM].filter((one) => one !== undefined);
  return [
    wordFor.place(place.preset),
    place.facingDeg === undefined ? '' : say('web.told.facing', { facing: wordFor.facing(place.facingDeg) }),
    sizes.length === 0 ? '' : `${sizes.map((one) => sized(one, 2)).join(' × ')}\u00a0m`,
    place.walls ? say('web.told.walls', { layers: layers(place.walls) }) : '',
    place.roof ? say('web.told.roof', { layers: layers(place.roof) }) : '',
    place.glazing ? `${sized(place.glazing.areaM2, 2)}\u00a0m² ${say(`heat.glazing.${place.glazing.kind}`)}` : '',
    place.airChangesPerHour === undefined
      ? ''
      : say('web.told.air', { times: sized(place.airChangesPerHour, 1), count: place.airChangesPerHour }),
  ]
    .filter(Boolean)
    .join(', ');
}

/** How a box was told, in one line: the walls of each shell from the outside in, and its water. */
export function tellBox(box: BoxDescription): string {
  const litres = (box.ballast ?? []).reduce((sum, one) => sum + one.bottles * one.litresEach, 0);
  return [
    ...box.shells.map((shell) => layers(shell.walls)),
    litres > 0 ? say('web.builder.waterText', { count: litres, litres: sized(litres, 1) }) : say('web.builder.noWater'),
  ].join(', ');
}

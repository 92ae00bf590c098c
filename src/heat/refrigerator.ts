/** A domestic refrigerator with the tortoise's box on one of its shelves: the fridge method. */

import { figure, temperature, temperatureDifference } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import type { RefrigeratorDescription } from './description.ts';
import { type Network, NetworkBuilder } from './network.ts';
import { insideRefrigerator, refrigeratorPresets } from './refrigerator-data.ts';
import { runThermostat, type SampledTemperature, type ThermostatRun } from './thermostat.ts';

/** A box's own network, put on the shelf: its air input becomes the air of the shelf. */
export interface ShelvedBox {
  readonly network: Network;
  /** Temperature inputs that are the air around the box; they and all other temperature inputs join the shelf's air. */
  readonly animalNode: number;
  /** Watts on each of its source inputs, in the order of its inputs; left out: 0. */
  readonly heatW?: ArrayLike<number>;
}

export interface RefrigeratorNetwork {
  readonly network: Network;
  readonly compressorInput: number;
  readonly upperAir: number;
  readonly lowerAir: number;
  /** The animal's node, or the load's; the shelf's air when there is neither. */
  readonly animal: number;
  readonly heatW: Readonly<Record<number, number>>;
}

/** Volumetric heat capacity of air at 5 °C and 101,325 Pa, J/(l K): 0.355 Wh/(m3 K). */
const AIR_JLK = 0.355 * 3.6;
/** Water at 5 °C, J/(kg K) (IAPWS-97) and kg/l. */
const WATER_JKGK = 4205;

/** The heat network of a refrigerator. Throws RangeError when a value is not above 0. */
export function refrigeratorNetwork(fridge: RefrigeratorDescription, box?: ShelvedBox): RefrigeratorNetwork {
  const preset = refrigeratorPresets[fridge.preset];
  const volumeL = positive(fridge.volumeL ?? preset.volumeL, 'volume');
  const lossWK = positive(fridge.lossWK ?? preset.lossWK, 'heat loss');
  const coolingW = positive(fridge.coolingW ?? preset.coolingW, 'cooling power');
  const how = fridge.fan ? 'fan' : 'still';
  // A cabinet about one and a half times as high as wide: inner area from the volume.
  const areaM2 = 6.4 * (volumeL / 1000) ** (2 / 3);
  const builder = new NetworkBuilder();
  const room = builder.input('room');
  const compressor = builder.input('compressor');
  const lining = builder.node('lining', positive(fridge.liningJK ?? preset.liningJK, 'lining'));
  const plate = builder.node('cooling plate', insideRefrigerator.plateJKperW * coolingW);
  const upperAir = builder.node('upper air', (volumeL / 2) * AIR_JLK);
  const lowerAir = builder.node('lower air', (volumeL / 2) * AIR_JLK);
  builder.boundary(room, lining, lossWK);
  builder.source(compressor, plate);
  const plateWK = insideRefrigerator.plateWKperW[how] * coolingW;
  const toLower = insideRefrigerator.plateToLower[how];
  builder.link(plate, lowerAir, plateWK * toLower);
  builder.link(plate, upperAir, plateWK * (1 - toLower));
  const liningWK = insideRefrigerator.liningFilmWm2K[how] * areaM2;
  builder.link(lining, upperAir, liningWK / 2);
  builder.link(lining, lowerAir, liningWK / 2);
  builder.link(upperAir, lowerAir, insideRefrigerator.mixingWK[how]);
  if ((fridge.ballastL ?? 0) > 0) {
    const bottles = builder.node('bottles', fridge.ballastL! * WATER_JKGK);
    const filmWK = insideRefrigerator.bottleWKperL[how] * fridge.ballastL!;
    builder.link(bottles, upperAir, filmWK / 2);
    builder.link(bottles, lowerAir, filmWK / 2);
  }
  const shelfAir = fridge.shelf === 'upper' ? upperAir : lowerAir;
  const heatW: Record<number, number> = {};
  let animal = shelfAir;
  if (box) animal = placeBox(builder, box, shelfAir, heatW);
  else if (fridge.load) {
    animal = builder.node('box', positive(fridge.load.massKg * fridge.load.specificHeatJkgK, 'load'));
    builder.link(animal, shelfAir, positive(fridge.load.lossWK, "box's heat loss"));
  }
  return { network: builder.build(), compressorInput: compressor, upperAir, lowerAir, animal, heatW };
}

function placeBox(builder: NetworkBuilder, box: ShelvedBox, shelfAir: number, heatW: Record<number, number>): number {
  const first = builder.nodes.length;
  for (const node of box.network.nodes) builder.node(node.name, node.capacityJK);
  for (const link of box.network.links) builder.link(first + link.a, first + link.b, link.conductanceWK);
  for (const drive of box.network.drives) {
    if (drive.kind === 'temperature') builder.link(first + drive.node, shelfAir, drive.gain);
    else {
      const input = builder.input(`box: ${box.network.inputs[drive.input]}`);
      builder.source(input, first + drive.node, drive.gain);
      heatW[input] = box.heatW?.[drive.input] ?? 0;
    }
  }
  return first + box.animalNode;
}

function positive(value: number, what: string): number {
  if (!(value > 0 && Number.isFinite(value)))
    throw new RangeError(`the refrigerator's ${what} must be above 0, not ${value}`);
  return value;
}

export interface RefrigeratorUse {
  readonly room: SampledTemperature;
  readonly spanS: number;
  readonly startC: number;
  /** Door openings, s from the start; each exchanges `doorShare` of the air (no published share; 0.7 assumed). */
  readonly doorsAtS?: readonly number[];
  readonly doorShare?: number;
  readonly powerCut?: { readonly fromS: number; readonly toS: number };
  readonly sampleS?: number;
}

export interface RefrigeratorAnswer {
  readonly run: ThermostatRun;
  readonly nodes: Pick<RefrigeratorNetwork, 'upperAir' | 'lowerAir' | 'animal'>;
  /** At the animal, over the second half of the span, when the start has been forgotten. */
  readonly settled: {
    readonly meanC: number;
    readonly lowestC: number;
    readonly highestC: number;
    readonly duty: number;
  };
  /** Upper minus lower air, mean, K. */
  readonly shelfDifferenceK: number;
  readonly notes: readonly Message[];
}

/** Runs a refrigerator as described and says what a keeper should know of it. */
export function refrigeratorAnswer(
  fridge: RefrigeratorDescription,
  use: RefrigeratorUse,
  box?: ShelvedBox,
): RefrigeratorAnswer {
  const built = refrigeratorNetwork(fridge, box);
  const coolingW = fridge.coolingW ?? refrigeratorPresets[fridge.preset].coolingW;
  const setup = {
    network: built.network,
    compressorInput: built.compressorInput,
    coolingW,
    sensorNode: built.upperAir,
    onAtC: fridge.onAtC,
    offAtC: fridge.offAtC,
    room: use.room,
    heatW: built.heatW,
  };
  const share = use.doorShare ?? 0.7;
  const run = runThermostat(setup, {
    spanS: use.spanS,
    startC: use.startC,
    sampleS: use.sampleS ?? 60,
    doors: (use.doorsAtS ?? []).map((atS) => ({ atS, share, airNodes: [built.upperAir, built.lowerAir] })),
    ...(use.powerCut ? { powerCuts: [use.powerCut] } : {}),
  });
  const animalC = run.sampledC[built.animal]!;
  const half = animalC.subarray(Math.floor(animalC.length / 2));
  const settled = {
    meanC: half.reduce((a, b) => a + b, 0) / half.length,
    lowestC: half.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    highestC: half.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
    duty: dutyAfter(run, use.spanS / 2, use.spanS),
  };
  const shelfDifferenceK = run.meanC[built.upperAir]! - run.meanC[built.lowerAir]!;
  return { run, nodes: built, settled, shelfDifferenceK, notes: notesOn(fridge, use, settled, shelfDifferenceK) };
}

/** Share of the time from `fromS` to `toS` in which the compressor ran. */
function dutyAfter(run: ThermostatRun, fromS: number, toS: number): number {
  let onSince: number | undefined;
  let ran = 0;
  for (const event of run.events) {
    if (event.kind === 'on') onSince = event.atS;
    else if (event.kind === 'off' && onSince !== undefined) {
      ran += Math.max(0, event.atS - Math.max(onSince, fromS));
      onSince = undefined;
    }
  }
  if (onSince !== undefined) ran += toS - Math.max(onSince, fromS);
  return ran / (toS - fromS);
}

function notesOn(
  fridge: RefrigeratorDescription,
  use: RefrigeratorUse,
  settled: RefrigeratorAnswer['settled'],
  shelfDifferenceK: number,
): readonly Message[] {
  const notes: Message[] = [];
  const coldestRoomC = Array.from(use.room.tempC).reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  if (settled.duty > 0.97) notes.push(message('heat.refrigerator.never-stops'));
  if (coldestRoomC < fridge.onAtC)
    notes.push(
      message('heat.refrigerator.cold-room', { coldest: temperature(coldestRoomC), on: temperature(fridge.onAtC) }),
    );
  if (settled.lowestC <= 2) notes.push(message('heat.refrigerator.too-cold', { lowest: temperature(settled.lowestC) }));
  if (settled.highestC > 8)
    notes.push(message('heat.refrigerator.too-warm', { highest: temperature(settled.highestC) }));
  if (Math.abs(shelfDifferenceK) > 0.5)
    notes.push(message('heat.refrigerator.shelves', { difference: temperatureDifference(Math.abs(shelfDifferenceK)) }));
  return notes;
}

export interface PowerCutAnswer {
  /** Hours from the cut until the animal is at 8 and at 10 °C; undefined when it is not within 14 days. */
  readonly hoursTo8: number | undefined;
  readonly hoursTo10: number | undefined;
  readonly notes: readonly Message[];
}

/** Days a power cut is followed. */
export const CUT_DAYS = 14;

/**
 * How long a shut refrigerator keeps its box under 8 and 10 °C when the current fails, all at `startC` before; the room at one
 * temperature, or by its course from the cut on.
 */
export function hoursAfterPowerCut(
  fridge: RefrigeratorDescription,
  given: number | SampledTemperature,
  startC: number,
  box?: ShelvedBox,
): PowerCutAnswer {
  const built = refrigeratorNetwork(fridge, box);
  const spanS = CUT_DAYS * 86_400;
  const room = typeof given === 'number' ? { stepS: spanS, tempC: [given] } : given;
  const roomC = Array.from(room.tempC).reduce((sum, one) => sum + one, 0) / room.tempC.length;
  const run = runThermostat(
    {
      network: built.network,
      compressorInput: built.compressorInput,
      coolingW: 1,
      sensorNode: built.upperAir,
      onAtC: fridge.onAtC,
      offAtC: fridge.offAtC,
      room,
      heatW: built.heatW,
    },
    {
      spanS,
      startC,
      sampleS: spanS,
      powerCuts: [{ fromS: 0, toS: 2 * spanS }],
      watches: [8, 10].map((limitC) => ({ node: built.animal, limitC, direction: 1 as const })),
    },
  );
  const [to8, to10] = run.crossedAtS.map((atS) => (atS === undefined ? undefined : atS / 3600));
  return {
    hoursTo8: to8,
    hoursTo10: to10,
    notes: [
      to8 === undefined
        ? message('heat.refrigerator.cut-never', { room: temperature(roomC) })
        : message('heat.refrigerator.cut', { hours: figure(to8, to8 < 10 ? 1 : 0), room: temperature(roomC) }),
    ],
  };
}

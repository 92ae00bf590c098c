import type { MaterialId } from './materials.ts';
import type { RefrigeratorPresetId } from './refrigerator-data.ts';

/**
 * A place and a box as a keeper describes them: kinds, materials and sizes. Nothing here is computed; `place.ts` and
 * `box.ts` turn it into heat networks. All layers are listed from the outside to the inside.
 */

/** One layer. `exact` replaces the table's values for those who have measured or bought to a data sheet. */
export interface LayerDescription {
  readonly material: MaterialId;
  readonly thicknessMm: number;
  readonly exact?: {
    readonly conductivityWmK?: number;
    readonly densityKgM3?: number;
    readonly specificHeatJkgK?: number;
  };
}

/** What readings have taught: factors on the described value, 1 when nothing has been learnt. */
export interface Tuning {
  /** On every heat loss through walls, roof, floor, glazing (place) or through the shells (box). */
  readonly lossFactor?: number;
  /** On every heat capacity. */
  readonly massFactor?: number;
  /** On sun through glass and on walls and roof; places only. */
  readonly sunFactor?: number;
  /** On the air change; places only. */
  readonly airChangeFactor?: number;
}

export type PlacePresetId =
  | 'brick-outbuilding'
  | 'timber-shed'
  | 'roof-space'
  | 'unheated-room'
  | 'cellar'
  | 'greenhouse'
  | 'cold-frame'
  | 'outdoor-pit';

export type GlazingId = 'single' | 'double' | 'polycarbonate-twinwall' | 'plastic-film';

/** A building, room or hole in the ground. Everything left out comes from its preset. */
export interface BuildingPlace {
  readonly kind: 'building';
  readonly preset: PlacePresetId;
  /** Compass bearing its long, glazed side looks to, degrees clockwise from true north, 0 to 360. */
  readonly facingDeg?: number;
  /** Inside sizes in metres; length is the side that looks to `facingDeg`. */
  readonly lengthM?: number;
  readonly widthM?: number;
  readonly heightM?: number;
  readonly walls?: readonly LayerDescription[];
  readonly roof?: readonly LayerDescription[];
  /** Of the four walls, how many face outdoors; the rest adjoin the heated house at `neighbourC`. 0 to 4. */
  readonly outsideWalls?: number;
  readonly glazing?: { readonly kind: GlazingId; readonly areaM2: number };
  readonly airChangesPerHour?: number;
  /** What stands in it (tools, shelves, soil sacks, water butts) as kilograms of everyday goods. */
  readonly contentsKg?: number;
  /** Temperature of the house next door or below; only places that adjoin one use it. */
  readonly neighbourC?: number;
  /** Depth of the floor below the ground outside, m: cellar and pit. */
  readonly depthM?: number;
  /** Share of the sun that reaches it past trees and buildings, 0 to 1. */
  readonly sunShare?: number;
  readonly tuning?: Tuning;
}

/** A place whose air has been measured: the series handed to the forecast is the air beside the box itself. */
interface ReadingsPlace {
  readonly kind: 'readings';
  readonly probeId?: string;
  readonly note?: string;
}

export interface RefrigeratorDescription {
  readonly preset: RefrigeratorPresetId;
  readonly fan: boolean;
  /** Air temperatures at which the compressor starts and stops, as a probe beside the sensor shows them. */
  readonly onAtC: number;
  readonly offAtC: number;
  readonly shelf: 'upper' | 'lower';
  /** Water bottles standing loose in the cabinet, litres. */
  readonly ballastL?: number;
  /** Box and animal when no network of the box is given: masses, and the heat that passes between box and air, W/K. */
  readonly load?: { readonly massKg: number; readonly specificHeatJkgK: number; readonly lossWK: number };
  /** Measured values in place of the preset's. */
  readonly lossWK?: number;
  readonly liningJK?: number;
  readonly coolingW?: number;
  readonly volumeL?: number;
}

/** A refrigerator in a kitchen: the fridge method. No weather reaches it but through the kitchen's own year and day. */
export interface RefrigeratorPlace {
  readonly kind: 'refrigerator';
  readonly refrigerator: RefrigeratorDescription;
  /** Mean of a day at the coldest time of the year; of every day, where no summer is told. */
  readonly kitchenC: number;
  /** Mean of a day at the warmest time of the year. */
  readonly kitchenSummerC?: number;
  /** How much warmer it is in late afternoon than before dawn, K; left out: 0. */
  readonly kitchenSwingK?: number;
  /** How often its door is opened, spread over the waking hours. */
  readonly doorsPerDay: number;
}

/** A place whose air follows the weather, or was itself measured. */
export type WeatherPlace = BuildingPlace | ReadingsPlace;
export type PlaceDescription = WeatherPlace | RefrigeratorPlace;

/** What lies between a shell and the next one inside it (or, in the innermost, around animal and bedding). */
export type FillId =
  | 'air'
  | Extract<
      MaterialId,
      | 'shredded-paper'
      | 'newspaper'
      | 'straw'
      | 'dry-leaves'
      | 'wood-shavings'
      | 'polystyrene'
      | 'bubble-wrap'
      | 'cardboard'
      | 'potting-soil'
      | 'soil'
    >;

/** One box of the nest. Its space holds the next box, or the animal when it is the innermost. */
export interface ShellDescription {
  /** Sizes of the space inside it, mm. The next shell's outside must fit into it. */
  readonly insideLengthMm: number;
  readonly insideWidthMm: number;
  readonly insideHeightMm: number;
  /** Walls, and lid and base too where these are left out; an empty lid list means no lid at all. */
  readonly walls: readonly LayerDescription[];
  readonly lid?: readonly LayerDescription[];
  readonly base?: readonly LayerDescription[];
  /** A loose lid leaks as a slit of about 2 mm along its rim would. */
  readonly lidFit?: 'tight' | 'loose';
  readonly holes?: { readonly count: number; readonly diameterMm: number };
  /** Default `air`. The innermost shell's bedding is described apart. */
  readonly fill?: FillId;
}

interface BallastDescription {
  readonly bottles: number;
  readonly litresEach: number;
  /** Index of the shell in whose space the bottles stand, 0 = outermost; default 0. */
  readonly shell?: number;
}

export interface BoxDescription {
  /** Outermost first; at least one. */
  readonly shells: readonly ShellDescription[];
  readonly bedding?: { readonly material: Exclude<FillId, 'air'>; readonly depthMm: number };
  readonly ballast?: readonly BallastDescription[];
  readonly animal?: { readonly massG: number };
  /** Where the thermometer's probe is; the animal's own temperature is always given beside it. */
  readonly probe?: { readonly at: 'beside-animal' | 'inner-air' | 'outer-space' | 'on-ballast' | 'under-lid' };
  /** On the floor of the place, or raised so that air passes beneath; default `floor`. */
  readonly stands?: 'floor' | 'raised';
  readonly tuning?: Tuning;
}

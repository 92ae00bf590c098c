import type {
  BuildingPlace,
  GlazingId,
  LayerDescription,
  PlaceDescription,
  RefrigeratorPlace,
} from '../../heat/description.ts';
import type { MaterialId } from '../../heat/materials.ts';
import { completedPlace } from '../../heat/place.ts';
import { placePresets } from '../../heat/place-presets.ts';
import { BOTTLE_LITRES, type Build, placeOf } from './build.ts';

/** What walls and roofs are lined with from the inside. */
export const linings = [
  'polystyrene',
  'extruded-polystyrene',
  'polyurethane-foam',
  'mineral-wool',
] as const satisfies readonly MaterialId[];

/** What a wall of a shed, store or room is made of. */
export const stuffs = [
  'brick',
  'concrete-block',
  'aerated-block',
  'concrete',
  'stone',
  'softwood',
  'plywood',
  'strand-board',
  'steel-sheet',
] as const satisfies readonly MaterialId[];

export const glazingKinds = [
  'single',
  'double',
  'polycarbonate-twinwall',
  'plastic-film',
] as const satisfies readonly GlazingId[];

const isLining = (material: MaterialId): material is (typeof linings)[number] =>
  (linings as readonly MaterialId[]).includes(material);

/** A wall or roof as the sentence tells it: what it is made of, and what lines it inside. */
export interface ToldLayers {
  /** Index of the layer that is most of it. */
  readonly main: number;
  readonly lining: LayerDescription | undefined;
}

/** The lining is insulation on the inner side; the thickest of the other layers is what it is made of. */
export function toldLayers(layers: readonly LayerDescription[]): ToldLayers {
  const last = layers.at(-1);
  const lining = layers.length > 1 && last && isLining(last.material) ? last : undefined;
  let main = 0;
  layers.forEach((layer, index) => {
    if (layer !== lining && layer.material !== 'cavity' && layer.thicknessMm > (layers[main]?.thicknessMm ?? 0))
      main = index;
  });
  return { main, lining };
}

/** The layers with another main one. Exact values belong to the material they were measured on. */
export function withMain(
  layers: readonly LayerDescription[],
  part: Partial<Pick<LayerDescription, 'material' | 'thicknessMm'>>,
): LayerDescription[] {
  const { main } = toldLayers(layers);
  return layers.map((layer, index) => {
    if (index !== main) return layer;
    const { exact, ...plain } = layer;
    const same = part.material === undefined || part.material === layer.material;
    return { ...plain, ...part, ...(same && exact ? { exact } : {}) };
  });
}

/** The layers with another lining; none when its thickness is 0. */
export function withLining(
  layers: readonly LayerDescription[],
  thicknessMm: number,
  material?: MaterialId,
): LayerDescription[] {
  const { lining } = toldLayers(layers);
  const rest = lining ? layers.slice(0, -1) : [...layers];
  return thicknessMm > 0
    ? [...rest, { material: material ?? lining?.material ?? 'polystyrene', thicknessMm }]
    : [...rest];
}

/** Glass of a building, m²: what is said, else what its kind usually has. */
export function glassM2(place: BuildingPlace): number {
  if (place.glazing) return place.glazing.areaM2;
  const whole = completedPlace(place);
  const long = whole.lengthM * whole.heightM;
  const short = whole.widthM * whole.heightM;
  const { front, others, roof } = whole.glazedShare;
  const sides = [long * front, short * others, short * others, long * others].slice(0, whole.outsideWalls);
  const roofM2 = (whole.lengthM * whole.widthM) / Math.cos((whole.roofTiltDeg * Math.PI) / 180);
  const walls = whole.wallsTo === 'outdoors' ? sides.reduce((sum, area) => sum + area, 0) : 0;
  return walls + (whole.roofTo === 'outdoors' ? roofM2 * roof : 0);
}

/** Which values say anything of a kind of building. */
export function appliesTo(place: BuildingPlace) {
  const whole = completedPlace(place);
  return {
    roof: whole.roofTo === 'outdoors',
    outsideWalls: whole.wallsTo === 'outdoors',
    neighbour:
      [whole.wallsTo, whole.roofTo, whole.floorTo].includes('neighbour') ||
      (whole.wallsTo === 'outdoors' && whole.outsideWalls < 4 && whole.innerWalls.length > 0),
    depth: placePresets[place.preset].depthM > 0,
  };
}

/** A place after values of the builder's sentence have moved. What the sentence does not tell stays, as long as the place is of that kind. */
export function movedPlace(before: PlaceDescription, build: Build, part: Partial<Build>): PlaceDescription {
  const preset = part.preset ?? build.preset;
  if (preset !== build.preset || before.kind === 'readings') return placeOf({ ...build, ...part });
  if (before.kind === 'building')
    return part.facingDeg === undefined ? before : { ...before, facingDeg: part.facingDeg };
  return movedRefrigerator(before, part);
}

function movedRefrigerator(before: RefrigeratorPlace, part: Partial<Build>): RefrigeratorPlace {
  const { lossWK: _, liningJK: __, coolingW: ___, volumeL: ____, ...anySize } = before.refrigerator;
  const size = part.refrigerator?.preset;
  const other = size !== undefined && size !== before.refrigerator.preset;
  const { kitchenC, kitchenSummerC, kitchenSwingK, doorsPerDay, coldBottles } = part;
  return {
    ...before,
    refrigerator: {
      // What was measured on one refrigerator says nothing of another.
      ...(other ? anySize : before.refrigerator),
      ...part.refrigerator,
      ...(coldBottles === undefined ? {} : { ballastL: coldBottles * BOTTLE_LITRES }),
    },
    ...(kitchenC === undefined ? {} : { kitchenC }),
    ...(kitchenSummerC === undefined ? {} : { kitchenSummerC }),
    ...(kitchenSwingK === undefined ? {} : { kitchenSwingK }),
    ...(doorsPerDay === undefined ? {} : { doorsPerDay }),
  };
}

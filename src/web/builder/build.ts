import type {
  BoxDescription,
  FillId,
  PlaceDescription,
  PlacePresetId,
  RefrigeratorDescription,
  ShellDescription,
} from '../../heat/description.ts';
import type { MaterialId } from '../../heat/materials.ts';
import { addDays, type Day, daysBetween } from '../../measure/day.ts';

/** The walls a keeper can make an outer box of, and what is sold of each, mm. */
export const wallMaterials = [
  'polystyrene',
  'extruded-polystyrene',
  'polyurethane-foam',
  'softwood',
  'plywood',
  'cardboard',
  'plastic',
] as const satisfies readonly MaterialId[];

export const fills = [
  'air',
  'shredded-paper',
  'newspaper',
  'straw',
  'dry-leaves',
  'wood-shavings',
  'polystyrene',
  'bubble-wrap',
] as const satisfies readonly FillId[];

export const beddings = [
  'shredded-paper',
  'newspaper',
  'straw',
  'dry-leaves',
  'wood-shavings',
  'potting-soil',
] as const satisfies readonly Exclude<FillId, 'air'>[];

export const placePresets = [
  'brick-outbuilding',
  'timber-shed',
  'cellar',
  'unheated-room',
  'roof-space',
  'greenhouse',
  'cold-frame',
  'outdoor-pit',
] as const satisfies readonly PlacePresetId[];

/** Kinds of place the sentence can choose: those the weather reaches, and the fridge method. */
export const placeKinds = [...placePresets, 'refrigerator'] as const;

export const probePlaces = ['beside-animal', 'inner-air', 'under-lid', 'outer-space', 'on-ballast'] as const;
export const refrigeratorSizes = ['table-top', 'under-counter', 'tall'] as const;

export const facings = [0, 45, 90, 135, 180, 225, 270, 315] as const;
export const holeDiameters = [4, 6, 8, 10, 12, 15, 20] as const;
export const BOTTLE_LITRES = 1.5;

/** What the builder's sentence moves: one build, in the words it is told in. */
export interface Build {
  readonly name: string;
  readonly wallMaterial: (typeof wallMaterials)[number];
  readonly wallMm: number;
  readonly fill: (typeof fills)[number];
  /** Space all round between the two boxes, mm. */
  readonly fillMm: number;
  readonly innerMaterial: 'cardboard' | 'plywood' | 'plastic';
  readonly innerLengthMm: number;
  readonly innerWidthMm: number;
  readonly innerHeightMm: number;
  readonly bedding: (typeof beddings)[number];
  readonly beddingMm: number;
  readonly bottles: number;
  readonly holes: number;
  readonly holeMm: number;
  readonly lidFit: 'tight' | 'loose';
  readonly animalG: number;
  /** A saved place, or a kind of place that may be changed here. */
  readonly placeId: string | undefined;
  readonly preset: (typeof placeKinds)[number];
  readonly facingDeg: number;
  readonly probeAt: (typeof probePlaces)[number];
  readonly refrigerator: Pick<RefrigeratorDescription, 'preset' | 'fan' | 'onAtC' | 'offAtC' | 'shelf'>;
  /** Bottles of water standing loose in the refrigerator. */
  readonly coldBottles: number;
  /** Mean at the coldest and at the warmest time of the year, and how much warmer late afternoon is than the time before dawn. */
  readonly kitchenC: number;
  readonly kitchenSummerC: number;
  readonly kitchenSwingK: number;
  readonly doorsPerDay: number;
  readonly fromDay: Day;
  readonly toDay: Day;
}

/** Eleven weeks around the coldest time: about three weeks before to eight weeks after the shortest day. */
export function usualSleep(today: Day, latitudeDeg: number): [Day, Day] {
  const place = latitudeDeg >= 0 ? '-11-30' : '-05-31';
  const year = Number(today.slice(0, 4));
  const thisYears = `${year}${place}`;
  const from = daysBetween(thisYears, today) > 60 ? `${year + 1}${place}` : thisYears;
  return [addDays(from, 1), addDays(from, 78)];
}

export const firstBuild = (fromDay: Day, toDay: Day): Build => ({
  name: '',
  wallMaterial: 'polystyrene',
  wallMm: 40,
  fill: 'shredded-paper',
  fillMm: 90,
  innerMaterial: 'cardboard',
  innerLengthMm: 320,
  innerWidthMm: 220,
  innerHeightMm: 190,
  bedding: 'shredded-paper',
  beddingMm: 60,
  bottles: 4,
  holes: 8,
  holeMm: 8,
  lidFit: 'tight',
  animalG: 900,
  placeId: undefined,
  preset: 'brick-outbuilding',
  facingDeg: 0,
  probeAt: 'beside-animal',
  refrigerator: { preset: 'under-counter', fan: false, onAtC: 6, offAtC: 4, shelf: 'lower' },
  coldBottles: 3,
  kitchenC: 18,
  kitchenSummerC: 22,
  kitchenSwingK: 3,
  doorsPerDay: 2,
  fromDay,
  toDay,
});

const innerWallMm = { cardboard: 5, plywood: 9, plastic: 2 } as const;

/** Litres of water in the box's own bottles, or in those that stand in the refrigerator. */
export const litresOf = (build: Build) => (inRefrigerator(build) ? build.coldBottles : build.bottles) * BOTTLE_LITRES;
export const bottlesFor = (litres: number) => Math.round(litres / BOTTLE_LITRES);

export const inRefrigerator = (build: Build) => build.preset === 'refrigerator';

/** What a build takes over from a saved place: a refrigerator tells its own sentence. */
export function atPlace(
  place: { readonly id: string; readonly description: PlaceDescription },
  now: Build,
): Partial<Build> {
  const { description } = place;
  if (description.kind !== 'refrigerator')
    return { placeId: place.id, ...(inRefrigerator(now) ? { preset: 'brick-outbuilding' } : {}) };
  const { preset, fan, onAtC, offAtC, shelf, ballastL = 0 } = description.refrigerator;
  return {
    placeId: place.id,
    preset: 'refrigerator',
    refrigerator: { preset, fan, onAtC, offAtC, shelf },
    coldBottles: bottlesFor(ballastL),
    kitchenC: description.kitchenC,
    kitchenSummerC: description.kitchenSummerC ?? description.kitchenC,
    kitchenSwingK: description.kitchenSwingK ?? 0,
    doorsPerDay: description.doorsPerDay,
  };
}

/** The place a build stands in, unless a saved one is chosen. */
export function placeOf(build: Build): PlaceDescription {
  if (build.preset === 'refrigerator')
    return {
      kind: 'refrigerator',
      refrigerator: { ...build.refrigerator, ballastL: build.coldBottles * BOTTLE_LITRES },
      kitchenC: build.kitchenC,
      kitchenSummerC: build.kitchenSummerC,
      kitchenSwingK: build.kitchenSwingK,
      doorsPerDay: build.doorsPerDay,
    };
  return { kind: 'building', preset: build.preset, facingDeg: build.facingDeg };
}

/** The probe's place, as far as this build has it. */
function probeOf(build: Build): NonNullable<BoxDescription['probe']> {
  const none =
    (build.probeAt === 'on-ballast' && (build.bottles === 0 || inRefrigerator(build))) ||
    (build.probeAt === 'outer-space' && inRefrigerator(build));
  return { at: none ? 'beside-animal' : build.probeAt };
}

/** The nest of boxes as the heat rooms take it, outermost first. A refrigerator takes the inner box alone. */
export function boxOf(build: Build): BoxDescription {
  const wall = innerWallMm[build.innerMaterial];
  const around = 2 * (build.fillMm + wall);
  const inner: ShellDescription = {
    insideLengthMm: build.innerLengthMm,
    insideWidthMm: build.innerWidthMm,
    insideHeightMm: build.innerHeightMm,
    walls: [{ material: build.innerMaterial, thicknessMm: wall }],
    lidFit: 'loose',
    holes: { count: Math.max(build.holes, 1), diameterMm: build.holeMm },
  };
  const within = {
    ...(build.beddingMm > 0 ? { bedding: { material: build.bedding, depthMm: build.beddingMm } } : {}),
    animal: { massG: build.animalG },
    probe: probeOf(build),
  };
  if (inRefrigerator(build)) return { shells: [{ ...inner, lidFit: build.lidFit }], ...within };
  const outer: ShellDescription = {
    insideLengthMm: build.innerLengthMm + around,
    insideWidthMm: build.innerWidthMm + around,
    insideHeightMm: build.innerHeightMm + around,
    walls: [{ material: build.wallMaterial, thicknessMm: build.wallMm }],
    lidFit: build.lidFit,
    fill: build.fill,
    ...(build.holes > 0 ? { holes: { count: build.holes, diameterMm: build.holeMm } } : {}),
  };
  return {
    shells: [outer, inner],
    ...(build.bottles > 0 ? { ballast: [{ bottles: build.bottles, litresEach: BOTTLE_LITRES, shell: 0 }] } : {}),
    ...within,
  };
}

/**
 * A saved box after its sentence has moved from `from` to `to`: each part whose words stayed is kept as it was saved, to the millimetre.
 * What a dry run taught holds for the shells it was run with.
 */
export function savedBox(before: BoxDescription, from: Build, to: Build): BoxDescription {
  const [was, is] = [boxOf(from), boxOf(to)];
  const stays = (part: 'shells' | 'bedding' | 'ballast' | 'animal' | 'probe') =>
    JSON.stringify(was[part]) === JSON.stringify(is[part]);
  const kept = <P extends 'bedding' | 'ballast' | 'animal' | 'probe'>(part: P): Partial<Pick<BoxDescription, P>> => {
    const value = stays(part) ? (before[part] ?? is[part]) : is[part];
    return value === undefined ? {} : ({ [part]: value } as Partial<Pick<BoxDescription, P>>);
  };
  const shells = is.shells.map((shell, index) => {
    const { lid, base } = before.shells[index] ?? {};
    return { ...shell, ...(lid ? { lid } : {}), ...(base ? { base } : {}) };
  });
  return {
    shells: stays('shells') ? before.shells : shells,
    ...kept('bedding'),
    ...kept('ballast'),
    ...kept('animal'),
    ...kept('probe'),
    ...(before.stands ? { stands: before.stands } : {}),
    ...(stays('shells') && before.tuning ? { tuning: before.tuning } : {}),
  };
}

/** The builder's words for a saved box, as far as its sentence can tell it; undefined for a nest it cannot. */
export function buildFrom(box: BoxDescription, base: Build): Build | undefined {
  const [outer, inner, further] = box.shells;
  const wall = outer?.walls[0];
  if (!outer || !wall || further || outer.walls.length !== 1) return undefined;
  const known = wallMaterials.find((material) => material === wall.material);
  if (!known) return undefined;
  const space = inner ?? outer;
  const innerMaterial = (inner ?? outer).walls[0]?.material;
  const fillMm = inner ? (outer.insideLengthMm - inner.insideLengthMm) / 2 - (inner.walls[0]?.thicknessMm ?? 0) : 0;
  return {
    ...base,
    wallMaterial: known,
    wallMm: wall.thicknessMm,
    fill: fills.find((fill) => fill === outer.fill) ?? 'air',
    fillMm: Math.max(0, Math.round(fillMm)),
    innerMaterial: innerMaterial === 'plywood' || innerMaterial === 'plastic' ? innerMaterial : 'cardboard',
    innerLengthMm: space.insideLengthMm,
    innerWidthMm: space.insideWidthMm,
    innerHeightMm: space.insideHeightMm,
    bedding: beddings.find((bedding) => bedding === box.bedding?.material) ?? 'shredded-paper',
    beddingMm: box.bedding?.depthMm ?? 0,
    bottles: Math.round(
      (box.ballast ?? []).reduce((sum, one) => sum + one.bottles * one.litresEach, 0) / BOTTLE_LITRES,
    ),
    holes: outer.holes?.count ?? 0,
    holeMm: outer.holes?.diameterMm ?? 8,
    lidFit: outer.lidFit ?? 'tight',
    animalG: box.animal?.massG ?? base.animalG,
    probeAt: box.probe?.at ?? base.probeAt,
  };
}

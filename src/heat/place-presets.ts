import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import type { GlazingId, LayerDescription, PlacePresetId } from './description.ts';

/** What is on the other side of a surface of a place. */
export type Beyond = 'outdoors' | 'ground' | 'neighbour';

/** A starting point for a kind of place: usual sizes and stuff, with the range of what is found under the same word. */
export interface PlacePreset {
  readonly lengthM: number;
  readonly widthM: number;
  readonly heightM: number;
  readonly walls: readonly LayerDescription[];
  /** Walls towards a heated neighbour; none where the other sides have no walls at all, as under a roof. */
  readonly innerWalls: readonly LayerDescription[];
  readonly roof: readonly LayerDescription[];
  readonly floor: readonly LayerDescription[];
  readonly outsideWalls: number;
  readonly wallsTo: Beyond;
  readonly roofTo: Beyond;
  readonly floorTo: Beyond;
  /** Tilt of the roof from horizontal, degrees. */
  readonly roofTiltDeg: number;
  readonly glazing: GlazingId;
  /** Glazed share of the wall that faces `facingDeg`, of the other outside walls, and of the roof. */
  readonly glazedShare: { readonly front: number; readonly others: number; readonly roof: number };
  readonly airChangesPerHour: number;
  readonly airChangesRange: readonly [number, number];
  readonly contentsKg: number;
  readonly neighbourC: number;
  readonly depthM: number;
  readonly sunShare: number;
  /** Absorptance of walls and roof for sun: 0.6 brick and weathered wood, 0.8 dark felt and tiles. */
  readonly wallAbsorptance: number;
  readonly roofAbsorptance: number;
  readonly source: Source;
}

const l = (material: LayerDescription['material'], thicknessMm: number): LayerDescription => ({
  material,
  thicknessMm,
});
const airChangeSource: Source = {
  cite: 'air change of unheated spaces, EN ISO 13789; sizes and build common practice',
  status: 'from-memory',
  note: 'No measured damping of such places was found in print: readings from the place replace this starting point',
};
const plain = {
  innerWalls: [l('brick', 102.5), l('plaster', 13)],
  wallsTo: 'outdoors',
  roofTo: 'outdoors',
  floorTo: 'ground',
  outsideWalls: 4,
  roofTiltDeg: 15,
  glazing: 'single',
  neighbourC: 18,
  depthM: 0,
  sunShare: 0.7,
  wallAbsorptance: 0.6,
  roofAbsorptance: 0.8,
  source: airChangeSource,
} as const;

export const placePresets: Readonly<Record<PlacePresetId, PlacePreset>> = {
  'brick-outbuilding': {
    ...plain,
    lengthM: 3,
    widthM: 2.4,
    heightM: 2.2,
    walls: [l('brick', 102.5)],
    roof: [l('clay-tiles', 15), l('roofing-felt', 3), l('softwood', 18)],
    floor: [l('concrete', 100)],
    roofTiltDeg: 30,
    glazedShare: { front: 0.08, others: 0, roof: 0 },
    airChangesPerHour: 1.5,
    airChangesRange: [0.5, 3],
    contentsKg: 250,
  },
  'timber-shed': {
    ...plain,
    lengthM: 2.4,
    widthM: 1.8,
    heightM: 2,
    walls: [l('softwood', 14)],
    roof: [l('roofing-felt', 3), l('softwood', 12)],
    floor: [l('cavity', 50), l('softwood', 16)],
    glazedShare: { front: 0.12, others: 0, roof: 0 },
    airChangesPerHour: 3,
    airChangesRange: [1, 10],
    contentsKg: 150,
  },
  'roof-space': {
    ...plain,
    lengthM: 8,
    widthM: 7,
    heightM: 1.3,
    walls: [l('brick', 215)],
    roof: [l('clay-tiles', 15), l('roofing-felt', 2)],
    floor: [l('plasterboard', 12.5), l('mineral-wool', 250)],
    innerWalls: [],
    outsideWalls: 2,
    floorTo: 'neighbour',
    roofTiltDeg: 35,
    glazedShare: { front: 0, others: 0, roof: 0 },
    airChangesPerHour: 5,
    airChangesRange: [3, 10],
    contentsKg: 1500,
    source: { ...airChangeSource, note: 'Insulation lies on the ceiling below; rafters count as contents' },
  },
  'unheated-room': {
    ...plain,
    lengthM: 3.5,
    widthM: 3,
    heightM: 2.4,
    walls: [l('brick', 102.5), l('cavity', 50), l('concrete-block', 100), l('plaster', 13)],
    innerWalls: [l('plaster', 13), l('concrete-block', 100), l('plaster', 13)],
    roof: [l('softwood', 20), l('mineral-wool', 100), l('plasterboard', 12.5)],
    floor: [l('concrete', 100)],
    outsideWalls: 2,
    roofTo: 'neighbour',
    glazing: 'double',
    glazedShare: { front: 0.18, others: 0, roof: 0 },
    airChangesPerHour: 0.5,
    airChangesRange: [0.3, 2],
    contentsKg: 500,
  },
  cellar: {
    ...plain,
    lengthM: 4,
    widthM: 4,
    heightM: 2,
    walls: [l('brick', 215)],
    roof: [l('softwood', 22), l('cavity', 50), l('plasterboard', 12.5)],
    floor: [l('concrete', 100)],
    wallsTo: 'ground',
    roofTo: 'neighbour',
    glazedShare: { front: 0, others: 0, roof: 0 },
    airChangesPerHour: 0.3,
    airChangesRange: [0.1, 0.5],
    contentsKg: 500,
    depthM: 1.8,
  },
  greenhouse: {
    ...plain,
    lengthM: 2.5,
    widthM: 1.9,
    heightM: 2,
    walls: [l('softwood', 16)],
    roof: [l('softwood', 16)],
    floor: [l('soil', 100)],
    roofTiltDeg: 25,
    glazedShare: { front: 1, others: 1, roof: 1 },
    airChangesPerHour: 2,
    airChangesRange: [0.8, 5],
    contentsKg: 100,
    // Light leaves again by the other panes, and damp soil spends about half of the rest on drying (estimate).
    sunShare: 0.3,
  },
  'cold-frame': {
    ...plain,
    lengthM: 1.2,
    widthM: 0.8,
    heightM: 0.4,
    walls: [l('softwood', 22)],
    roof: [l('softwood', 16)],
    floor: [l('soil', 100)],
    roofTiltDeg: 15,
    glazedShare: { front: 0, others: 0, roof: 1 },
    airChangesPerHour: 3,
    airChangesRange: [1, 10],
    contentsKg: 10,
    sunShare: 0.4,
  },
  'outdoor-pit': {
    ...plain,
    lengthM: 1,
    widthM: 0.8,
    heightM: 0.7,
    walls: [l('softwood', 20)],
    roof: [l('softwood', 20), l('straw', 200), l('softwood', 20)],
    floor: [l('soil', 100)],
    wallsTo: 'ground',
    roofTiltDeg: 5,
    glazedShare: { front: 0, others: 0, roof: 0 },
    airChangesPerHour: 0.5,
    airChangesRange: [0.1, 2],
    contentsKg: 0,
    depthM: 0.7,
    source: {
      ...COMMON_PRACTICE,
      note: 'A lined hole with an insulated cover, air change as EN ISO 13789 (from memory)',
    },
  },
};

/** Glazing: U in W/(m² K) with ordinary films, and the share of sun it lets in (g). */
export const glazings: Readonly<
  Record<GlazingId, { readonly uWm2K: number; readonly sunShare: number; readonly source: Source }>
> = {
  single: { uWm2K: 5.7, sunShare: 0.85, source: { cite: 'EN 673, EN ISO 10077', status: 'from-memory' } },
  double: { uWm2K: 2.8, sunShare: 0.75, source: { cite: 'EN 673, EN ISO 10077, 12 mm air', status: 'from-memory' } },
  'polycarbonate-twinwall': {
    uWm2K: 3.5,
    sunShare: 0.78,
    source: { cite: 'usual data sheets of 6 mm twin-wall sheet', status: 'from-memory' },
  },
  'plastic-film': { uWm2K: 6.2, sunShare: 0.85, source: { cite: 'polythene film, one layer', status: 'estimate' } },
};

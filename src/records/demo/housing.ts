import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import { demoId } from './group.ts';

type Polystyrene = BoxRecord['description']['shells'][number]['walls'];
const polystyrene = (thicknessMm: number): Polystyrene => [{ material: 'polystyrene', thicknessMm }];

export const DEMO_PLACES: readonly PlaceRecord[] = [
  {
    id: demoId(31),
    name: 'Potting house',
    description: { kind: 'building', preset: 'brick-outbuilding', facingDeg: 20, airChangesPerHour: 0.8 },
  },
  { id: demoId(32), name: 'Cart shed', description: { kind: 'building', preset: 'timber-shed', facingDeg: 200 } },
  { id: demoId(33), name: 'Coal cellar', description: { kind: 'building', preset: 'cellar' } },
  {
    id: demoId(34),
    name: 'Larder refrigerator',
    description: {
      kind: 'refrigerator',
      refrigerator: { preset: 'under-counter', fan: false, onAtC: 6, offAtC: 4, shelf: 'lower', ballastL: 4.5 },
      kitchenC: 17,
      kitchenSummerC: 22,
      kitchenSwingK: 3,
      doorsPerDay: 1,
    },
  },
];

const nest = (outer: number, thicknessMm: number): BoxRecord['description']['shells'] => [
  {
    insideLengthMm: outer,
    insideWidthMm: Math.round(outer * 0.75),
    insideHeightMm: Math.round(outer * 0.62),
    walls: polystyrene(thicknessMm),
    lidFit: 'loose',
    holes: { count: 8, diameterMm: 8 },
    fill: 'shredded-paper',
  },
  {
    insideLengthMm: Math.round(outer * 0.6),
    insideWidthMm: Math.round(outer * 0.45),
    insideHeightMm: Math.round(outer * 0.36),
    walls: [{ material: 'cardboard', thicknessMm: 4 }],
    holes: { count: 10, diameterMm: 6 },
  },
];

export const DEMO_BOXES: Readonly<Record<'fish-box' | 'cart-box' | 'cellar-box' | 'larder-box', BoxRecord>> = {
  'fish-box': {
    id: demoId(41),
    name: 'Fish box',
    placeId: demoId(31),
    description: {
      shells: nest(620, 40),
      bedding: { material: 'shredded-paper', depthMm: 80 },
      ballast: [{ bottles: 4, litresEach: 1.5 }],
      animal: { massG: 1180 },
      probe: { at: 'beside-animal' },
    },
  },
  'cart-box': {
    id: demoId(42),
    name: 'Tea chest',
    placeId: demoId(32),
    description: {
      shells: nest(560, 30),
      bedding: { material: 'shredded-paper', depthMm: 60 },
      animal: { massG: 660 },
      probe: { at: 'inner-air' },
      stands: 'raised',
    },
  },
  'cellar-box': {
    id: demoId(43),
    name: 'Apple crate',
    placeId: demoId(33),
    description: {
      shells: nest(640, 30),
      bedding: { material: 'dry-leaves', depthMm: 90 },
      animal: { massG: 1690 },
      probe: { at: 'beside-animal' },
    },
  },
  'larder-box': {
    id: demoId(44),
    name: 'Larder box',
    placeId: demoId(34),
    description: {
      shells: [
        {
          insideLengthMm: 400,
          insideWidthMm: 300,
          insideHeightMm: 220,
          walls: [{ material: 'cardboard', thicknessMm: 5 }],
          holes: { count: 12, diameterMm: 8 },
        },
      ],
      bedding: { material: 'shredded-paper', depthMm: 50 },
      animal: { massG: 2640 },
      probe: { at: 'inner-air' },
    },
  },
};

/** Probes: number, name, where, and how their temperature follows the outdoors in the invented readings. */
export const DEMO_PROBES = [
  { number: 51, name: 'Outdoors, north wall', outdoors: true, lagH: 0, towardsC: 0, share: 1 },
  { number: 52, name: 'Fish box', boxId: demoId(41), lagH: 46, towardsC: 5.4, share: 0.55 },
  { number: 53, name: 'Tea chest', boxId: demoId(42), lagH: 16, towardsC: 5.2, share: 0.7 },
  { number: 54, name: 'Apple crate', boxId: demoId(43), lagH: 140, towardsC: 7.2, share: 0.3 },
  { number: 55, name: 'Larder box', boxId: demoId(44), lagH: 400, towardsC: 5.1, share: 0 },
  { number: 56, name: 'Potting house air', placeId: demoId(31), lagH: 9, towardsC: 5.5, share: 0.75 },
] as const;

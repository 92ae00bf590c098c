import { z } from 'zod';
import { checkPlace } from '../heat/check.ts';
import type { LayerDescription, PlaceDescription, Tuning } from '../heat/description.ts';
import { type MaterialId, materials } from '../heat/materials.ts';
import { say } from '../wording/say.ts';
import { idSchema, noteSchema, optional } from './common.ts';
import { refrigeratorSchema } from './refrigerator.ts';

const materialIds = Object.keys(materials) as [MaterialId, ...MaterialId[]];
export const materialSchema = z.enum(materialIds).meta({ description: 'Material of the table' });

const quantity = (most: number, description: string) => z.number().gt(0).max(most).meta({ description });

/** One layer, with exact values for those who have them. */
export const layerSchema = z
  .strictObject({
    material: materialSchema,
    thicknessMm: quantity(1500, 'Thickness, mm'),
    exact: optional(
      z.strictObject({
        conductivityWmK: optional(quantity(500, 'λ, W/(m K)')),
        densityKgM3: optional(quantity(25_000, 'ρ, kg/m³')),
        specificHeatJkgK: optional(quantity(20_000, 'c, J/(kg K)')),
      }),
    ),
  })
  .meta({
    id: 'Layer',
    examples: [{ material: 'polystyrene', thicknessMm: 40 }],
  }) satisfies z.ZodType<LayerDescription>;

export const layersSchema = z.array(layerSchema).max(12).meta({ description: 'Layers, outside to inside' });

const factor = z.number().min(0.05).max(20);
/** What readings have taught. */
export const tuningSchema = z.strictObject({
  lossFactor: optional(factor),
  massFactor: optional(factor),
  sunFactor: optional(z.number().min(0).max(20)),
  airChangeFactor: optional(z.number().min(0).max(20)),
}) satisfies z.ZodType<Tuning>;

const buildingSchema = z.strictObject({
  kind: z.literal('building'),
  preset: z.enum([
    'brick-outbuilding',
    'timber-shed',
    'roof-space',
    'unheated-room',
    'cellar',
    'greenhouse',
    'cold-frame',
    'outdoor-pit',
  ]),
  facingDeg: optional(
    z.number().min(0).max(360).meta({ description: 'Bearing the long, glazed side looks to; 0 north, 90 east' }),
  ),
  lengthM: optional(quantity(60, 'Inside length of the side that looks to facingDeg, m')),
  widthM: optional(quantity(60, 'Inside width, m')),
  heightM: optional(quantity(15, 'Inside height, m')),
  walls: optional(layersSchema),
  roof: optional(layersSchema),
  outsideWalls: optional(z.int().min(0).max(4).meta({ description: 'How many of the four walls face outdoors' })),
  glazing: optional(
    z.strictObject({
      kind: z.enum(['single', 'double', 'polycarbonate-twinwall', 'plastic-film']),
      areaM2: z.number().min(0).max(500),
    }),
  ),
  airChangesPerHour: optional(z.number().min(0).max(60)),
  contentsKg: optional(z.number().min(0).max(100_000)),
  neighbourC: optional(z.number().min(-20).max(35)),
  depthM: optional(z.number().min(0).max(10)),
  sunShare: optional(z.number().min(0).max(1)),
  tuning: optional(tuningSchema),
});

const readingsSchema = z.strictObject({
  kind: z.literal('readings'),
  probeId: optional(idSchema),
  note: optional(noteSchema),
});

const refrigeratorPlaceSchema = z.strictObject({
  kind: z.literal('refrigerator'),
  refrigerator: refrigeratorSchema,
  kitchenC: z
    .number()
    .min(-10)
    .max(40)
    .meta({ description: 'Mean temperature of the room it stands in, at the coldest time of the year, °C' }),
  kitchenSummerC: optional(
    z.number().min(-10).max(45).meta({
      description: 'The same at the warmest time of the year, °C; left out, the room is the same all year',
    }),
  ),
  kitchenSwingK: optional(
    z.number().min(0).max(20).meta({
      description: 'How much warmer the room is in late afternoon than before dawn, K; left out, it is steady',
    }),
  ),
  doorsPerDay: z.int().min(0).max(60).meta({ description: 'How often its door is opened in a day' }),
});

/** A place where boxes stand: a building by preset and what differs from it, readings of its own air, or a refrigerator. */
export const placeDescriptionSchema = z
  .discriminatedUnion('kind', [buildingSchema, readingsSchema, refrigeratorPlaceSchema])
  .superRefine((place, context) => {
    for (const { path, message } of checkPlace(place))
      context.addIssue({ code: 'custom', path: [...path], message: say(message) });
  })
  .meta({
    id: 'PlaceDescription',
    description: 'A building by preset and what differs from it, readings of its own air, or a refrigerator',
    examples: [{ kind: 'building', preset: 'timber-shed', facingDeg: 0, airChangesPerHour: 2 }],
  }) satisfies z.ZodType<PlaceDescription>;

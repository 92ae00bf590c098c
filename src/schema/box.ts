import { z } from 'zod';
import { checkBox, checkBoxInPlace, type DescriptionFault } from '../heat/check.ts';
import type { BoxDescription, FillId, PlaceDescription } from '../heat/description.ts';
import { say } from '../wording/say.ts';
import { optional } from './common.ts';
import { layersSchema, tuningSchema } from './place.ts';
import type { Problem } from './problems.ts';
import { pathText } from './problems.ts';

const fills = [
  'shredded-paper',
  'newspaper',
  'straw',
  'dry-leaves',
  'wood-shavings',
  'polystyrene',
  'bubble-wrap',
  'cardboard',
  'potting-soil',
  'soil',
] as const satisfies readonly FillId[];

const sizeMm = z.number().gt(0).max(5000);

const shellSchema = z.strictObject({
  insideLengthMm: sizeMm,
  insideWidthMm: sizeMm,
  insideHeightMm: sizeMm,
  walls: layersSchema.min(1),
  lid: optional(layersSchema),
  base: optional(layersSchema),
  lidFit: optional(z.enum(['tight', 'loose'])),
  holes: optional(z.strictObject({ count: z.int().min(0).max(500), diameterMm: z.number().gt(0).max(200) })),
  fill: optional(z.enum(['air', ...fills])),
});

/** The whole nest: shells from the outside in, bedding, bottles, animal and probe. */
export const boxDescriptionSchema = z
  .strictObject({
    shells: z.array(shellSchema).min(1).max(6).meta({ description: 'Boxes of the nest, outermost first' }),
    bedding: optional(z.strictObject({ material: z.enum(fills), depthMm: z.number().gt(0).max(1500) })),
    ballast: optional(
      z
        .array(
          z.strictObject({
            bottles: z.int().min(1).max(500),
            litresEach: z.number().gt(0).max(200),
            shell: optional(z.int().min(0).max(5)),
          }),
        )
        .max(10),
    ),
    animal: optional(z.strictObject({ massG: z.number().gt(0).max(300_000) })),
    probe: optional(
      z.strictObject({ at: z.enum(['beside-animal', 'inner-air', 'outer-space', 'on-ballast', 'under-lid']) }),
    ),
    stands: optional(z.enum(['floor', 'raised'])),
    tuning: optional(tuningSchema),
  })
  .superRefine((box, context) => {
    for (const { path, message } of checkBox(box))
      context.addIssue({ code: 'custom', path: [...path], message: say(message) });
  })
  .meta({
    id: 'BoxDescription',
    description: 'A nest of boxes with what is in it',
    examples: [
      {
        shells: [
          {
            insideLengthMm: 500,
            insideWidthMm: 350,
            insideHeightMm: 300,
            walls: [{ material: 'polystyrene', thicknessMm: 30 }],
            holes: { count: 8, diameterMm: 8 },
          },
        ],
        bedding: { material: 'shredded-paper', depthMm: 100 },
        ballast: [{ bottles: 5, litresEach: 1 }],
        animal: { massG: 1000 },
      },
    ],
  }) satisfies z.ZodType<BoxDescription>;

/** Problems of a box in the place it is meant for; `prefix` is where the box stands in the input. */
export function boxInPlaceProblems(box: BoxDescription, place: PlaceDescription, prefix: readonly string[]): Problem[] {
  return checkBoxInPlace(box, place).map(({ path, message }: DescriptionFault) => ({
    where: pathText([...prefix, ...path]),
    what: say(message),
  }));
}

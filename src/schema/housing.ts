import { z } from 'zod';
import { boxDescriptionSchema } from './box.ts';
import { idSchema, nameSchema, optional, revisionSchema } from './common.ts';
import { placeDescriptionSchema } from './place.ts';

/** Where a box stands: a building or room with a climate of its own. */
export const placeRecordSchema = z
  .strictObject({ id: idSchema, name: nameSchema, description: placeDescriptionSchema, revision: revisionSchema })
  .meta({
    id: 'Place',
    description: 'Where a box stands',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000009',
        name: 'Tool shed',
        description: { kind: 'building', preset: 'timber-shed' },
      },
    ],
  });
export type PlaceRecord = z.infer<typeof placeRecordSchema>;

const polystyrene = [{ material: 'polystyrene', thicknessMm: 30 }];

/** The whole nest of outer box, fill, inner box, bedding and ballast. */
export const boxRecordSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    placeId: optional(idSchema.meta({ description: 'Where it stands now' })),
    description: boxDescriptionSchema,
    revision: revisionSchema,
  })
  .meta({
    id: 'Box',
    description: 'The nest an animal sleeps in',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000008',
        name: 'Fish box',
        placeId: '01980d2e-7c00-7000-8000-000000000009',
        description: { shells: [{ insideLengthMm: 500, insideWidthMm: 350, insideHeightMm: 280, walls: polystyrene }] },
      },
    ],
  });
export type BoxRecord = z.infer<typeof boxRecordSchema>;

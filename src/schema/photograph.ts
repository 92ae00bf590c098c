import { z } from 'zod';
import { daySchema, idSchema, noteSchema, optional } from './common.ts';

/** A photograph of an animal. The bytes are made anew on arrival, so that no place or device stays in them. */
export const photographSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    takenOn: optional(daySchema),
    note: optional(noteSchema),
    widthPx: z.int().min(1),
    heightPx: z.int().min(1),
    bytes: z.int().min(1),
  })
  .meta({ id: 'Photograph', description: 'A photograph of an animal; the picture itself is fetched apart' });
export type Photograph = z.infer<typeof photographSchema>;

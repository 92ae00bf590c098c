import { z } from 'zod';
import { daySchema, idSchema, noteSchema, optional, revisionSchema } from './common.ts';

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
    revision: revisionSchema,
  })
  .meta({
    id: 'Photograph',
    description: 'A photograph of an animal; the picture itself is fetched apart',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000031',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        takenOn: '2026-10-02',
        note: 'Shell from above',
        widthPx: 1200,
        heightPx: 900,
        bytes: 214_000,
      },
    ],
  });
export type Photograph = z.infer<typeof photographSchema>;

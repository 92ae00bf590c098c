import { z } from 'zod';
import { daySchema, idSchema, noteSchema, optional, revisionSchema } from './common.ts';

/** One animal in one box in one place, from a day to a day. A stay without an end is going on. */
export const staySchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    boxId: idSchema,
    placeId: idSchema,
    fromDay: daySchema,
    toDay: optional(daySchema),
    endReason: optional(
      z.enum(['woken', 'another-box', 'left', 'died', 'other']).meta({ description: 'Why it ended on toDay' }),
    ),
    endEntryId: optional(
      idSchema.meta({
        description:
          'The record that ended it: the diary entry of the waking, or the animal’s own when it died or left',
      }),
    ),
    note: optional(noteSchema),
    revision: revisionSchema,
  })
  .refine((stay) => stay.toDay === undefined || stay.toDay >= stay.fromDay, { error: 'toBeforeFrom', path: ['toDay'] })
  .meta({
    id: 'Stay',
    description: 'One animal in one box in one place from a day to a day',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000007',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        boxId: '01980d2e-7c00-7000-8000-000000000008',
        placeId: '01980d2e-7c00-7000-8000-000000000009',
        fromDay: '2026-11-20',
      },
    ],
  });
export type Stay = z.infer<typeof staySchema>;

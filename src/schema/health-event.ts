import { z } from 'zod';
import { daySchema, idSchema, noteSchema, optional, revisionSchema } from './common.ts';

export const healthEventKindSchema = z.enum([
  'illness',
  'treatment',
  'vet-check',
  'vet-clearance',
  'parasite-check',
  'eggs',
  'new-arrival',
]);

/** Something in the animal's health that bears on its winter, from a day to a day. */
export const healthEventSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    kind: healthEventKindSchema,
    fromDay: daySchema,
    toDay: optional(daySchema),
    note: optional(noteSchema),
    revision: revisionSchema,
  })
  .refine((event) => event.toDay === undefined || event.toDay >= event.fromDay, {
    error: 'toBeforeFrom',
    path: ['toDay'],
  })
  .meta({
    id: 'HealthEvent',
    description: 'Illness, treatment, a vet visit, eggs, arrival',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000005',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        kind: 'parasite-check',
        fromDay: '2026-09-12',
      },
    ],
  });
export type HealthEvent = z.infer<typeof healthEventSchema>;

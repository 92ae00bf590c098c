import { z } from 'zod';
import { idSchema, instantSchema, noteSchema, optional, revisionSchema } from './common.ts';

export const measurementKindSchema = z
  .enum(['routine', 'start', 'asleep', 'after-waking'])
  .meta({ description: 'routine; start: the mass it goes to sleep with; asleep; after-waking' });

/** A weighing, a length, or both. Straight carapace length (SCL), never over the curve. */
export const measurementSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    at: instantSchema,
    massG: optional(z.number().min(1).max(300_000).meta({ description: 'Mass, g' })),
    sclMm: optional(z.number().min(15).max(1500).meta({ description: 'Straight carapace length, mm' })),
    kind: measurementKindSchema,
    note: optional(noteSchema),
    revision: revisionSchema,
  })
  .refine((m) => m.massG !== undefined || m.sclMm !== undefined, { error: 'massOrLength', path: ['massG'] })
  .meta({
    id: 'Measurement',
    description: 'A weighing, a straight carapace length, or both',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000003',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        at: '2026-11-05T15:07:00Z',
        massG: 1240,
        sclMm: 182,
        kind: 'routine',
      },
    ],
  });
export type Measurement = z.infer<typeof measurementSchema>;

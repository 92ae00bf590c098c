import { z } from 'zod';
import { daySchema, idSchema, instantSchema, optional, revisionSchema } from './common.ts';

/** How warm an animal really was after its last meal, as its keeper saw it: what decides whether its gut is empty. */
export const gutWarmthSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    at: instantSchema.meta({ description: 'When this was written down; the newest counts' }),
    mealDay: daySchema.meta({ description: 'Day of the last food' }),
    lampHours: z.number().min(0).max(18).meta({ description: 'Hours a day under the lamp' }),
    lampBodyTempC: z.number().min(10).max(40).meta({ description: 'Warmth of the animal under the lamp, °C' }),
    nightTempC: z.number().min(-5).max(35).meta({ description: 'Warmth by night and without the lamp, °C' }),
    probeId: optional(idSchema.meta({ description: 'A thermometer whose readings count instead of these figures' })),
    revision: revisionSchema,
  })
  .meta({
    id: 'GutWarmth',
    description: 'How warm an animal was after its last meal',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-00000000000d',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        at: '2026-11-05T18:00:00Z',
        mealDay: '2026-10-18',
        lampHours: 8,
        lampBodyTempC: 27,
        nightTempC: 12,
      },
    ],
  });
export type GutWarmth = z.infer<typeof gutWarmthSchema>;

import { z } from 'zod';
import { idSchema, instantSchema, noteSchema, optional, revisionSchema } from './common.ts';

export const diaryKindSchema = z.enum([
  'lid-opened',
  'touch-response',
  'no-touch-response',
  'droppings',
  'urine',
  'moved',
  'awake-signs',
  'bath',
  'fed',
  'refused-food',
  'drank',
  'gut-cleared',
  'lamp-changed',
  'went-down',
  'woken',
  'note',
]);

/** One thing seen or done with an animal at an instant. */
export const diaryEntrySchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    at: instantSchema,
    kind: diaryKindSchema,
    note: optional(noteSchema),
    revision: revisionSchema,
  })
  .meta({
    id: 'DiaryEntry',
    description: 'One thing seen or done with an animal',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000006',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        at: '2027-01-09T08:40:00Z',
        kind: 'lid-opened',
      },
    ],
  });
export type DiaryEntry = z.infer<typeof diaryEntrySchema>;

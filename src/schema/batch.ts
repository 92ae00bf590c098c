import { z } from 'zod';
import { idSchema, optional } from './common.ts';

/** What an outbox may hold. Each kind's body is the thing of that name. */
const batchKindSchema = z.enum([
  'animal',
  'measurement',
  'examination',
  'health-event',
  'diary',
  'place',
  'box',
  'stay',
  'probe',
  'task-done',
  'reading',
  'max-min',
  'gut-warmth',
  'acknowledgement',
]);

export const batchSchema = z
  .array(
    z.strictObject({
      id: idSchema,
      kind: batchKindSchema,
      body: z.record(z.string(), z.unknown()),
      delete: optional(
        z.literal(true).meta({
          description:
            'The record named by `id` and `revision` in the body is to be deleted, unless it was changed since',
        }),
      ),
    }),
  )
  .min(1)
  .max(500)
  .meta({ id: 'Batch', description: 'Entries made without a connection; sending the same again changes nothing' });
export type Batch = z.infer<typeof batchSchema>;

/** Which record is to be deleted, and the version of it that whoever deleted it had seen. */
export const deletionSchema = z.strictObject({ id: idSchema, revision: z.int().min(1) });

export const batchAnswerSchema = z
  .array(
    z.strictObject({
      id: idSchema,
      state: z.enum(['saved', 'already-there', 'conflict', 'refused']),
      problem: z.unknown().optional(),
    }),
  )
  .meta({ id: 'BatchAnswer', description: 'What became of each entry, in order' });

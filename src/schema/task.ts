import { z } from 'zod';
import { daySchema, idSchema, instantSchema, lineSchema, noteSchema, optional, revisionSchema } from './common.ts';

/** A task of the round that was done, or let go with a reason. */
export const taskDoneSchema = z
  .strictObject({
    id: idSchema,
    taskKey: lineSchema(160).meta({ description: 'Key of the task as the round gives it' }),
    animalId: optional(idSchema),
    day: daySchema.meta({ description: 'Day the task was due' }),
    at: instantSchema.meta({ description: 'When it was done' }),
    outcome: z.enum(['done', 'let-go']),
    note: optional(noteSchema),
    revision: revisionSchema,
  })
  .meta({
    id: 'TaskDone',
    description: 'A task of the round that was done',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-00000000000c',
        taskKey: 'weigh',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        day: '2027-01-09',
        at: '2027-01-09T08:40:00Z',
        outcome: 'done',
      },
    ],
  });
export type TaskDone = z.infer<typeof taskDoneSchema>;

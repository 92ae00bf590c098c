import { z } from 'zod';
import { idSchema, instantSchema, optional } from './common.ts';
import { changeSchema } from './history.ts';

const bodySchema = z.record(z.string(), z.unknown());

/** What became of one record: each change with who, when and what before; and edits that wait beside it for a choice. */
export const trailSchema = z
  .strictObject({
    kind: z.string(),
    record: bodySchema.meta({ description: 'The record as it stands' }),
    changes: z.array(changeSchema),
    beside: z
      .array(z.strictObject({ id: idSchema, at: instantSchema, by: optional(z.string()), edit: bodySchema }))
      .meta({ description: 'Edits made from an older version: kept until one of the versions is saved' }),
  })
  .meta({ id: 'Trail', description: 'Who changed one record, when, and what stood there before' });
export type Trail = z.infer<typeof trailSchema>;

/** A deleted record that can still be brought back. */
export const deletedEntrySchema = z
  .strictObject({ kind: z.string(), at: instantSchema, by: optional(z.string()), record: bodySchema })
  .meta({ id: 'DeletedEntry', description: 'A record deleted in the last 30 days' });
export type DeletedEntry = z.infer<typeof deletedEntrySchema>;

import { z } from 'zod';
import { idSchema, instantSchema, lineSchema, noteSchema, optional } from './common.ts';

export const noticeLevelSchema = z.enum(['act-now', 'look-today', 'for-the-record']);

/** A sentence not yet in words: the key of the catalogue and the values put into it. */
const messageSchema = z.strictObject({
  key: z.string().max(120),
  values: optional(z.record(z.string(), z.union([z.string(), z.number()]))),
});

/** Something the watch has to say about one stay. */
export const noticeSchema = z
  .strictObject({
    id: idSchema,
    ruleId: lineSchema(80),
    stayId: idSchema,
    level: noticeLevelSchema,
    fromAt: instantSchema,
    clearedAt: optional(instantSchema),
    message: messageSchema,
    acknowledged: optional(z.strictObject({ by: lineSchema(120), at: instantSchema, note: optional(noteSchema) })),
  })
  .meta({
    id: 'Notice',
    description: 'Something the watch has to say about one stay',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-00000000000b',
        ruleId: 'under-2',
        stayId: '01980d2e-7c00-7000-8000-000000000007',
        level: 'act-now',
        fromAt: '2027-01-09T02:10:00Z',
        message: { key: 'winter.rule.under-2', values: { temperature: '1.6 °C' } },
      },
    ],
  });
export type Notice = z.infer<typeof noticeSchema>;

/** Says that a person has seen a notice. */
export const acknowledgementSchema = z
  .strictObject({ noticeId: idSchema, at: instantSchema, note: optional(noteSchema) })
  .meta({ id: 'Acknowledgement', description: 'Says that a person has seen a notice' });
export type Acknowledgement = z.infer<typeof acknowledgementSchema>;

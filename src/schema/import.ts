import { z } from 'zod';
import { idSchema, instantSchema, tempCSchema } from './common.ts';

/** What a person may decide about a file of readings, in answer to the questions of a preview. */
export const importChoicesSchema = z
  .strictObject({
    encoding: z.string().max(40).optional(),
    delimiter: z.string().length(1).optional(),
    dateOrder: z.enum(['ymd', 'dmy', 'mdy', 'ydm']).optional(),
    zone: z
      .string()
      .max(60)
      .optional()
      .meta({ description: 'IANA zone, or a fixed offset such as +01:00, that the logger’s clock shows' }),
    unit: z.enum(['C', 'F', 'K', 'tenths-C', 'thousandths-C']).optional(),
    columns: z
      .record(
        z.string(),
        z.enum(['moment', 'date', 'time', 'temperature', 'maximum', 'minimum', 'humidity', 'probe', 'ignored']),
      )
      .optional()
      .meta({ description: 'What a column holds, by its number counted from 0' }),
    conflicts: z.enum(['keep-first', 'keep-last']).optional(),
    decimalComma: z.boolean().optional(),
  })
  .meta({ id: 'ImportChoices', description: 'Decisions about a file of readings', examples: [{ dateOrder: 'dmy' }] });
export type ImportChoices = z.infer<typeof importChoicesSchema>;

export const importQuestionSchema = z.strictObject({
  choice: z
    .enum(['dateOrder', 'zone', 'unit', 'columns', 'conflicts', 'decimalComma'])
    .meta({ description: 'The choice that answers it' }),
  question: z.string(),
  options: z.array(
    z.strictObject({
      value: z.string(),
      means: z.string().meta({ description: 'The same reading of the file, read this way' }),
    }),
  ),
});
export type ImportQuestion = z.infer<typeof importQuestionSchema>;

export const importReadingSchema = z.strictObject({
  probe: z.string(),
  at: instantSchema,
  tempC: tempCSchema,
  humidity: z.number().min(0).max(1).optional(),
});

export const importSpanSchema = z.strictObject({
  probe: z.string(),
  fromAt: instantSchema,
  toAt: instantSchema,
  maxC: tempCSchema,
  minC: tempCSchema,
});

export const importPreviewSchema = z
  .strictObject({
    detected: z.strictObject({
      encoding: z.string(),
      encodingBy: z.string(),
      delimiter: z.string(),
      timeZone: z.string(),
      timeZoneBy: z.enum(['cell', 'header', 'asked', 'settings']),
      dateOrder: z.string(),
      dateOrderBy: z.enum(['writing', 'dates', 'steps', 'future', 'asked', 'open']),
      unit: z.string(),
      unitBy: z.enum(['header', 'preamble', 'asked', 'plausible', 'open']),
      firstDataLine: z.number().int(),
      columns: z.array(
        z.strictObject({ at: z.number().int(), name: z.string(), role: z.string(), probe: z.string().optional() }),
      ),
      probes: z.array(
        z.strictObject({
          name: z.string(),
          readings: z.number().int(),
          spans: z.number().int(),
          lowestC: z.number().nullable(),
          highestC: z.number().nullable(),
        }),
      ),
      newestFirst: z.boolean(),
      usualStepS: z.number().nullable(),
      from: instantSchema.nullable(),
      to: instantSchema.nullable(),
    }),
    ready: z.number().int(),
    rejected: z.number().int(),
    repeated: z.number().int().meta({ description: 'Rows that say the same again' }),
    notes: z
      .array(z.strictObject({ line: z.number().int(), text: z.string() }))
      .meta({ description: 'Events and remarks between the readings; the first of them' }),
    rejections: z
      .array(z.strictObject({ line: z.number().int(), text: z.string(), reason: z.string() }))
      .meta({ description: 'The first of them; all can be fetched' }),
    questions: z.array(importQuestionSchema),
    readings: z.array(importReadingSchema).meta({ description: 'The first readings, as UTC instants and °C' }),
    spans: z.array(importSpanSchema),
    summary: z.string(),
  })
  .meta({ id: 'ImportPreview', description: 'What a file of readings holds; nothing has been saved' });
export type ImportPreview = z.infer<typeof importPreviewSchema>;

export const savedImportSchema = z
  .strictObject({
    stored: z.int().meta({ description: 'Readings that are new' }),
    alreadyThere: z.int(),
    spansStored: z.int(),
    spansAlreadyThere: z.int(),
    rejected: z.int(),
    probes: z.array(
      z.strictObject({
        name: z.string().meta({ description: 'Name in the file' }),
        probeId: idSchema,
        made: z.boolean().meta({ description: 'True when there was no probe of this name before' }),
      }),
    ),
  })
  .meta({ id: 'SavedImport', description: 'What saving a file of readings changed' });
export type SavedImport = z.infer<typeof savedImportSchema>;

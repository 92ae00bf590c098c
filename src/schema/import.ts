import { z } from 'zod';
import { idSchema, instantSchema, nameSchema, tempCSchema } from './common.ts';

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

const importChartSchema = z
  .strictObject({
    bucketMs: z.number().min(1).meta({ description: 'Length of one stretch, ms' }),
    probes: z.array(
      z.strictObject({
        probe: z.string(),
        atMs: z.array(z.number()).meta({ description: 'First reading of each stretch that holds any, epoch ms' }),
        minC: z.array(z.number()),
        meanC: z.array(z.number()),
        maxC: z.array(z.number()),
      }),
    ),
  })
  .meta({ id: 'ImportChart', description: 'A whole file thinned for a chart, up to six of its thermometers' });
export type ImportChart = z.infer<typeof importChartSchema>;

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
    chart: importChartSchema.optional(),
  })
  .meta({
    id: 'ImportPreview',
    description: 'What a file of readings holds; nothing has been saved',
    examples: [
      {
        detected: {
          encoding: 'utf-8',
          encodingBy: 'content',
          delimiter: ';',
          timeZone: 'Europe/London',
          timeZoneBy: 'settings',
          dateOrder: 'ymd',
          dateOrderBy: 'writing',
          unit: 'C',
          unitBy: 'header',
          firstDataLine: 2,
          columns: [
            { at: 0, name: 'Time', role: 'moment' },
            { at: 1, name: 'Box °C', role: 'temperature' },
          ],
          probes: [{ name: 'Box', readings: 1, spans: 0, lowestC: 4.8, highestC: 4.8 }],
          newestFirst: false,
          usualStepS: 600,
          from: '2026-12-01T00:00:00.000Z',
          to: '2026-12-01T00:00:00.000Z',
        },
        ready: 1,
        rejected: 0,
        repeated: 0,
        notes: [],
        rejections: [],
        questions: [],
        readings: [{ probe: 'Box', at: '2026-12-01T00:00:00.000Z', tempC: 4.8 }],
        spans: [],
        summary: '1 of 1 readings are ready; nothing has been saved yet.',
      },
    ],
  });
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
        probeName: z.string().meta({ description: 'Name of the probe' }),
        probeId: idSchema,
        made: z.boolean().meta({ description: 'True when there was no probe of this name before' }),
      }),
    ),
  })
  .meta({ id: 'SavedImport', description: 'What saving a file of readings changed' });
export type SavedImport = z.infer<typeof savedImportSchema>;

/** How an uploaded file is to be read. */
export const importReadSchema = z
  .strictObject({
    choices: importChoicesSchema.optional(),
    probeName: nameSchema.optional().meta({ description: 'Name for the probe of a file that names none' }),
  })
  .meta({
    id: 'ImportRead',
    description: 'How an uploaded file is to be read',
    examples: [{ choices: { dateOrder: 'dmy' }, probeName: 'Fish box, lid side' }],
  });

export const importSaveSchema = z
  .strictObject({
    ...importReadSchema.shape,
    probes: z.record(z.string().max(200), idSchema).optional().meta({
      description: 'The probe each name of the file stands for; a name left out goes to the probe of that name',
    }),
    newNames: z.record(z.string().max(200), nameSchema).optional().meta({
      description: 'The name that the new probe made for a name of the file is to bear',
    }),
  })
  .meta({
    id: 'ImportSave',
    description: 'How an uploaded file is to be read, and whose readings they are',
    examples: [{ probes: { Box: '01980d2e-7c00-7000-8000-00000000000a' } }],
  });

export const importStateSchema = z
  .strictObject({
    id: idSchema,
    bytes: z.int(),
    state: z.enum(['arriving', 'uploaded', 'saving', 'saved', 'failed']),
    done: z.int().meta({ description: 'Readings written so far' }),
    all: z.int().meta({ description: 'Readings to write; 0 until the file has been read' }),
    saved: savedImportSchema.optional(),
    problem: z.string().optional(),
  })
  .meta({
    id: 'ImportState',
    description: 'How far an uploaded file is',
    examples: [{ id: '01980d2e-7c00-7000-8000-00000000000b', bytes: 48_211, state: 'uploaded', done: 0, all: 0 }],
  });

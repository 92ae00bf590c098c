import { z } from 'zod';
import { idSchema, instantSchema, nameSchema, optional, revisionSchema, tempCSchema } from './common.ts';

/** A thermometer: where it hangs and how it reads. */
export const probeSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    boxId: optional(idSchema),
    placeId: optional(idSchema),
    outdoors: optional(z.boolean().meta({ description: 'True for a probe in the open air' })),
    offsetC: z
      .number()
      .min(-5)
      .max(5)
      .meta({ description: 'Added to what the probe says: minus its reading in melting ice' }),
    expectedIntervalS: z
      .number()
      .min(1)
      .max(172_800)
      .meta({ description: 'Seconds between readings when all is well' }),
    revision: revisionSchema,
  })
  .refine(
    (probe) =>
      [probe.boxId, probe.placeId, probe.outdoors || undefined].filter((where) => where !== undefined).length <= 1,
    {
      error: 'probePlace',
      path: ['boxId'],
    },
  )
  .meta({
    id: 'Probe',
    description: 'A thermometer in a box, in a place, or outdoors',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-00000000000a',
        name: 'Fish box, lid side',
        boxId: '01980d2e-7c00-7000-8000-000000000008',
        offsetC: -0.3,
        expectedIntervalS: 600,
      },
    ],
  });
export type Probe = z.infer<typeof probeSchema>;

/** `good` counts everywhere; `suspect` is drawn but rules ignore it; `excluded` was set aside by a person. */
const readingQualitySchema = z.enum(['good', 'suspect', 'excluded']);
const readingSourceSchema = z.enum(['typed', 'csv', 'http', 'mqtt', 'wire', 'service', 'demonstration']);

/** One reading at one instant. Readings are never changed: a second one of the same probe and instant supersedes. */
export const readingSchema = z
  .strictObject({
    probeId: idSchema,
    at: instantSchema,
    tempC: tempCSchema,
    humidity: optional(z.number().min(0).max(1).meta({ description: 'Relative humidity, 0 to 1' })),
    quality: readingQualitySchema,
    source: readingSourceSchema,
  })
  .meta({
    id: 'Reading',
    description: 'One temperature at one instant',
    examples: [
      {
        probeId: '01980d2e-7c00-7000-8000-00000000000a',
        at: '2027-01-09T08:40:00Z',
        tempC: 4.9,
        quality: 'good',
        source: 'typed',
      },
    ],
  });
export type Reading = z.infer<typeof readingSchema>;

/** One reading as it came, and what counts instead of it when a person has corrected it. */
export const singleReadingSchema = z
  .strictObject({
    reading: readingSchema,
    correction: optional(
      z.strictObject({ tempC: tempCSchema, quality: readingQualitySchema, reason: z.string() }).meta({
        description: 'What counts instead, and why',
      }),
    ),
  })
  .meta({ id: 'SingleReading', description: 'One reading as it came, and its correction' });
export type SingleReading = z.infer<typeof singleReadingSchema>;

/** What a thermometer said of its battery: a charge, whether it is low by its own judgement, or both. */
export const batteryLevelSchema = z
  .strictObject({
    at: instantSchema,
    percent: optional(z.int().min(0).max(100)),
    low: optional(z.boolean().meta({ description: 'Its own judgement of whether the battery is low' })),
  })
  .meta({
    id: 'BatteryLevel',
    description: 'Charge that a thermometer said it had left, percent',
    examples: [{ at: '2027-01-09T08:40:00Z', percent: 93 }],
  });
export type BatteryLevel = z.infer<typeof batteryLevelSchema>;

/** What a maximum-minimum thermometer says: the extremes since it was last reset. */
export const maxMinSchema = z
  .strictObject({
    probeId: idSchema,
    fromAt: instantSchema.meta({ description: 'When the thermometer was reset' }),
    toAt: instantSchema.meta({ description: 'When it was read' }),
    maxC: tempCSchema,
    minC: tempCSchema,
  })
  .refine((span) => span.minC <= span.maxC, { error: 'minAboveMax', path: ['minC'] })
  .refine((span) => Date.parse(span.fromAt) < Date.parse(span.toAt), { error: 'toBeforeFrom', path: ['toAt'] })
  .meta({
    id: 'MaxMinReading',
    description: 'Highest and lowest temperature between a reset and a look',
    examples: [
      {
        probeId: '01980d2e-7c00-7000-8000-00000000000a',
        fromAt: '2027-01-08T08:30:00Z',
        toAt: '2027-01-09T08:40:00Z',
        maxC: 6.1,
        minC: 3.8,
      },
    ],
  });
export type MaxMin = z.infer<typeof maxMinSchema>;

/** Readings for a chart: at most 4,000 stretches of equal length, empty ones left out. Columns, so that long ranges stay small. */
export const chartSchema = z
  .strictObject({
    probeId: idSchema,
    bucketMs: z.number().min(1).meta({ description: 'Length of one stretch, ms' }),
    count: z.int().min(0).meta({ description: 'Readings in the range' }),
    atMs: z.array(z.number()).meta({ description: 'Start of each stretch that holds readings, epoch ms' }),
    minC: z.array(z.number()),
    meanC: z.array(z.number()),
    maxC: z.array(z.number()),
    humidity: z.array(z.number().nullable()).meta({ description: 'Mean relative humidity of each stretch, 0 to 1' }),
    maxMin: z
      .array(maxMinSchema)
      .meta({ description: 'Readings of a maximum-minimum thermometer that touch the range' }),
  })
  .meta({ id: 'ReadingChart', description: 'Readings of one probe as minimum, mean and maximum per stretch' });
export type ReadingChart = z.infer<typeof chartSchema>;

import { z } from 'zod';
import { instantSchema, optional } from './common.ts';

const MOST_AT_ONCE = 2000;

const sentReadingSchema = z.strictObject({
  at: optional(instantSchema.meta({ description: 'When it was measured; left out: now' })),
  tempC: z.number().meta({ description: 'As the thermometer says; what cannot be true goes into quarantine' }),
  humidity: optional(z.number().min(0).max(1).meta({ description: 'Relative humidity, 0 to 1' })),
  batteryPercent: optional(z.number().min(0).max(100).meta({ description: 'Charge left in its battery, percent' })),
});

/** What a thermometer with a token sends. */
export const sentReadingsSchema = z
  .union([sentReadingSchema, z.array(sentReadingSchema).min(1).max(MOST_AT_ONCE)])
  .meta({
    id: 'SentReadings',
    description: 'One reading of the probe that the token belongs to, or a list of them',
    examples: [
      { at: '2027-01-09T08:40:00Z', tempC: 4.9 },
      [{ at: '2027-01-09T08:50:00Z', tempC: 4.9, humidity: 0.81, batteryPercent: 93 }],
    ],
  });

export const takenSchema = z
  .strictObject({
    stored: z.int(),
    alreadyThere: z.int(),
    refused: z.int().meta({ description: 'Put into quarantine' }),
  })
  .meta({
    id: 'Taken',
    description: 'What became of readings that were sent',
    examples: [{ stored: 1, alreadyThere: 0, refused: 0 }],
  });

import { z } from 'zod';
import { instantSchema, optional } from './common.ts';

const temperatures = z.array(z.number()).meta({ description: '°C, one for each of the times' });

/** When the box is expected to leave the limits of the stay first; absent where neither the course nor its range does. */
export const breachSchema = z
  .strictObject({
    side: z.enum(['cold', 'warm']),
    likely: z.boolean().meta({ description: 'True when the expected course itself passes the limit' }),
    limitC: z.number(),
    at: instantSchema.meta({
      description: 'When the limit is passed; the time of the forecast when it is passed already',
    }),
  })
  .meta({ description: 'Which limit of the stay the box is expected to pass first, and when' });

const NO_FORECAST = [
  'not-asleep',
  'no-thermometer',
  'refrigerator',
  'place-unknown',
  'no-weather',
  'old-weather',
  'short-weather',
  'no-readings',
  'in-work',
] as const;
export type NoForecastReason = (typeof NO_FORECAST)[number];

/** The temperature expected at the animal over the next hours, up to 72; or that there is no forecast, and why. */
export const boxForecastSchema = z
  .discriminatedUnion('state', [
    z.strictObject({
      state: z.literal('forecast'),
      madeAt: instantSchema,
      times: z.array(instantSchema),
      tempC: temperatures,
      low: temperatures.meta({ description: 'Lower end of the 90 % range, °C' }),
      high: temperatures.meta({ description: 'Upper end of the 90 % range, °C' }),
      limits: z
        .strictObject({ coldC: z.array(z.number()), warmC: z.array(z.number()) })
        .meta({ description: 'Limits of the stay, °C, the mildest first' }),
      readings: z
        .strictObject({
          from: instantSchema,
          to: instantSchema,
          used: z.int(),
          setAside: z.int().meta({ description: 'Readings that no state of the box could explain' }),
        })
        .meta({ description: 'What the forecast starts from' }),
      fits: z.boolean().meta({
        description:
          'False when the readings differ from the described place and box by more than the range allows for',
      }),
      breach: optional(
        breachSchema.extend({
          what: z.string().meta({ description: 'The same as a sentence, in the units of the group' }),
        }),
      ),
    }),
    z.strictObject({
      state: z.literal('none'),
      reason: z.enum(NO_FORECAST),
      what: z.string().meta({ description: 'The reason as a sentence' }),
    }),
  ])
  .meta({ id: 'BoxForecast', description: 'The next hours in the box of a stay, or why nobody can say' });
export type BoxForecastAnswer = z.infer<typeof boxForecastSchema>;

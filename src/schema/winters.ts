import { z } from 'zod';
import { daySchema, optional } from './common.ts';

/** Winters of hourly weather. Missing hours are null: the reader makes NaN of them and never a smooth line. */
export const wintersSchema = z
  .strictObject({
    source: z
      .enum(['recorded', 'normals'])
      .meta({ description: 'From stored readings outdoors, or made from the normals' }),
    note: optional(z.string().meta({ description: 'Where the normals come from' })),
    winters: z.array(
      z.strictObject({
        label: z.string(),
        origin: z.enum(['recorded', 'generated']),
        fromDay: daySchema,
        startMs: z.number(),
        stepS: z.number(),
        airTempC: z.array(z.number().nullable()),
        cloudShare: optional(z.array(z.number().nullable())),
        missingShare: z.number(),
      }),
    ),
  })
  .meta({ id: 'Winters', description: 'Winters of hourly weather to run a place and a box through' });
export type Winters = z.infer<typeof wintersSchema>;

/** A weather forecast as a service gave it: hourly, from the instant it was made. */
export const forecastSchema = z
  .strictObject({
    madeAtMs: z.number(),
    startMs: z.number(),
    stepS: z.number(),
    airTempC: z.array(z.number().nullable()).max(1000),
    cloudShare: optional(z.array(z.number().nullable()).max(1000)),
  })
  .meta({ id: 'Forecast', description: 'Weather expected outdoors' });
export type Forecast = z.infer<typeof forecastSchema>;

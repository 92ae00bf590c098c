import { z } from 'zod';
import { instantSchema, optional } from './common.ts';

const temperatures = z.array(z.number()).meta({ description: '°C, one for each of the times' });

/** The temperature expected at the animal over the next hours, up to 72. */
export const boxForecastSchema = z
  .strictObject({
    madeAt: instantSchema,
    times: z.array(instantSchema),
    tempC: temperatures,
    low: temperatures.meta({ description: 'Lower end of the 90 % range, °C' }),
    high: temperatures.meta({ description: 'Upper end of the 90 % range, °C' }),
    breach: optional(
      z
        .strictObject({
          side: z.enum(['cold', 'warm']),
          likely: z.boolean().meta({ description: 'True when the expected course itself leaves the band' }),
          inHours: z.number(),
          what: z.string().meta({ description: 'The same as a sentence' }),
        })
        .meta({ description: 'When the box is expected to leave 3 to 8 °C first; absent when it is not' }),
    ),
  })
  .meta({ id: 'BoxForecast', description: 'The next hours in the box of a stay' });

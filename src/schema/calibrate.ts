import { z } from 'zod';
import type { ExactCalibration } from '../heat/calibration-exact.ts';
import { say } from '../wording/say.ts';
import { optional } from './common.ts';
import { simulateExactSchema } from './simulate.ts';

const seconds = (description: string) => z.number().min(0).max(1e9).meta({ description });
const readingC = z.number().min(-60).max(70).meta({ description: 'Temperature read, °C' });

const { shell, contents, heatW, outside, initialC } = simulateExactSchema.shape;

/** Input of `calibrate`: an exact case as `simulate --exact` takes it, what was read inside, and which factors to find. */
export const calibrateSchema = z
  .strictObject({
    case: z.strictObject({ shell, contents, heatW, outside, initialC: optional(initialC) }),
    sun: optional(
      z.strictObject({
        irradianceWm2: z
          .array(z.number().min(0).max(1500))
          .min(2)
          .meta({ description: 'Sun on the same samples as outdoors, W/m²' }),
        apertureM2: z.number().gt(0).max(1000).meta({ description: 'Area that takes the sun in, m²' }),
      }),
    ),
    airChangeWK: optional(
      z.number().min(0).max(10_000).meta({ description: 'Steady exchange of air with outside, W/K' }),
    ),
    readings: z
      .array(z.strictObject({ atS: seconds('Seconds from the first outdoor sample'), tempC: readingC }))
      .max(1_000_000),
    maxMin: optional(
      z
        .array(
          z.strictObject({
            fromS: seconds('Start of the window'),
            toS: seconds('Reset of the max-min thermometer'),
            maxC: readingC,
            minC: readingC,
          }),
        )
        .max(10_000),
    ),
    free: z
      .array(z.enum(['loss', 'mass', 'sun', 'airChange']))
      .min(1)
      .max(4)
      .refine((free) => new Set(free).size === free.length, { error: () => say('heat.calibration.twice') })
      .meta({ description: 'Factors on the stated values that are to be found' }),
  })
  .refine((asked) => !asked.sun || asked.sun.irradianceWm2.length === asked.case.outside.temperatureC.length, {
    error: () => say('heat.calibration.sun-length'),
    path: ['sun', 'irradianceWm2'],
  })
  .meta({
    id: 'Calibrate',
    description:
      'Readings from inside a shell of exact physical values, to find by what factors it loses and stores heat',
    examples: [
      {
        case: {
          shell: {
            areaM2: 0.8,
            layers: [{ conductivityWmK: 0.035, densityKgM3: 20, specificHeatJkgK: 1450, thicknessM: 0.03 }],
            outsideResistanceM2KW: 0.13,
            insideResistanceM2KW: 0.13,
          },
          contents: [{ massKg: 5, specificHeatJkgK: 4190 }],
          heatW: 0,
          outside: { stepS: 3600, temperatureC: [5, 4.5, 4] },
        },
        readings: [
          { atS: 0, tempC: 6.1 },
          { atS: 1800, tempC: 6.0 },
        ],
        free: ['loss'],
      },
    ],
  }) satisfies z.ZodType<ExactCalibration>;

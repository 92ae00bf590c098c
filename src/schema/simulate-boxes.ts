import { z } from 'zod';
import { isDay } from '../measure/day.ts';
import { say } from '../wording/say.ts';
import { boxDescriptionSchema, boxInPlaceProblems } from './box.ts';
import { daySchema, latitudeSchema, longitudeSchema, nameSchema, optional, zoneSchema } from './common.ts';
import { placeDescriptionSchema } from './place.ts';

/** A place in the calendar, the same in every year. */
const dayOfYearSchema = z
  .string()
  .refine((text) => /^\d{2}-\d{2}$/.test(text) && isDay(`2024-${text}`), { error: () => say('cli.simulate.dayOfYear') })
  .meta({ description: 'Day of the year, MM-DD', examples: ['11-15'] });

const airC = z.number().min(-90).max(60);

const weatherSchema = z.union([
  z.strictObject({
    file: z
      .string()
      .min(1)
      .max(4096)
      .meta({ description: 'CSV of days or hours; a path is taken from where the input stands' }),
    unit: optional(z.enum(['C', 'F'])),
    dateOrder: optional(z.enum(['day-first', 'month-first'])),
    columns: optional(
      z.partialRecord(
        z.enum(['day', 'clock', 'max', 'min', 'temperature', 'cloud', 'dewPoint', 'humidity', 'wind']),
        z.string().min(1).max(200),
      ),
    ),
  }),
  z.strictObject({
    days: z
      .array(
        z
          .strictObject({ day: daySchema, maxC: airC, minC: airC, cloudShare: optional(z.number().min(0).max(1)) })
          .refine((row) => row.maxC >= row.minC, { error: () => say('cli.simulate.maxUnderMin'), path: ['maxC'] }),
      )
      .min(2)
      .max(100_000)
      .superRefine((rows, ctx) => {
        rows.forEach((row, i) => {
          if (i > 0 && row.day <= rows[i - 1]!.day)
            ctx.addIssue({ code: 'custom', path: [i, 'day'], message: say('cli.simulate.dayOrder', { day: row.day }) });
        });
      }),
  }),
]);

/** Input of `simulate`: boxes in places through the winters of a weather record. */
export const simulateBoxesSchema = z
  .strictObject({
    site: z
      .strictObject({
        name: optional(nameSchema),
        latitudeDeg: latitudeSchema,
        longitudeDeg: longitudeSchema,
        zone: zoneSchema,
      })
      .meta({ description: 'Where the weather was measured and the places stand' }),
    weather: weatherSchema,
    from: dayOfYearSchema.meta({ description: 'First day asleep, MM-DD' }),
    to: dayOfYearSchema.meta({ description: 'Last day asleep, MM-DD' }),
    places: z
      .array(z.strictObject({ name: nameSchema, description: placeDescriptionSchema }))
      .min(1)
      .max(20),
    boxes: z
      .array(z.strictObject({ name: nameSchema, description: boxDescriptionSchema }))
      .min(1)
      .max(20),
    band: optional(
      z
        .strictObject({ lowC: z.number().min(-5).max(20), highC: z.number().min(-5).max(20) })
        .refine((band) => band.highC > band.lowC, { error: () => say('cli.simulate.band'), path: ['highC'] })
        .meta({ description: 'Temperatures wanted in the box, °C; default 3 to 8' }),
    ),
  })
  .superRefine((input, ctx) => {
    input.boxes.forEach((box, b) => {
      for (const place of input.places)
        for (const { where, what } of boxInPlaceProblems(box.description, place.description, []))
          ctx.addIssue({ code: 'custom', path: ['boxes', b, 'description', where], message: what });
    });
  })
  .meta({
    id: 'SimulateBoxes',
    description: 'Boxes in places through the winters of a weather record',
    examples: [
      {
        site: { latitudeDeg: 52.1, longitudeDeg: -1.2, zone: 'Europe/London' },
        weather: { file: 'weather.csv' },
        from: '11-20',
        to: '02-10',
        places: [{ name: 'shed', description: { kind: 'building', preset: 'timber-shed' } }],
        boxes: [
          {
            name: 'fish box',
            description: {
              shells: [
                {
                  insideLengthMm: 500,
                  insideWidthMm: 350,
                  insideHeightMm: 300,
                  walls: [{ material: 'polystyrene', thicknessMm: 30 }],
                },
              ],
              animal: { massG: 1000 },
            },
          },
        ],
      },
    ],
  });
export type SimulateBoxes = z.infer<typeof simulateBoxesSchema>;

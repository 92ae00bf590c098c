import { z } from 'zod';
import { CLIMATES, type Climate, type DayDepartures } from '../weather/climates.ts';
import type { DailyRow } from '../weather/day-curve.ts';
import type { MonthlyNormal } from '../weather/normals.ts';
import type { WeatherSeriesJson } from '../weather/series-json.ts';
import { daySchema, instantSchema, optional } from './common.ts';

/** Mean daily maximum and minimum of one calendar month. */
const monthNormalSchema = z
  .strictObject({ maxC: z.number().min(-60).max(60), minC: z.number().min(-70).max(50) })
  .refine((month) => month.minC <= month.maxC, {
    error: 'minAboveMax',
    path: ['minC'],
  }) satisfies z.ZodType<MonthlyNormal>;

export const monthlyNormalsSchema = z
  .array(monthNormalSchema)
  .length(12)
  .meta({ description: 'Calendar months 1 to 12: mean daily maximum and minimum, °C' });

const airTempSchema = z.number().min(-90).max(57);
const shareSchema = z.number().min(0).max(1);

const dailyRowSchema = z
  .strictObject({
    day: daySchema,
    maxC: airTempSchema.meta({ description: 'Highest air temperature of the day, °C' }),
    minC: airTempSchema.meta({ description: 'Lowest air temperature of the day, °C' }),
    cloudShare: optional(shareSchema.meta({ description: 'Cloud cover, 0 clear to 1 overcast' })),
  })
  .refine((row) => row.minC <= row.maxC, { error: 'minAboveMax', path: ['minC'] }) satisfies z.ZodType<DailyRow>;

/** Forty years by the hour. */
const MOST_SAMPLES = 40 * 366 * 24;
const columnSchema = (value: z.ZodNumber) => z.array(value.nullable()).max(MOST_SAMPLES);

const weatherSeriesSchema = z
  .strictObject({
    startAt: instantSchema,
    stepS: z.number().int().min(60).max(21_600).meta({ description: 'Spacing of the samples, s' }),
    airTempC: columnSchema(airTempSchema).min(1).meta({ description: 'Air temperature, °C; null where missing' }),
    cloudShare: optional(columnSchema(shareSchema)),
    dewPointC: optional(columnSchema(airTempSchema)),
    relativeHumidity: optional(columnSchema(shareSchema)),
    windMs: optional(columnSchema(z.number().min(0).max(120))),
  })
  .superRefine((series, context) => {
    for (const name of ['cloudShare', 'dewPointC', 'relativeHumidity', 'windMs'] as const)
      if (series[name] && series[name].length !== series.airTempC.length)
        context.addIssue({ code: 'custom', path: [name], message: 'columnLength' });
  })
  .meta({
    id: 'WeatherSeries',
    examples: [{ startAt: '2026-11-05T00:00:00Z', stepS: 3600, airTempC: [4.1, null, 3.6] }],
  }) satisfies z.ZodType<WeatherSeriesJson>;

const departuresSchema = z.strictObject({
  sdK: z.number().min(0).max(15),
  lag1: z.number().min(0).max(0.98),
  coldSkewness: z.number().min(-1).max(1),
  rangeSpread: z.number().min(0).max(1),
  rangeLag1: z.number().min(0).max(0.98),
  rangeCorrelationCold: z.number().min(-1).max(1),
  rangeCorrelationWarm: z.number().min(-1).max(1),
  meanCloudShare: z.number().min(0.02).max(0.98),
}) satisfies z.ZodType<DayDepartures>;

const climateIds = CLIMATES.map((row) => row.id) as [Climate['id'], ...Climate['id'][]];

/** Rising days, each once: what the day curve needs. */
const daysSchema = z
  .array(dailyRowSchema)
  .min(1)
  .max(40 * 366)
  .superRefine((days, context) => {
    for (let i = 1; i < days.length; i++)
      if (days[i]!.day <= days[i - 1]!.day)
        context.addIssue({ code: 'custom', path: [i, 'day'], message: 'daysNotRising' });
  });

/** Where the winters of a forecast come from. */
export const weatherSourceSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('hourly'), series: weatherSeriesSchema }),
    z.strictObject({ kind: z.literal('daily'), days: daysSchema }),
    z.strictObject({
      kind: z.literal('normals'),
      normals: monthlyNormalsSchema,
      departures: optional(departuresSchema),
      climate: optional(z.enum(climateIds)),
      winters: optional(
        z.number().int().min(1).max(500).meta({ description: 'How many winters to make; 30 by default' }),
      ),
      seed: optional(z.number().int().min(0).max(Number.MAX_SAFE_INTEGER)),
    }),
  ])
  .meta({ id: 'WeatherSource', description: 'An hourly record, daily maxima and minima, or twelve monthly normals' });

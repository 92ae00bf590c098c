import { z } from 'zod';
import type { PlanRequest, WinterPlan } from '../winter/plan-types.ts';
import { daySchema, latitudeSchema, optional } from './common.ts';

const day = daySchema;
const text = z.strictObject({
  key: z.string(),
  values: optional(z.record(z.string(), z.union([z.string(), z.number()]))),
});
const source = z.strictObject({ cite: z.string(), status: z.string(), note: optional(z.string()) });
const wish = z.enum(['sleep', 'awake', 'first-cooling']);

/** What the keeper asks of the plan. Temperatures in °C, lengths in mm, latitude in degrees with north positive. */
export const planRequestSchema = z
  .strictObject({
    species: z.string().min(1).max(80).meta({ description: 'scientific name, or unknown' }),
    sclMm: z
      .number()
      .min(20, 'A straight carapace length under 20 mm is no tortoise: give it in millimetres.')
      .max(1500),
    massG: optional(z.number().min(3).max(300_000)),
    latitudeDeg: latitudeSchema,
    wish: optional(wish),
    sleepDay: optional(day),
    sleepDays: optional(z.int().min(1).max(200)),
    method: optional(z.enum(['place', 'refrigerator'])),
    lastBath: optional(z.enum(['day-before', 'week-before'])),
    lampHours: optional(z.number().min(0).max(18)),
    lampBodyTempC: optional(z.number().min(10).max(40)),
    nightBodyTempC: optional(z.number().min(-5).max(35)),
    climateNormals: z
      .array(z.strictObject({ maxC: z.number().min(-60).max(60), minC: z.number().min(-70).max(50) }))
      .length(12, 'Give twelve pairs of monthly normals, the first month of the year first.')
      .optional(),
    shortPreparation: optional(z.boolean()),
  })
  .meta({
    id: 'PlanRequest',
    description: 'What is asked of a winter plan',
    examples: [{ species: 'Testudo hermanni boettgeri', sclMm: 165, latitudeDeg: 52.1, sleepDay: '2026-11-28' }],
  });

const stage = z.strictObject({
  name: z.enum([
    'feeding-up',
    'winding-down',
    'fast',
    'asleep',
    'waking',
    'recovering',
    'back-to-full',
    'cooling',
    'awake',
  ]),
  fromDay: day,
  toDay: day,
  purpose: text,
});
const task = z.strictObject({
  key: z.string(),
  kind: z.string(),
  day,
  untilDay: optional(day),
  say: text,
  why: optional(text),
  source,
});
const note = z.strictObject({ level: z.enum(['warning', 'note', 'choice']), code: z.string(), say: text, source });

/** A winter plan as it is stored and sent. */
export const winterPlanSchema = z
  .strictObject({
    kind: wish,
    request: planRequestSchema,
    winter: z.string().regex(/^\d{4}$/),
    hemisphere: z.enum(['north', 'south']),
    shortestDay: day,
    madeOn: day,
    provisional: z.boolean(),
    fromDay: day,
    toDay: day,
    sleepDay: optional(day),
    wakeDay: optional(day),
    length: z
      .strictObject({
        days: z.int(),
        suggestedDays: z.int(),
        ceilingDays: z.int(),
        massLimitDays: optional(z.int()),
        limitedBy: z.enum(['wish', 'suggested', 'ceiling', 'mass-loss', 'season', 'first-cooling']),
        say: text,
        source,
      })
      .optional(),
    gut: z
      .strictObject({ expectedDay: optional(day), earliestDay: optional(day), latestDay: optional(day) })
      .optional(),
    stages: z.array(stage),
    tasks: z.array(task),
    lamp: z.array(
      z.strictObject({
        fromDay: day,
        hours: z.number(),
        dayLengthHours: z.number(),
        followsDayLength: z.boolean(),
      }),
    ),
    notes: z.array(note),
  })
  .meta({ id: 'WinterPlan', description: 'One animal’s winter, dated' });

/** A checked request as the planner takes it: keys that were left out stay out. */
export function parsePlanRequest(input: unknown): PlanRequest {
  return planRequestSchema.parse(input) as PlanRequest;
}

/** A stored plan read back. */
export function parseWinterPlan(input: unknown): WinterPlan {
  return winterPlanSchema.parse(input) as unknown as WinterPlan;
}

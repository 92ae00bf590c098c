import { z } from 'zod';
import { daySchema, idSchema, instantSchema, lineSchema, optional } from './common.ts';
import { planRequestSchema, winterPlanSchema } from './plan.ts';

/** A plan as it is kept. Moving a date makes the next revision with its reason; none is ever changed. */
export const keptPlanSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    revision: z.int().min(1),
    madeAt: instantSchema,
    reason: z.string(),
    request: planRequestSchema,
    plan: winterPlanSchema,
  })
  .meta({ id: 'KeptPlan', description: 'One revision of an animal’s winter plan' });
export type KeptPlan = z.infer<typeof keptPlanSchema>;

export const newPlanSchema = z
  .strictObject({
    id: idSchema,
    request: planRequestSchema,
    reason: lineSchema(400).meta({ description: 'Why the plan is made or moved', examples: ['First plan'] }),
    gutClearDay: optional(daySchema).meta({
      description: 'Food is still in the gut: the day it is now expected clear, till which the lamp stays on',
    }),
  })
  .meta({ id: 'NewPlan', description: 'Asks for a plan; species, size and verdict are taken from the records' });

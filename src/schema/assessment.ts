import { z } from 'zod';
import { optional } from './common.ts';

const messageSchema = z.strictObject({
  key: z.string(),
  values: optional(z.record(z.string(), z.union([z.string(), z.number()]))),
});
const stateSchema = z.enum(['passes', 'borderline', 'not-yet-known', 'fails']);
const sourceSchema = z.strictObject({ cite: z.string(), status: z.string(), note: optional(z.string()) });

/** An assessment as the knowledge gives it: sentences as messages, for the screen to put into words. */
export const assessmentSchema = z
  .strictObject({
    verdict: z.enum(['may-go-down', 'wait', 'stay-awake']),
    gates: z.array(
      z.strictObject({ name: z.string(), state: stateSchema, reason: messageSchema, source: sourceSchema }),
    ),
    condition: z.looseObject({ band: z.string(), state: stateSchema, reason: messageSchema, source: sourceSchema }),
    length: z.looseObject({ suggestedDays: z.number(), shortestDays: z.number(), ceilingDays: z.number() }),
    cautions: z.array(messageSchema),
  })
  .meta({ id: 'Assessment', description: 'Whether an animal may go down, gate by gate' });

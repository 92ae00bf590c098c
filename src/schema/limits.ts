import { z } from 'zod';
import { idSchema, instantSchema, lineSchema, optional } from './common.ts';

const ruleIdSchema = lineSchema(40).meta({ description: 'Id of a rule of the watch', examples: ['over-8'] });

/** A keeper's own limit for one rule in one stay; a value left out is the usual one. */
export const limitWantedSchema = z
  .strictObject({
    ruleId: ruleIdSchema,
    limit: optional(z.number().min(-20).max(400)).meta({ description: 'In the unit of the rule' }),
    durationS: optional(
      z
        .number()
        .min(0)
        .max(31 * 86_400),
    ).meta({ description: 'How long it must last, s' }),
  })
  .meta({
    id: 'LimitWanted',
    description: 'A limit of the watch for one stay; both values left out brings the usual ones back',
    examples: [{ ruleId: 'over-8', limit: 7.5 }],
  });
export type LimitWanted = z.infer<typeof limitWantedSchema>;

/** The limits set for one stay, and every change of them. */
export const limitsSchema = z
  .strictObject({
    limits: z.array(limitWantedSchema),
    changes: z.array(
      z.strictObject({
        at: instantSchema,
        by: lineSchema(120),
        change: limitWantedSchema,
        direction: z.enum(['tighter', 'same', 'looser']),
      }),
    ),
  })
  .meta({
    id: 'Limits',
    description: 'Limits of the watch set for one stay, with who changed them and when',
    examples: [
      {
        limits: [{ ruleId: 'over-8', limit: 7.5 }],
        changes: [
          {
            at: '2027-01-09T08:40:00Z',
            by: 'Ada',
            change: { ruleId: 'over-8', limit: 7.5 },
            direction: 'tighter',
          },
        ],
      },
    ],
  });
export type Limits = z.infer<typeof limitsSchema>;

/** The limits of one stay as an archive holds them. */
export const stayLimitsSchema = z.strictObject({ stayId: idSchema, ...limitsSchema.shape }).meta({
  id: 'StayLimits',
  description: 'Limits of the watch set for one stay, as an archive holds them',
  examples: [
    {
      stayId: '01980d2e-7c00-7000-8000-000000000009',
      limits: [{ ruleId: 'over-8', limit: 7.5 }],
      changes: [
        {
          at: '2027-01-09T08:40:00Z',
          by: 'Ada',
          change: { ruleId: 'over-8', limit: 7.5 },
          direction: 'tighter',
        },
      ],
    },
  ],
});
export type StayLimits = z.infer<typeof stayLimitsSchema>;

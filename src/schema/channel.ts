import { z } from 'zod';
import { idSchema, lineSchema, optional } from './common.ts';

const clockSchema = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/)
  .meta({ description: 'Time of day, HH:MM', examples: ['08:00'] });

/** When a person wants to hear of notices. */
export const listeningSchema = z
  .strictObject({
    quiet: optional(z.strictObject({ from: clockSchema, to: clockSchema })).meta({
      description: 'Hours of quiet; act now ignores them',
    }),
    digests: z.array(clockSchema).min(1).max(6).meta({ description: 'When the look-today notices are sent together' }),
  })
  .meta({
    id: 'Listening',
    description: 'When a person wants to hear of notices',
    examples: [{ quiet: { from: '22:00', to: '07:00' }, digests: ['08:00', '17:00'] }],
  });
export type Listening = z.infer<typeof listeningSchema>;

const emailChannelSchema = z.strictObject({
  id: idSchema,
  kind: z.literal('email'),
  // One plain address: no second one, no line break that could begin a header of its own.
  address: z.email().max(254),
});
const pushChannelSchema = z.strictObject({
  id: idSchema,
  kind: z.literal('push'),
  endpoint: z.url({ protocol: /^https$/ }).max(1000),
  p256dh: z.string().min(80).max(100),
  auth: z.string().min(16).max(32),
  device: optional(lineSchema(80)),
});
const webhookChannelSchema = z.strictObject({
  id: idSchema,
  kind: z.literal('webhook'),
  url: z.url({ protocol: /^https?$/ }).max(1000),
});

/** A way to reach a person outside the app. */
export const channelSchema = z
  .discriminatedUnion('kind', [emailChannelSchema, pushChannelSchema, webhookChannelSchema])
  .meta({
    id: 'Channel',
    description: 'A way to reach a person: e-mail, a push message to one device, or a signed call of an address',
    examples: [{ id: '01980d2e-7c00-7000-8000-000000000020', kind: 'email', address: 'wren@example.org' }],
  });
export type Channel = z.infer<typeof channelSchema>;

import { z } from 'zod';
import type { PastWinter } from '../winter/replay.ts';
import { say } from '../wording/say.ts';
import { instantSchema, optional, tempCSchema } from './common.ts';

const massG = z.number().gt(0).max(300_000).meta({ description: 'Mass, g' });

/** A list in the order of time; an entry that does not come after the one before it is named. */
function inOrder<T extends z.ZodObject<{ at: typeof instantSchema }>>(entry: T) {
  return z
    .array(entry)
    .max(2_000_000)
    .superRefine((entries, ctx) => {
      let latest = Number.NEGATIVE_INFINITY;
      entries.forEach((each, i) => {
        const atMs = Date.parse((each as { at: string }).at);
        if (atMs < latest) ctx.addIssue({ code: 'custom', path: [i, 'at'], message: say('cli.replay.order') });
        latest = Math.max(latest, atMs);
      });
    });
}

/** Input of `replay`: everything on record of one past stay. */
export const replaySchema = z
  .strictObject({
    from: instantSchema.meta({ description: 'The animal was put into the box' }),
    plannedWake: optional(instantSchema),
    woken: optional(instantSchema),
    until: optional(
      instantSchema.meta({ description: 'End of the replay; the waking or the last entry when left out' }),
    ),
    startMassG: optional(massG),
    expectedIntervalS: optional(
      z.number().gt(0).max(604_800).meta({ description: 'Expected time between readings, s' }),
    ),
    accuracyC: optional(z.number().min(0).max(5).meta({ description: 'Stated accuracy of the probe, ± °C' })),
    readings: inOrder(
      z.strictObject({ at: instantSchema, tempC: tempCSchema, humidity: optional(z.number().min(0).max(1)) }),
    ),
    spans: optional(
      inOrder(z.strictObject({ at: instantSchema, from: instantSchema, maxC: tempCSchema, minC: tempCSchema })),
    ),
    weighIns: inOrder(
      z.strictObject({
        at: instantSchema,
        massG,
        resolutionG: optional(z.number().gt(0).max(1000)),
        since: optional(z.enum(['urine', 'drank', 'other-scale'])),
      }),
    ),
    diary: inOrder(
      z.strictObject({
        at: instantSchema,
        kind: z.enum(['lid-opened', 'touch-response', 'no-touch-response', 'urine', 'awake-signs', 'drank']),
      }),
    ),
  })
  .meta({
    id: 'Replay',
    description: 'One past stay: readings, weigh-ins and diary, each in the order of time',
    examples: [
      {
        from: '2025-11-28T10:00:00Z',
        plannedWake: '2026-02-20T09:00:00Z',
        startMassG: 1240,
        readings: [
          { at: '2025-11-28T11:00:00Z', tempC: 5.1 },
          { at: '2025-11-29T11:00:00Z', tempC: 4.8 },
        ],
        weighIns: [{ at: '2025-11-28T10:00:00Z', massG: 1240 }],
        diary: [],
      },
    ],
  });

/** The past winter of a checked input, and the instant (ms) at which its replay ends. */
export function pastWinter(input: z.infer<typeof replaySchema>): { past: PastWinter; untilMs: number } {
  const ms = (at: string) => Date.parse(at);
  const readings = input.readings.map(({ at, ...rest }) => ({ atMs: ms(at), ...rest }));
  const weighIns = input.weighIns.map(({ at, ...rest }) => ({ atMs: ms(at), ...rest }));
  const diary = input.diary.map(({ at, kind }) => ({ atMs: ms(at), kind }));
  const spans = input.spans?.map(({ at, from, maxC, minC }) => ({ atMs: ms(at), fromMs: ms(from), maxC, minC }));
  const ends = [readings, weighIns, diary, spans ?? []].map((list) => list.at(-1)?.atMs ?? 0);
  const { plannedWake, woken, until, startMassG, expectedIntervalS, accuracyC } = input;
  return {
    past: {
      setup: {
        stayId: 'replay',
        fromMs: ms(input.from),
        ...(startMassG === undefined ? {} : { startMassG }),
        ...(plannedWake === undefined ? {} : { plannedWakeMs: ms(plannedWake) }),
        ...(expectedIntervalS === undefined ? {} : { expectedIntervalS }),
        ...(accuracyC === undefined ? {} : { accuracyC }),
      },
      readings,
      weighIns,
      diary,
      ...(spans ? { spans } : {}),
      ...(woken === undefined ? {} : { wokenMs: ms(woken) }),
    },
    untilMs: until === undefined ? Math.max(ms(woken ?? input.from), ...ends) : ms(until),
  };
}

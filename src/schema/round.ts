import { z } from 'zod';
import { breachSchema } from './box-forecast.ts';
import { daySchema, idSchema, instantSchema, optional } from './common.ts';
import { noticeSchema } from './notice.ts';
import { taskDoneSchema } from './task.ts';

const messageSchema = z.strictObject({
  key: z.string(),
  values: optional(z.record(z.string(), z.union([z.string(), z.number()]))),
});

/** One line of the round: a task of an animal's plan that is due, late, or was done on this day. */
const roundLineSchema = z.strictObject({
  animalId: idSchema,
  animalName: z.string(),
  planId: idSchema,
  taskKey: z.string().meta({ description: 'Key of the task within the plan; send it back as taskKey when it is done' }),
  kind: z.string(),
  day: daySchema,
  untilDay: optional(daySchema),
  say: messageSchema,
  why: optional(messageSchema),
  source: z.strictObject({ cite: z.string(), status: z.string(), note: optional(z.string()) }),
  late: z.boolean(),
  done: optional(taskDoneSchema),
});

const roundStaySchema = z.strictObject({
  stayId: idSchema,
  animalId: idSchema,
  animalName: z.string(),
  boxId: idSchema,
  boxName: z.string(),
  fromDay: daySchema,
  probeId: optional(idSchema),
  breach: optional(breachSchema).meta({ description: 'The limit that the next days are expected to pass; today only' }),
  lastReading: optional(z.strictObject({ at: instantSchema, tempC: z.number() })),
  startMassG: optional(z.number()),
  lastMassG: optional(z.number()),
  lastMassAt: optional(instantSchema),
});

/** What is to be done on one day, place by place. The part without a place holds the animals that are up and about. */
export const roundSchema = z
  .strictObject({
    day: daySchema,
    parts: z.array(
      z.strictObject({
        placeId: optional(idSchema),
        placeName: optional(z.string()),
        stays: z.array(roundStaySchema),
        lines: z.array(roundLineSchema),
      }),
    ),
    notices: z.array(noticeSchema).meta({ description: 'Notices that have not cleared' }),
  })
  .meta({ id: 'Round', description: 'What is to be done on one day, place by place' });
export type Round = z.infer<typeof roundSchema>;

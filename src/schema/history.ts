import { z } from 'zod';
import { animalSchema } from './animal.ts';
import { idSchema, instantSchema, optional } from './common.ts';
import { diaryEntrySchema } from './diary.ts';
import { examinationSchema } from './examination.ts';
import { healthEventSchema } from './health-event.ts';
import { boxRecordSchema, placeRecordSchema } from './housing.ts';
import { keptPlanSchema } from './kept-plan.ts';
import { measurementSchema } from './measurement.ts';
import { noticeSchema } from './notice.ts';
import { photographSchema } from './photograph.ts';
import { staySchema } from './stay.ts';

/** One change of one record: who, when, and what stood there before. */
export const changeSchema = z
  .strictObject({
    kind: z.string(),
    recordId: idSchema,
    revision: z.int(),
    action: z.enum(['made', 'changed', 'deleted', 'restored']),
    by: optional(z.string()),
    at: instantSchema,
    before: z.unknown().optional(),
    after: z.unknown().optional(),
  })
  .meta({ id: 'Change', description: 'One change of one record, with what stood there before' });

/** One animal's whole record on one page. */
export const historySchema = z
  .strictObject({
    animal: animalSchema,
    measurements: z.array(measurementSchema),
    examinations: z.array(examinationSchema),
    healthEvents: z.array(healthEventSchema),
    diary: z.array(diaryEntrySchema),
    stays: z.array(staySchema),
    boxes: z.array(boxRecordSchema),
    places: z.array(placeRecordSchema),
    plans: z.array(keptPlanSchema),
    notices: z.array(noticeSchema),
    photographs: z.array(photographSchema),
    changes: z.array(changeSchema),
  })
  .meta({ id: 'History', description: 'Everything recorded about one animal' });
export type History = z.infer<typeof historySchema>;

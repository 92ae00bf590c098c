import { z } from 'zod';
import { idSchema, instantSchema, lineSchema, noteSchema, optional, revisionSchema } from './common.ts';

/** Code of a finding, as listed by the guided examination: `clear`, `sunken`, `discharge`. */
const findingSchema = z.string().regex(/^[a-z][a-z0-9-]{0,39}$/, { error: 'finding' });

/** Part by part, what was seen. A part left out was not looked at, and counts as not known. */
export const findingsSchema = z.strictObject({
  eyes: optional(findingSchema),
  nose: optional(findingSchema),
  mouth: optional(findingSchema),
  limbs: optional(findingSchema),
  shell: optional(findingSchema),
  tail: optional(findingSchema),
  breathing: optional(findingSchema),
  droppings: optional(findingSchema),
});

/** A look over the animal: before sleep, while asleep, or on waking. */
export const examinationSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    at: instantSchema,
    moment: z.enum(['before', 'asleep', 'waking']),
    findings: findingsSchema,
    vet: optional(z.strictObject({ seen: z.boolean(), name: optional(lineSchema(120)) })),
    note: optional(noteSchema),
    revision: revisionSchema,
  })
  .meta({
    id: 'Examination',
    description: 'A look over the animal, part by part',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000004',
        animalId: '01980d2e-7c00-7000-8000-000000000002',
        at: '2026-10-02T10:00:00Z',
        moment: 'before',
        findings: { eyes: 'clear', nose: 'clear' },
      },
    ],
  });
export type Examination = z.infer<typeof examinationSchema>;

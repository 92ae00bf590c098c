import { z } from 'zod';
import { idSchema, instantSchema, lineSchema, noteSchema, optional, revisionSchema } from './common.ts';

/** Code of a finding, as listed by the guided examination: `clear`, `sunken`, `discharge`. */
const findingSchema = z.string().regex(/^[a-z][a-z0-9-]{0,39}$/, { error: 'finding' });

const seenSchema = z.union([findingSchema, z.array(findingSchema).min(1).max(8)]);

/** Part by part, what was seen. A part left out was not looked at, and counts as not known. */
export const findingsSchema = z.strictObject({
  eyes: optional(seenSchema),
  nose: optional(seenSchema),
  mouth: optional(seenSchema),
  limbs: optional(seenSchema),
  shell: optional(seenSchema),
  tail: optional(seenSchema),
  breathing: optional(seenSchema),
  droppings: optional(seenSchema),
});

/** Answers no single look can give; one left out is not known. */
const answersSchema = z.strictObject({
  appetiteNormal: optional(z.boolean().meta({ description: 'Ate normally through the summer' })),
  weightNormal: optional(z.boolean().meta({ description: 'Weight steady or rising through the summer' })),
  hydrated: optional(z.boolean().meta({ description: 'Drinks or soaks, eyes not sunken, urates soft' })),
  illness: optional(z.boolean().meta({ description: 'Ill at any time in the last 12 months' })),
  treatment: optional(z.boolean().meta({ description: 'Treated at any time in the last 12 months' })),
  parasitesChecked: optional(z.boolean().meta({ description: 'Droppings looked at for parasites this year' })),
  carryingEggs: optional(z.boolean()),
  formConfirmed: optional(
    z.boolean().meta({ description: 'Someone who knows the local form confirmed that it is one that hibernates' }),
  ),
});

/** A look over the animal: before sleep, while asleep, or on waking. */
export const examinationSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    at: instantSchema,
    moment: z.enum(['before', 'asleep', 'waking']),
    findings: findingsSchema,
    answers: optional(answersSchema),
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

import { z } from 'zod';
import { daySchema, idSchema, lineSchema, nameSchema, noteSchema, optional, revisionSchema } from './common.ts';
import { speciesSchema } from './species.ts';

export const sexSchema = z.enum(['female', 'male', 'unknown']);

export const leavingSchema = z
  .enum(['died', 'given-away', 'sold', 'returned', 'lost', 'other'])
  .meta({ description: 'How it left: given-away to another keeper, returned to its owner' });
export type Leaving = z.infer<typeof leavingSchema>;

/** One tortoise: who it is. What is measured or seen stands in records of its own. */
export const animalSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    species: speciesSchema,
    sex: sexSchema,
    birthDate: optional(daySchema),
    ageYears: optional(
      z
        .number()
        .min(0)
        .max(200)
        .meta({ description: 'Age in years on the day ageAsOf, when the birth date is not known' }),
    ),
    ageAsOf: optional(daySchema),
    ageClass: optional(
      z.enum(['hatchling', 'juvenile', 'adult', 'elderly']).meta({ description: 'When nobody knows the years' }),
    ),
    acquiredOn: optional(daySchema),
    microchip: optional(lineSchema(40)),
    marks: optional(noteSchema.meta({ description: 'Marks that tell this animal from others' })),
    legalPaper: optional(
      lineSchema(120).meta({
        description: 'Reference of the legal paper the animal needs, where the law asks for one',
      }),
    ),
    keeperId: optional(idSchema.meta({ description: 'The person who keeps the animal' })),
    photographId: optional(idSchema.meta({ description: 'The photograph it is shown by; the newest one when absent' })),
    wintersSlept: optional(
      z.int().min(0).max(200).meta({ description: 'Winters it has hibernated before, as far as known' }),
    ),
    notes: optional(noteSchema),
    leftOn: optional(
      daySchema.meta({
        description: 'The day it died or left; its record stays, and it is no longer planned for or watched',
      }),
    ),
    leftHow: optional(leavingSchema),
    leftNote: optional(noteSchema),
    revision: revisionSchema,
  })
  .refine((animal) => animal.ageYears === undefined || animal.ageAsOf !== undefined, {
    error: 'ageAsOf',
    path: ['ageAsOf'],
  })
  .refine((animal) => (animal.leftOn === undefined) === (animal.leftHow === undefined), {
    error: 'leftWhole',
    path: ['leftOn'],
  })
  .refine((animal) => animal.leftNote === undefined || animal.leftOn !== undefined, {
    error: 'leftWhole',
    path: ['leftOn'],
  })
  .meta({
    id: 'Animal',
    description: 'One tortoise',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000002',
        name: 'Sedge',
        species: 'Testudo hermanni boettgeri',
        sex: 'female',
        birthDate: '2009-08-14',
        wintersSlept: 14,
      },
    ],
  });
export type Animal = z.infer<typeof animalSchema>;

import { z } from 'zod';
import {
  idSchema,
  latitudeSchema,
  longitudeSchema,
  nameSchema,
  noteSchema,
  optional,
  revisionSchema,
  zoneSchema,
} from './common.ts';
import { monthlyNormalsSchema } from './weather.ts';

export const lengthAdviceSchema = z
  .enum(['uk-joint-2016', 'german-chamber', 'common-practice'])
  .meta({ description: 'Whose advice on the length of hibernation the group follows' });

/** A household, rescue or club: where its animals winter and how its people read figures. */
export const groupSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    zone: zoneSchema,
    latitudeDeg: latitudeSchema,
    longitudeDeg: longitudeSchema,
    temperatureUnit: z.enum(['C', 'F']),
    massUnit: z.enum(['g', 'oz']),
    lengthUnit: z.enum(['mm', 'in']),
    lengthAdvice: lengthAdviceSchema,
    climateNormals: optional(monthlyNormalsSchema),
    climateNote: optional(noteSchema.meta({ description: 'Where the normals come from' })),
    demonstration: optional(z.boolean().meta({ description: 'True for the invented group that shows the product' })),
    revision: revisionSchema,
  })
  .meta({
    id: 'Group',
    description: 'A household, rescue or club',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000001',
        name: 'Fenwick Lane tortoises',
        zone: 'Europe/London',
        latitudeDeg: 52.4,
        longitudeDeg: -1.2,
        temperatureUnit: 'C',
        massUnit: 'g',
        lengthUnit: 'mm',
        lengthAdvice: 'uk-joint-2016',
      },
    ],
  });
export type Group = z.infer<typeof groupSchema>;

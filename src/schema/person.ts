import { z } from 'zod';
import { idSchema, instantSchema, lineSchema, nameSchema, optional } from './common.ts';

const roleSchema = z
  .enum(['tutor', 'keeper', 'reader'])
  .meta({ description: 'tutor: everything; keeper: their own animals; reader: sees all, changes nothing' });
export type Role = z.infer<typeof roleSchema>;

/** Any characters, no rules of composition: length is what protects. */
export const passphraseSchema = z
  .string()
  .min(12)
  .max(200)
  .meta({ description: 'Passphrase of 12 to 200 characters', examples: ['a long line only you know'] });

const signInNameSchema = lineSchema(60).meta({ description: 'Name to sign in with' });

export const personSchema = z
  .strictObject({ id: idSchema, name: nameSchema, signInName: signInNameSchema, role: roleSchema })
  .meta({ id: 'Person', description: 'A person of the group' });
export type Person = z.infer<typeof personSchema>;

export const setUpSchema = z
  .strictObject({ id: idSchema, name: nameSchema, signInName: signInNameSchema, passphrase: passphraseSchema })
  .meta({ id: 'SetUp', description: 'The first person, who becomes the tutor' });

export const signInSchema = z
  .strictObject({ signInName: signInNameSchema, passphrase: z.string().min(1).max(200) })
  .meta({ id: 'SignIn', description: 'Name and passphrase' });

/** Who is asking, and what they may do. */
export const sessionSchema = z
  .strictObject({
    peopleExist: z
      .boolean()
      .meta({ description: 'False until the first person is set up; until then only this machine may ask' }),
    person: optional(personSchema),
    role: optional(roleSchema.meta({ description: 'Absent: not signed in' })),
    groupId: optional(idSchema),
    demonstration: z.boolean(),
    nowMs: z.number().meta({ description: 'Clock of the server, epoch ms' }),
  })
  .meta({ id: 'Session', description: 'Who is asking, and what they may do' });
export type Session = z.infer<typeof sessionSchema>;

export const newRoleSchema = z
  .strictObject({ role: roleSchema })
  .meta({ id: 'NewRole', description: 'What a person may do from now on', examples: [{ role: 'tutor' }] });

export const invitationSchema = z
  .strictObject({ id: idSchema, role: roleSchema, animalIds: optional(z.array(idSchema).max(200)) })
  .meta({ id: 'Invitation', description: 'Asks a person into the group' });

export const newCalendarLinkSchema = z
  .strictObject({
    id: idSchema,
    forWhom: nameSchema.meta({ description: 'Where the address is used', examples: ['Phone'] }),
  })
  .meta({
    id: 'NewCalendarLink',
    description: 'Asks for an address that a calendar subscribes to',
    examples: [{ id: '01980d2e-7c00-7000-8000-000000000041', forWhom: 'Phone' }],
  });

export const calendarLinkSchema = z
  .strictObject({ ...newCalendarLinkSchema.shape, madeAt: instantSchema, madeBy: optional(z.string()) })
  .meta({
    id: 'CalendarLink',
    description: 'An address that a calendar subscribes to, without its secret',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000041',
        forWhom: 'Phone',
        madeAt: '2026-11-05T15:07:00Z',
        madeBy: 'Wren Ashby',
      },
    ],
  });
export type CalendarLink = z.infer<typeof calendarLinkSchema>;

export const shareSchema = z
  .strictObject({
    id: idSchema,
    animalId: idSchema,
    forWhom: nameSchema.meta({ description: 'Whom the link is for', examples: ['Dr Hollis'] }),
    until: instantSchema,
  })
  .meta({ id: 'ShareLink', description: 'Lets a vet read one animal until an instant' });

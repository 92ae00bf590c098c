import { z } from 'zod';
import { isDay } from '../measure/day.ts';
import { isZone } from '../measure/zone.ts';

/**
 * Marks a field that may be left out. It behaves like `schema.optional()`, but its type says "absent", never "undefined",
 * as the knowledge rooms expect under exactOptionalPropertyTypes.
 */
export function optional<T extends z.ZodType>(schema: T): z.ZodExactOptional<T> {
  return schema.optional() as unknown as z.ZodExactOptional<T>;
}

// Control characters break papers, mail headers and spreadsheets; line breaks and tabs are allowed in notes only.
const CONTROL = /\p{Cc}/u;
const CONTROL_BUT_LINES = /(?![\n\r\t])\p{Cc}/u;

/** Identifier made where the record is made: a UUID, version 7 by custom, so that a repeated send never makes two. */
export const idSchema = z
  .uuid()
  .toLowerCase()
  .meta({
    description: 'UUID (version 7), made by whoever makes the record',
    examples: ['01980d2e-7c00-7000-8000-000000000001'],
  });

/** A day in the keeper's zone. */
export const daySchema = z
  .string()
  .refine(isDay, { error: 'day' })
  .meta({ description: 'Day in the zone of the group, YYYY-MM-DD', format: 'date', examples: ['2026-11-05'] });

/** An instant: ISO 8601 with `Z` or an offset. */
export const instantSchema = z.iso
  .datetime({ offset: true })
  .meta({ description: 'Instant, ISO 8601 with Z or an offset', examples: ['2026-11-05T15:07:00Z'] });

export const latitudeSchema = z.number().min(-90).max(90).meta({ description: 'Degrees north, south negative' });
export const longitudeSchema = z.number().min(-180).max(180).meta({ description: 'Degrees east, west negative' });

export const zoneSchema = z
  .string()
  .max(60)
  .refine(isZone, { error: 'zone' })
  .meta({ description: 'Zone name of the IANA time zone database', examples: ['Europe/London'] });

/** One line of text a person typed: a name, a number on a chip. */
export const lineSchema = (maxLength: number) =>
  z
    .string()
    .min(1)
    .max(maxLength)
    .refine((text) => text.trim() !== '', { error: 'blank' })
    .refine((text) => !CONTROL.test(text), { error: 'control' });

export const nameSchema = lineSchema(120).meta({ description: 'Name, one line', examples: ['Sedge'] });

export const noteSchema = z
  .string()
  .max(4000)
  .refine((text) => !CONTROL_BUT_LINES.test(text), { error: 'control' })
  .meta({ description: 'Free text of at most 4,000 characters' });

/** Air or box temperature a thermometer in a garden, shed, house or refrigerator can show. */
export const tempCSchema = z.number().min(-60).max(70).meta({ description: 'Temperature, °C' });

/** Which version of a record an edit was made from. Absent: the edit is taken without asking. */
export const revisionSchema = optional(
  z
    .int()
    .min(1)
    .meta({ description: 'Revision of the record; send it back with an edit so that two edits are noticed' }),
);

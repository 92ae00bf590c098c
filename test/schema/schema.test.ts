import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { animalSchema } from '../../src/schema/animal.ts';
import { batchSchema } from '../../src/schema/batch.ts';
import { diaryEntrySchema } from '../../src/schema/diary.ts';
import { examinationSchema } from '../../src/schema/examination.ts';
import { groupSchema } from '../../src/schema/group.ts';
import { healthEventSchema } from '../../src/schema/health-event.ts';
import { measurementSchema } from '../../src/schema/measurement.ts';
import { noticeSchema } from '../../src/schema/notice.ts';
import { problemsOf } from '../../src/schema/problems.ts';
import { maxMinSchema, probeSchema, readingSchema } from '../../src/schema/reading.ts';
import { staySchema } from '../../src/schema/stay.ts';
import { taskDoneSchema } from '../../src/schema/task.ts';

const things: z.ZodType[] = [
  animalSchema,
  diaryEntrySchema,
  examinationSchema,
  groupSchema,
  healthEventSchema,
  maxMinSchema,
  measurementSchema,
  noticeSchema,
  probeSchema,
  readingSchema,
  staySchema,
  taskDoneSchema,
];
const example = (schema: z.ZodType) => (schema.meta()!.examples as unknown[])[0] as Record<string, unknown>;

const found = (schema: z.ZodType, input: unknown) => {
  const result = schema.safeParse(input);
  return result.success ? [] : problemsOf(result.error);
};

describe('schemas', () => {
  it.each(things.map((schema) => [schema.meta()!.id, schema] as const))(
    'the example of %s fits its own schema',
    (_, schema) => {
      expect(found(schema, example(schema))).toEqual([]);
    },
  );

  it.each(things.map((schema) => [schema.meta()!.id, schema] as const))(
    '%s refuses a field it does not know, by name',
    (_, schema) => {
      expect(found(schema, { ...example(schema), wieght: 3 })).toEqual([
        { where: 'wieght', what: '“wieght” is not a field known here. Check its spelling or leave it out.' },
      ]);
    },
  );

  const table: [string, z.ZodType, Record<string, unknown>, string, string][] = [
    ['a missing name', animalSchema, { name: undefined }, 'name', 'This is missing.'],
    ['a blank name', animalSchema, { name: '   ' }, 'name', 'Only spaces stand here.'],
    [
      'a name with a line break',
      animalSchema,
      { name: 'A\r\nBcc: x' },
      'name',
      'Characters that cannot be printed stand in this text. Remove them.',
    ],
    [
      'a day that does not exist',
      animalSchema,
      { birthDate: '2026-02-30' },
      'birthDate',
      'Write a day that exists, as 2026-11-05 (year, month, day).',
    ],
    ['an age of no day', animalSchema, { ageYears: 7 }, 'ageAsOf', 'Say on which day the animal had this age.'],
    [
      'no mass at all',
      measurementSchema,
      { massG: undefined, sclMm: undefined },
      'massG',
      'Give a mass, a length, or both.',
    ],
    ['0 g', measurementSchema, { massG: 0 }, 'massG', 'Give 1 or more.'],
    ['mass as text', measurementSchema, { massG: '650' }, 'massG', 'Give a number here.'],
    [
      'an instant without zone',
      measurementSchema,
      { at: '2026-11-05T15:07' },
      'at',
      'Write date and time as 2026-11-05T15:07:00Z, with Z or an offset such as +01:00 at the end.',
    ],
    ['an unknown kind', diaryEntrySchema, { kind: 'flew' }, 'kind', 'Choose one of: lid-opened'],
    ['an end before the beginning', staySchema, { toDay: '2026-11-19' }, 'toDay', 'The end is before the beginning.'],
    [
      'a zone of nowhere',
      groupSchema,
      { zone: 'Mars/Olympus' },
      'zone',
      'Give a zone name of the time zone database, such as Europe/London.',
    ],
    ['a latitude beyond the pole', groupSchema, { latitudeDeg: 91 }, 'latitudeDeg', 'Give 90 or less.'],
    [
      'eleven months',
      groupSchema,
      { climateNormals: Array(11).fill({ maxC: 5, minC: 1 }) },
      'climateNormals',
      'Give at least 12 of these.',
    ],
    [
      'a probe in two places',
      probeSchema,
      { outdoors: true },
      'boxId',
      'A probe is in a box, in a place, or outdoors: choose one.',
    ],
    [
      'swapped extremes',
      maxMinSchema,
      { minC: 8, maxC: 3 },
      'minC',
      'The lowest value is above the highest. Were they swapped?',
    ],
    ['an identifier that is none', staySchema, { boxId: 'fish box' }, 'boxId', 'This identifier is not a UUID.'],
    ['half a winter', animalSchema, { wintersSlept: 1.5 }, 'wintersSlept', 'Give a whole number.'],
  ];
  it.each(table)('%s is refused with where and what', (_, schema, change, where, what) => {
    const problems = found(schema, { ...example(schema), ...change });
    expect(problems.map((problem) => problem.where)).toContain(where);
    expect(problems.find((problem) => problem.where === where)!.what).toContain(what);
  });

  it('names the place inside a list', () => {
    const entry = { id: '01980d2e-7c00-7000-8000-000000000001', kind: 'diary', body: {} };
    expect(found(batchSchema, [entry, { ...entry, kind: 'poem' }])[0]!.where).toBe('[1].kind');
  });

  it('reads identifiers in capitals as the same identifier', () => {
    const stay = staySchema.parse({ ...example(staySchema), id: '01980D2E-7C00-7000-8000-00000000000A' }) as {
      id: string;
    };
    expect(stay.id).toBe('01980d2e-7c00-7000-8000-00000000000a');
  });
});

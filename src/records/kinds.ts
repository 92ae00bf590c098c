import type { z } from 'zod';
import { animalSchema } from '../schema/animal.ts';
import { diaryEntrySchema } from '../schema/diary.ts';
import { examinationSchema } from '../schema/examination.ts';
import { gutWarmthSchema } from '../schema/gut-warmth.ts';
import { healthEventSchema } from '../schema/health-event.ts';
import { boxRecordSchema, placeRecordSchema } from '../schema/housing.ts';
import { measurementSchema } from '../schema/measurement.ts';
import { photographSchema } from '../schema/photograph.ts';
import { probeSchema } from '../schema/reading.ts';
import { staySchema } from '../schema/stay.ts';
import { taskDoneSchema } from '../schema/task.ts';
import type { EntryTable } from './tables.ts';

/** How a field of the thing lies in its column. An instant `at` lies in `atMs`; JSON and flags are text and 0 or 1. */
type FieldForm = 'text' | 'number' | 'flag' | 'json' | 'instant';

export interface EntryKind<T extends { id: string } = { id: string }> {
  readonly name: EntryKindName;
  readonly table: EntryTable;
  readonly schema: z.ZodType<T>;
  readonly fields: Readonly<Record<string, FieldForm>>;
  /** Field that names the animal it is about; decides whose record it is. */
  readonly animalField?: 'id' | 'animalId';
  /** Fields that name other records, which must stand in the same group. */
  readonly references: Readonly<Record<string, EntryTable>>;
  /** Column the list is ordered by. */
  readonly orderBy: string;
  /** Fields of an instant or a day that cannot lie in the future. */
  readonly past?: readonly string[];
}

export type EntryKindName =
  | 'animal'
  | 'measurement'
  | 'examination'
  | 'health-event'
  | 'diary'
  | 'place'
  | 'box'
  | 'stay'
  | 'probe'
  | 'task-done'
  | 'photograph'
  | 'gut-warmth';

const ofAnimal = { animalField: 'animalId', references: { animalId: 'animals' } } as const;

export const ANIMAL = {
  name: 'animal',
  table: 'animals',
  schema: animalSchema,
  fields: {
    name: 'text',
    species: 'text',
    sex: 'text',
    birthDate: 'text',
    ageYears: 'number',
    ageAsOf: 'text',
    ageClass: 'text',
    acquiredOn: 'text',
    microchip: 'text',
    marks: 'text',
    legalPaper: 'text',
    keeperId: 'text',
    photographId: 'text',
    wintersSlept: 'number',
    notes: 'text',
    leftOn: 'text',
    leftHow: 'text',
    leftNote: 'text',
  },
  animalField: 'id',
  references: {},
  orderBy: 'name',
  past: ['birthDate', 'leftOn'],
} as const satisfies EntryKind;

export const MEASUREMENT = {
  name: 'measurement',
  table: 'measurements',
  schema: measurementSchema,
  fields: { animalId: 'text', at: 'instant', massG: 'number', sclMm: 'number', kind: 'text', note: 'text' },
  ...ofAnimal,
  orderBy: 'atMs',
  past: ['at'],
} as const satisfies EntryKind;

export const EXAMINATION = {
  name: 'examination',
  table: 'examinations',
  schema: examinationSchema,
  fields: {
    animalId: 'text',
    at: 'instant',
    moment: 'text',
    findings: 'json',
    answers: 'json',
    vet: 'json',
    note: 'text',
  },
  ...ofAnimal,
  orderBy: 'atMs',
  past: ['at'],
} as const satisfies EntryKind;

export const HEALTH_EVENT = {
  name: 'health-event',
  table: 'healthEvents',
  schema: healthEventSchema,
  fields: { animalId: 'text', kind: 'text', fromDay: 'text', toDay: 'text', note: 'text' },
  ...ofAnimal,
  orderBy: 'fromDay',
  past: ['fromDay'],
} as const satisfies EntryKind;

export const DIARY = {
  name: 'diary',
  table: 'diaryEntries',
  schema: diaryEntrySchema,
  fields: { animalId: 'text', at: 'instant', kind: 'text', note: 'text' },
  ...ofAnimal,
  orderBy: 'atMs',
  past: ['at'],
} as const satisfies EntryKind;

export const PLACE = {
  name: 'place',
  table: 'places',
  schema: placeRecordSchema,
  fields: { name: 'text', description: 'json' },
  references: {},
  orderBy: 'name',
} as const satisfies EntryKind;

export const BOX = {
  name: 'box',
  table: 'boxes',
  schema: boxRecordSchema,
  fields: { name: 'text', placeId: 'text', description: 'json' },
  references: { placeId: 'places' },
  orderBy: 'name',
} as const satisfies EntryKind;

export const STAY = {
  name: 'stay',
  table: 'stays',
  schema: staySchema,
  fields: {
    animalId: 'text',
    boxId: 'text',
    placeId: 'text',
    fromDay: 'text',
    toDay: 'text',
    endReason: 'text',
    endEntryId: 'text',
    note: 'text',
  },
  animalField: 'animalId',
  references: { animalId: 'animals', boxId: 'boxes', placeId: 'places' },
  orderBy: 'fromDay',
} as const satisfies EntryKind;

export const PROBE = {
  name: 'probe',
  table: 'probes',
  schema: probeSchema,
  fields: {
    name: 'text',
    boxId: 'text',
    placeId: 'text',
    outdoors: 'flag',
    offsetC: 'number',
    expectedIntervalS: 'number',
  },
  references: { boxId: 'boxes', placeId: 'places' },
  orderBy: 'name',
} as const satisfies EntryKind;

export const TASK_DONE = {
  name: 'task-done',
  table: 'tasksDone',
  schema: taskDoneSchema,
  fields: { taskKey: 'text', animalId: 'text', day: 'text', at: 'instant', outcome: 'text', note: 'text' },
  animalField: 'animalId',
  references: { animalId: 'animals' },
  orderBy: 'atMs',
  past: ['at'],
} as const satisfies EntryKind;

export const PHOTOGRAPH = {
  name: 'photograph',
  table: 'photographs',
  schema: photographSchema,
  fields: {
    animalId: 'text',
    takenOn: 'text',
    note: 'text',
    widthPx: 'number',
    heightPx: 'number',
    bytes: 'number',
  },
  ...ofAnimal,
  orderBy: 'recordedAtMs',
  past: ['takenOn'],
} as const satisfies EntryKind;

export const GUT_WARMTH = {
  name: 'gut-warmth',
  table: 'gutWarmths',
  schema: gutWarmthSchema,
  fields: {
    animalId: 'text',
    at: 'instant',
    mealDay: 'text',
    lampHours: 'number',
    lampBodyTempC: 'number',
    nightTempC: 'number',
    probeId: 'text',
  },
  animalField: 'animalId',
  references: { animalId: 'animals', probeId: 'probes' },
  orderBy: 'atMs',
  past: ['mealDay'],
} as const satisfies EntryKind;

/** Every kind, in an order in which each stands after the kinds it refers to. */
export const ENTRY_KINDS: readonly EntryKind[] = [
  ANIMAL,
  MEASUREMENT,
  EXAMINATION,
  HEALTH_EVENT,
  DIARY,
  PLACE,
  BOX,
  STAY,
  PROBE,
  TASK_DONE,
  PHOTOGRAPH,
  GUT_WARMTH,
];

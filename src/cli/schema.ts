import { z } from 'zod';
import { say } from '../wording/say.ts';
import { type Outcome, UsageError } from './outcome.ts';

/** Things whose JSON Schema can be printed, each loaded only when asked for. */
const SCHEMAS: Readonly<Record<string, () => Promise<z.ZodType>>> = {
  assess: async () => (await import('../schema/assess.ts')).assessInputSchema,
  'assess-output': async () => (await import('../schema/assess.ts')).assessOutputSchema,
  plan: async () => (await import('../schema/plan-input.ts')).planInputSchema,
  simulate: async () => (await import('../schema/simulate-boxes.ts')).simulateBoxesSchema,
  'simulate-exact': async () => (await import('../schema/simulate.ts')).simulateExactSchema,
  'simulate-exact-refrigerator': async () => (await import('../schema/refrigerator.ts')).exactRefrigeratorSchema,
  calibrate: async () => (await import('../schema/calibrate.ts')).calibrateSchema,
  replay: async () => (await import('../schema/replay.ts')).replaySchema,
  import: async () => (await import('../schema/import.ts')).importChoicesSchema,
  place: async () => (await import('../schema/place.ts')).placeDescriptionSchema,
  box: async () => (await import('../schema/box.ts')).boxDescriptionSchema,
  group: async () => (await import('../schema/group.ts')).groupSchema,
  animal: async () => (await import('../schema/animal.ts')).animalSchema,
  measurement: async () => (await import('../schema/measurement.ts')).measurementSchema,
  examination: async () => (await import('../schema/examination.ts')).examinationSchema,
  'health-event': async () => (await import('../schema/health-event.ts')).healthEventSchema,
  'diary-entry': async () => (await import('../schema/diary.ts')).diaryEntrySchema,
};

/** `stillwinter schema [NAME]`: the JSON Schema (draft 2020-12) of an input; without a name, the names. */
export async function schemaCommand(name: string | undefined): Promise<Outcome> {
  const names = Object.keys(SCHEMAS);
  if (name === undefined) return { json: names, text: [say('cli.schema.names'), ...names].join('\n  '), code: 0 };
  const load = SCHEMAS[name];
  if (!load) throw new UsageError(say('cli.schema.unknown', { name, names: names.join(', ') }));
  const json = rootInline(z.toJSONSchema(await load(), { io: 'input', unrepresentable: 'any' }));
  return { json, text: JSON.stringify(json, null, 2), code: 0 };
}

/** A schema with an identity comes as a reference to itself; readers expect its fields at the top. */
function rootInline(schema: z.core.JSONSchema.BaseSchema): z.core.JSONSchema.BaseSchema {
  const id = /^#\/\$defs\/(.+)$/.exec(schema.$ref ?? '')?.[1];
  const root = id === undefined ? undefined : schema.$defs?.[id];
  if (id === undefined || !root || JSON.stringify(schema.$defs).includes(`"$ref":"#/$defs/${id}"`)) return schema;
  const { $ref: _ref, $defs: { [id]: _root, ...others } = {}, ...rest } = schema;
  return { ...rest, title: id, ...root, ...(Object.keys(others).length > 0 ? { $defs: others } : {}) };
}

import { z } from 'zod';
import type { Day } from '../measure/day.ts';
import type { Source } from '../measure/source.ts';
import { EXAMINATION_PARTS, findingsFor } from '../tortoise/examination.ts';
import { checkSize } from '../tortoise/size-check.ts';
import { findSpecies } from '../tortoise/species.ts';
import type { AssessInput, Assessment, ExaminationPart, GateName } from '../tortoise/types.ts';
import { say } from '../wording/say.ts';
import { sexSchema } from './animal.ts';
import { daySchema, lineSchema } from './common.ts';
import { healthEventKindSchema } from './health-event.ts';
import { type Problem, problemsOf } from './problems.ts';
import { speciesSchema } from './species.ts';

/** Sentences of the catalogue as custom issues: `problemsOf` passes whole sentences on as they are. */
type Refining = z.core.$RefinementCtx;
const complain = (ctx: Refining, path: PropertyKey[], sentence: string) =>
  ctx.addIssue({ code: 'custom', path, message: sentence });

/** One code or several for a part; the codes a keeper can give before sleep. */
function partSchema(part: ExaminationPart) {
  const [first, ...others] = findingsFor(part, 'before').map((row) => row.code);
  const code = z.enum([first!, ...others]);
  return z
    .union([code, z.array(code).min(1).max(10)])
    .optional()
    .meta({
      description: `${say(`tortoise.examination.look.${part}`)} "clear" when nothing is wrong; left out: not looked at.`,
    });
}

const answer = (description: string) =>
  z
    .boolean()
    .optional()
    .meta({ description: `${description} Left out: not yet known.` });

const historySchema = z
  .strictObject({
    acquiredOn: daySchema.optional(),
    newArrival: answer('Came to this keeper less than 12 months ago.'),
    illness: answer('Ill at any time in the last 12 months.'),
    treatment: answer('Treated at any time in the last 12 months.'),
    vetClearance: answer('A vet said afterwards that it may hibernate.'),
    vetCheck: answer('A vet looked at it within 12 months.'),
    parasitesChecked: answer('Droppings looked at for parasites this year.'),
    carryingEggs: answer('Carrying eggs.'),
    appetiteNormal: answer('Ate normally through the summer.'),
    weightNormal: answer('Weight held or rose through the summer.'),
    hydrated: answer('Drinks or soaks, urates soft, eyes not sunken.'),
    formConfirmed: answer('Its local form is confirmed as one that hibernates (North African Testudo graeca).'),
    wintersSlept: z.int().min(0).max(200).optional(),
    gutCleared: answer('Gut cleared. Counts when going down.'),
    lastBathOn: daySchema.optional(),
    startMassG: z.number().positive().max(300_000).optional(),
    events: z
      .array(
        z
          .strictObject({ kind: healthEventKindSchema, fromDay: daySchema, toDay: daySchema.optional() })
          .refine((event) => event.toDay === undefined || event.toDay >= event.fromDay, {
            error: 'toBeforeFrom',
            path: ['toDay'],
          }),
      )
      .max(500)
      .optional(),
    measurements: z
      .array(z.strictObject({ day: daySchema, massG: z.number(), sclMm: z.number() }))
      .max(2000)
      .optional()
      .meta({ description: 'Earlier weighings of this animal, each with its length' }),
  })
  .meta({ description: 'What is known of the past months; false is an answer, a field left out is not' });

/** Input of `assess`. One of ageYears, birthDate and ageClass is needed. */
export const assessInputSchema = z
  .strictObject({
    name: lineSchema(120).optional(),
    species: speciesSchema,
    sex: sexSchema,
    massG: z.number().meta({ description: 'Mass, g', exclusiveMinimum: 0 }),
    sclMm: z.number().meta({ description: 'Straight carapace length, mm, not over the curve', exclusiveMinimum: 0 }),
    ageYears: z.number().min(0).max(200).optional(),
    birthDate: daySchema.optional(),
    ageClass: z
      .enum(['hatchling', 'juvenile', 'adult', 'elderly'])
      .optional()
      .meta({ description: 'Where nobody knows the years' }),
    onDay: daySchema.optional().meta({ description: 'The day it is asked for; today when left out' }),
    moment: z
      .enum(['deciding', 'going-down'])
      .default('deciding')
      .meta({ description: 'deciding: late summer; going-down: the day itself, with every gate' }),
    lengthAdvice: z
      .enum(['uk-joint-2016', 'german-chamber', 'common-practice'])
      .default('uk-joint-2016')
      .meta({ description: 'Published advice on length that is followed; the first is the most cautious' }),
    hesitantKeeper: z.boolean().default(false).meta({ description: 'Begin with a few days of cold' }),
    examination: z
      .strictObject(
        Object.fromEntries(EXAMINATION_PARTS.map((part) => [part, partSchema(part)])) as Record<
          ExaminationPart,
          ReturnType<typeof partSchema>
        >,
      )
      .meta({ description: 'Part by part, what was seen' }),
    history: historySchema,
  })
  .superRefine((input, ctx) => {
    if (input.ageYears === undefined && input.birthDate === undefined && input.ageClass === undefined)
      complain(ctx, ['ageYears'], say('tortoise.input.age'));
    for (const problem of checkSize(input.massG, input.sclMm))
      if (problem.level === 'refuse') complain(ctx, [problem.where], say(problem.what));
    (input.history.measurements ?? []).forEach((record, i) => {
      for (const problem of checkSize(record.massG, record.sclMm))
        if (problem.level === 'refuse') complain(ctx, ['history', 'measurements', i, problem.where], say(problem.what));
    });
  })
  .meta({
    id: 'AssessInput',
    description: 'One animal, to be judged for the winter',
    examples: [
      {
        species: 'Testudo hermanni boettgeri',
        sex: 'female',
        massG: 1240,
        sclMm: 182,
        ageYears: 14,
        onDay: '2026-09-20',
        examination: {
          eyes: 'clear',
          nose: 'clear',
          mouth: 'clear',
          limbs: 'clear',
          shell: 'clear',
          tail: 'clear',
          breathing: 'clear',
          droppings: 'clear',
        },
        history: {
          acquiredOn: '2012-06-01',
          illness: false,
          treatment: false,
          parasitesChecked: true,
          carryingEggs: false,
          appetiteNormal: true,
          weightNormal: true,
          hydrated: true,
        },
      },
    ],
  });

/** A checked question with its animal's name, or what is wrong with it. */
export type AssessRead =
  | { readonly ok: true; readonly input: AssessInput; readonly name: string | undefined }
  | { readonly ok: false; readonly problems: Problem[] };

/** Checks the input of `assess`; `today` stands in for the day when none is given. Days that lie after it are refused. */
export function readAssessInput(value: unknown, today: Day): AssessRead {
  const parsed = assessInputSchema.safeParse(value);
  if (!parsed.success) return { ok: false, problems: problemsOf(parsed.error) };
  const { name, onDay = today, ...rest } = parsed.data;
  const problems = futureDays({ ...rest, onDay });
  return problems.length > 0
    ? { ok: false, problems }
    : { ok: true, input: { ...rest, species: findSpecies(rest.species)!.name, onDay }, name };
}

function futureDays({ birthDate, history, onDay }: AssessInput): Problem[] {
  const days: [string, Day | undefined][] = [
    ['birthDate', birthDate],
    ['history.acquiredOn', history.acquiredOn],
    ['history.lastBathOn', history.lastBathOn],
    ...(history.events ?? []).map((event, i): [string, Day] => [`history.events[${i}].fromDay`, event.fromDay]),
    ...(history.measurements ?? []).map((record, i): [string, Day] => [`history.measurements[${i}].day`, record.day]),
  ];
  return days
    .filter(([, day]) => day !== undefined && day > onDay)
    .map(([where, day]) => ({ where, what: say('tortoise.input.future', { day: day!, onDay }) }));
}

/** A source in one line, with what kind of source it is where that matters to the reader. */
export function sourceLine(source: Source): string {
  const kind = say(`tortoise.source.${source.status}`);
  return kind === '' ? source.cite : `${source.cite} (${kind})`;
}

const gateSchema = z.strictObject({
  name: z.string() as z.ZodType<GateName>,
  state: z.enum(['passes', 'borderline', 'not-yet-known', 'fails']),
  reason: z.string(),
  source: z.string(),
});

/** Output of `assess`: every sentence in words. */
export const assessOutputSchema = z
  .strictObject({
    verdict: z.enum(['may-go-down', 'wait', 'stay-awake']),
    gates: z.array(gateSchema),
    condition: z.strictObject({
      band: z.enum(['seriously-light', 'light', 'normal', 'heavy', 'no-verdict']),
      state: gateSchema.shape.state,
      reason: z.string(),
      source: z.string(),
      jacksonRatio: z.number().meta({ description: 'mass[g] / SCL[cm]^3' }),
      jacksonBand: z.enum(['seriously-light', 'light', 'acceptable', 'heavy']).optional(),
      expectedMassG: z.number().optional(),
      conditionIndex: z.number().optional().meta({ description: 'log10(mass / expected mass)' }),
      curve: z.string().optional(),
      ownExpectedMassG: z.number().optional(),
      ownConditionIndex: z.number().optional(),
      weighings: z.int(),
      notes: z.array(z.string()),
    }),
    length: z.strictObject({
      suggested: z.int().meta({ description: 'Days; 0 where the animal stays awake' }),
      ceiling: z.int(),
      shortest: z.int(),
      class: z.enum(['first-winter', 'second-third-winter', 'juvenile', 'adult', 'elderly']),
      advice: z.string(),
      reasons: z.array(z.string()),
      source: z.string(),
    }),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'AssessOutput', description: 'The verdict with its gates' });
export type AssessOutput = z.infer<typeof assessOutputSchema>;

/** The assessment as it is printed and sent: messages in words, sources in one line. */
export function assessOutput(assessment: Assessment): AssessOutput {
  const { verdict, gates, condition, length, cautions } = assessment;
  return {
    verdict,
    gates: gates.map(({ name, state, reason, source }) => ({
      name,
      state,
      reason: say(reason),
      source: sourceLine(source),
    })),
    condition: {
      ...condition,
      reason: say(condition.reason),
      source: sourceLine(condition.source),
      notes: condition.notes.map((note) => say(note)),
    },
    length: {
      suggested: length.suggestedDays,
      ceiling: length.ceilingDays,
      shortest: length.shortestDays,
      class: length.lengthClass,
      advice: length.advice,
      reasons: length.reasons.map((reason) => say(reason)),
      source: sourceLine(length.source),
    },
    cautions: cautions.map((caution) => say(caution)),
  };
}

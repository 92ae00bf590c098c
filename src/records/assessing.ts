import { type Day, dayNumber } from '../measure/day.ts';
import { dayInZone } from '../measure/zone.ts';
import type { Examination } from '../schema/examination.ts';
import type { Group } from '../schema/group.ts';
import type { Measurement } from '../schema/measurement.ts';
import { assess } from '../tortoise/assess.ts';
import { checkSize } from '../tortoise/size-check.ts';
import { findSpecies } from '../tortoise/species.ts';
import type { AssessInput, Assessment, Findings, Moment, SizeRecord } from '../tortoise/types.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { list, read, type Scope } from './entries.ts';
import { foodInGut, gutWarmthOf } from './gut-warmth.ts';
import { ANIMAL, DIARY, EXAMINATION, HEALTH_EVENT, MEASUREMENT } from './kinds.ts';
import { RecordProblem } from './problem.ts';

/** An examination speaks for this many days: for one autumn when deciding, and for the last two weeks on the day itself. */
const EXAMINATION_DAYS: Record<Moment, number> = { deciding: 92, 'going-down': 14 };
/** Answers about the summer speak for the winter that follows it. */
const ANSWERS_DAYS = 150;
/** Gut, bath and start mass belong to this going down only. */
const GOING_DOWN_DAYS = 45;
/** A mass older than this is another animal's, so to speak. */
const MASS_DAYS = 400;

export interface AssessedAnimal {
  readonly input: AssessInput;
  readonly assessment: Assessment;
}

/**
 * Judges one animal from what is recorded about it: its newest mass and length, examinations, answers and health events as they stood
 * on `onDay`. Throws RecordProblem `not-measured` when it was never weighed and measured, for there is nothing to judge then.
 */
export async function assessAnimal(
  database: Database,
  scope: Scope,
  group: Group,
  animalId: string,
  moment: Moment,
  onDay: Day,
): Promise<AssessedAnimal> {
  const input = await assessInputOf(database, scope, group, animalId, moment, onDay);
  return { input, assessment: assess(input) };
}

async function assessInputOf(
  database: Database,
  scope: Scope,
  group: Group,
  animalId: string,
  moment: Moment,
  onDay: Day,
): Promise<AssessInput> {
  const animal = await read(database, scope, ANIMAL, animalId);
  const of = { animalId };
  const dayOf = (at: string): Day => dayInZone(Date.parse(at), group.zone);
  const until = <T extends { at: string }>(things: T[]) => things.filter((thing) => dayOf(thing.at) <= onDay);
  const measurements = until(await list(database, scope, MEASUREMENT, of));
  const examinations = until(await list(database, scope, EXAMINATION, of)).filter((one) => one.moment === 'before');
  const diary = until(await list(database, scope, DIARY, of));
  const events = (await list(database, scope, HEALTH_EVENT, of)).filter((event) => event.fromDay <= onDay);
  const since = (at: string): number => dayNumber(onDay) - dayNumber(dayOf(at));

  const size = sizeOf(measurements, dayOf, onDay);
  const lately = examinations.filter((one) => since(one.at) <= ANSWERS_DAYS);
  const answers = Object.assign({}, ...lately.map((one) => one.answers ?? {})) as NonNullable<Examination['answers']>;
  const goingDown = (kind: string) =>
    diary.findLast((entry) => entry.kind === kind && since(entry.at) <= GOING_DOWN_DAYS);
  const start = measurements.findLast((one) => one.kind === 'start' && since(one.at) <= GOING_DOWN_DAYS);
  const bath = goingDown('bath');
  const cleared = goingDown('gut-cleared');
  const warmth = await gutWarmthOf(database, scope, group, animalId, onDay);
  // A gut that was seen to be clear stays so until there is another meal.
  const seenClear = cleared !== undefined && (warmth === undefined || warmth.mealDay < dayOf(cleared.at));
  const full = !seenClear && warmth !== undefined && (await foodInGut(database, scope, group, size, warmth, onDay));

  return {
    species: findSpecies(animal.species)?.name ?? 'unknown',
    sex: animal.sex,
    massG: size.massG,
    sclMm: size.sclMm,
    ...ageOf(animal, onDay),
    onDay,
    moment,
    lengthAdvice: group.lengthAdvice,
    hesitantKeeper: false,
    examination: mergedFindings(examinations.filter((one) => since(one.at) <= EXAMINATION_DAYS[moment])),
    history: {
      ...answers,
      acquiredOn: animal.acquiredOn,
      wintersSlept: animal.wintersSlept,
      ...(lately.some((one) => one.vet?.seen) ? { vetCheck: true } : {}),
      gutCleared: seenClear ? true : full ? false : undefined,
      lastBathOn: bath && dayOf(bath.at),
      startMassG: start?.massG,
      events: events.map(({ kind, fromDay, toDay }) => ({ kind, fromDay, toDay })),
      measurements: size.earlier,
    },
  };
}

/** Newest finding of each part; a part that no examination looked at stays unknown. */
function mergedFindings(oldestFirst: readonly Examination[]): Findings {
  return Object.assign({}, ...oldestFirst.map((one) => one.findings)) as Findings;
}

function ageOf(
  animal: { birthDate?: Day; ageYears?: number; ageAsOf?: Day; ageClass?: AssessInput['ageClass'] },
  onDay: Day,
) {
  const grown =
    animal.ageYears === undefined || animal.ageAsOf === undefined
      ? undefined
      : animal.ageYears + Math.max(0, dayNumber(onDay) - dayNumber(animal.ageAsOf)) / 365.25;
  return { birthDate: animal.birthDate, ageYears: grown, ageClass: animal.ageClass };
}

function sizeOf(measurements: readonly Measurement[], dayOf: (at: string) => Day, onDay: Day) {
  const records: SizeRecord[] = [];
  let sclMm: number | undefined;
  for (const one of measurements) {
    sclMm = one.sclMm ?? sclMm;
    if (one.massG !== undefined && sclMm !== undefined) records.push({ day: dayOf(one.at), massG: one.massG, sclMm });
  }
  const newest = records.at(-1);
  if (!newest || dayNumber(onDay) - dayNumber(newest.day) > MASS_DAYS)
    throw new RecordProblem('not-measured', say('records.notMeasured'));
  const wrong = checkSize(newest.massG, newest.sclMm).find((problem) => problem.level === 'refuse');
  if (wrong) {
    const what = say(wrong.what);
    throw new RecordProblem('not-measured', what, [{ where: wrong.where, what }]);
  }
  return { massG: newest.massG, sclMm: newest.sclMm, earlier: records.slice(0, -1) };
}

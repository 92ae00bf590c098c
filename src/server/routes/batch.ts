import type { z } from 'zod';
import { change, make, remove, type Scope } from '../../records/entries.ts';
import {
  ANIMAL,
  BOX,
  DIARY,
  type EntryKind,
  EXAMINATION,
  GUT_WARMTH,
  HEALTH_EVENT,
  MEASUREMENT,
  PLACE,
  PROBE,
  STAY,
  TASK_DONE,
} from '../../records/kinds.ts';
import { acknowledge } from '../../records/notices.ts';
import { RecordProblem } from '../../records/problem.ts';
import { appendMaxMin, appendReadings } from '../../records/readings.ts';
import { type Batch, batchAnswerSchema, batchSchema, deletionSchema } from '../../schema/batch.ts';
import { acknowledgementSchema } from '../../schema/notice.ts';
import { problemsOf } from '../../schema/problems.ts';
import { maxMinSchema, readingSchema } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { problemDetails } from '../problem-answers.ts';

type State = 'saved' | 'already-there';
type Entry = Batch[number];

const ENTRIES: Readonly<Record<string, EntryKind>> = {
  animal: ANIMAL,
  measurement: MEASUREMENT,
  examination: EXAMINATION,
  'health-event': HEALTH_EVENT,
  diary: DIARY,
  place: PLACE,
  box: BOX,
  stay: STAY,
  probe: PROBE,
  'task-done': TASK_DONE,
  'gut-warmth': GUT_WARMTH,
};

/**
 * What a phone kept while it had no connection. Each entry stands by itself, in order: one that is refused keeps none of the others
 * back, and sending all of it again changes nothing.
 */
export function batchRoutes(api: Api, context: ServerContext): void {
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/batch',
      needs: 'keeper',
      summary: 'Keep entries made without a connection; sending them again changes nothing',
      body: batchSchema,
      limit: 4_000_000,
      answer: batchAnswerSchema,
    },
    async ({ body, scope }) => {
      const answers: z.infer<typeof batchAnswerSchema> = [];
      for (const entry of body) answers.push({ id: entry.id, ...(await outcome(context, scope, entry)) });
      return answers;
    },
  );
}

async function outcome(context: ServerContext, scope: Scope, entry: Entry) {
  try {
    return { state: await keep(context, scope, entry) };
  } catch (error) {
    const problem = problemDetails(error);
    // A fault of ours is no answer about the entry: the whole batch is tried again.
    if (problem.status >= 500) throw error;
    const state = problem.status === 409 ? ('conflict' as const) : ('refused' as const);
    return { state, problem };
  }
}

async function keep({ database }: ServerContext, scope: Scope, entry: Entry): Promise<State> {
  const kind = ENTRIES[entry.kind];
  if (entry.delete) {
    if (!kind) throw new RecordProblem('invalid', say('records.notDeletable'));
    const { id, revision } = parsed(deletionSchema, entry.body);
    return (await remove(database, scope, kind, id, revision)) ? 'saved' : 'already-there';
  }
  if (kind) {
    const thing = parsed(kind.schema, entry.body) as { id: string; revision?: number };
    if (thing.revision === undefined) return (await make(database, scope, kind, thing)).state;
    const kept = await change(database, scope, kind, thing);
    return kept.revision === thing.revision ? 'already-there' : 'saved';
  }
  // These have no identifier of their own; the outbox's is only its own.
  const { id: _, ...body } = entry.body;
  if (entry.kind === 'reading') return counted(await appendReadings(database, scope, [parsed(readingSchema, body)]));
  if (entry.kind === 'max-min') return counted(await appendMaxMin(database, scope, [parsed(maxMinSchema, body)]));
  return acknowledge(database, scope, parsed(acknowledgementSchema, body));
}

const counted = ({ stored }: { stored: number }): State => (stored > 0 ? 'saved' : 'already-there');

function parsed<S extends z.ZodType>(schema: S, body: unknown): z.infer<S> {
  const result = schema.safeParse(body);
  if (result.success) return result.data;
  const problems = problemsOf(result.error);
  throw new RecordProblem('invalid', problems[0]!.what, problems);
}

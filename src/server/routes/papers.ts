import type { Context } from 'hono';
import { z } from 'zod';
import type { AnimalRecords, PlanOnPaper } from '../../papers/animal-records.ts';
import { read } from '../../records/entries.ts';
import { ANIMAL } from '../../records/kinds.ts';
import { listPlans } from '../../records/plans.ts';
import { idSchema } from '../../schema/common.ts';
import { mayEverHibernate } from '../../tortoise/species.ts';
import { type MessageKey, say, spokenIn } from '../../wording/say.ts';
import { type Api, type Asked, type Env, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { fileAnswer } from '../file-answer.ts';
import { isHttps } from '../guard.ts';
import { Refusal } from '../problem-answers.ts';

// The page writer and its fonts are loaded for the first paper, not for the first start.
export const drawn = {
  calendar: () => import('../../papers/calendar.ts'),
  calendarView: () => import('../../papers/calendar-view.ts'),
  diarySheet: () => import('../../papers/diary-sheet.ts'),
  diaryView: () => import('../../papers/diary-view.ts'),
  handout: () => import('../../papers/handout.ts'),
  label: () => import('../../papers/label.ts'),
  labelView: () => import('../../papers/label-view.ts'),
  portrait: () => import('../../papers/portrait.ts'),
  planSheet: () => import('../../papers/plan-sheet.ts'),
  records: () => import('../../papers/animal-records.ts'),
  vetSummary: () => import('../../papers/vet-summary.ts'),
  vetView: () => import('../../papers/vet-view.ts'),
  words: () => import('../../papers/animal-words.ts'),
};

const ROOT = '/api/v1';
const PDF = 'application/pdf';
export const ICALENDAR = 'text/calendar; charset=utf-8';

type Ask<Q = unknown> = Asked<{ id: string }, Q, unknown>;

/** What is printed or sent: papers of one animal, its calendar, and the handout for the workshop. */
export function paperRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  const paper = <Q extends z.ZodObject>(
    name: string,
    summary: string,
    query: Q,
    /** Gathers what is needed, and gives what draws it in one go, in the units of the group. */
    ready: (records: AnimalRecords, asked: Ask<z.infer<Q>>) => Promise<() => Promise<Buffer>>,
  ): void =>
    route(
      api,
      context,
      {
        method: 'get',
        path: `${ROOT}/animals/{id}/papers/${name}.pdf`,
        needs: 'reader',
        summary,
        params: z.object({ id: idSchema }),
        query,
        file: PDF,
        problems: ['not-found', 'not-hibernating'],
      },
      async (asked) => {
        const records = await (await drawn.records()).animalRecords(
          database,
          asked.scope,
          asked.who.group,
          asked.params.id,
        );
        const title = `${records.animal.name} ${say(`papers.file.${name}` as MessageKey)}`;
        const draw = await ready(records, asked as Ask<z.infer<Q>>);
        return fileAnswer(await spokenIn(asked.who.group, draw), PDF, title, 'pdf');
      },
    );

  const none = z.object({});
  paper('plan-sheet', 'The plan of the winter on paper', none, async (records) => {
    const { plan, revision, madeAt } = planned(records);
    const { name, species } = records.animal;
    const { planSheet } = await drawn.planSheet();
    const { speciesInWords } = await drawn.words();
    const madeAtMs = Date.parse(madeAt);
    return () => planSheet({ animalName: name, species: speciesInWords(species), plan, revision, madeAtMs });
  });
  paper(
    'box-label',
    'The label for the lid of the box, A6 or A5',
    z.object({ size: z.enum(['A6', 'A5']).default('A6') }),
    async (records, { query, scope, http }) => {
      const { name, species } = records.animal;
      const { plan } = planned(records);
      // No label invites anybody to put an animal down that stays awake.
      if (!plan.sleepDay || !mayEverHibernate(species))
        throw new Refusal('not-hibernating', say('papers.noLabel', { animal: name }));
      const portrait = await (await drawn.portrait()).portraitOf(database, scope, records);
      const { labelView } = await drawn.labelView();
      const { boxLabel } = await drawn.label();
      return () => boxLabel(labelView(records, originOf(http), scope.nowMs, portrait), query.size);
    },
  );
  paper('diary-sheet', 'The weekly sheet for the wall of the shed', none, async (records, { scope }) => {
    const plan = planned(records);
    const { diarySheet } = await drawn.diarySheet();
    const { diaryView } = await drawn.diaryView();
    return () => diarySheet(diaryView(records, plan, scope.nowMs));
  });
  paper('vet-summary', 'The history of one animal on one page, for the vet', none, async (records, { scope }) => {
    const { stayReadings, verdictToday } = await drawn.records();
    const verdict = await verdictToday(database, scope, records);
    const { vetView } = await drawn.vetView();
    const portrait = await (await drawn.portrait()).portraitOf(database, scope, records);
    const readings = await stayReadings(database, scope, records);
    const { vetSummary } = await drawn.vetSummary();
    return () => vetSummary(vetView(records, verdict, readings, scope.nowMs, portrait));
  });

  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/animals/{id}/calendar.ics`,
      needs: 'reader',
      summary: 'The plan of one animal as a calendar file',
      params: z.object({ id: idSchema }),
      file: 'text/calendar',
    },
    async ({ params, scope, who }) => {
      const animal = await read(database, scope, ANIMAL, params.id);
      const { calendarPlan } = await drawn.calendarView();
      const plan = calendarPlan(animal, await listPlans(database, scope, params.id), scope.nowMs);
      if (!plan) {
        const why = animal.leftOn === undefined ? 'papers.noPlan' : 'papers.left';
        throw new Refusal('not-found', say(why, { animal: animal.name }));
      }
      const { calendarOf } = await drawn.calendar();
      return fileAnswer(
        spokenIn(who.group, () => calendarOf(animal.name, [plan])),
        ICALENDAR,
        `${animal.name} ${say('papers.file.calendar')}`,
        'ics',
      );
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/papers/handout.pdf`,
      needs: 'reader',
      summary: 'The handout for the workshop: what is normal, what to do',
      file: PDF,
    },
    async ({ scope, who }) => {
      const { handout } = await drawn.handout();
      const pages = await spokenIn(who.group, () => handout(scope.nowMs));
      return fileAnswer(pages, PDF, say('papers.file.handout'), 'pdf');
    },
  );
}

function planned({ plan, animal }: AnimalRecords): PlanOnPaper {
  if (animal.leftOn !== undefined) throw new Refusal('not-found', say('papers.left', { animal: animal.name }));
  if (!plan) throw new Refusal('not-found', say('papers.noPlan', { animal: animal.name }));
  return plan;
}

/** Where the screens are reached by whoever asks: their host name has been checked already. */
const originOf = (http: Context<Env>): string =>
  `${isHttps(http) ? 'https' : 'http'}://${http.req.header('host') ?? 'localhost'}`;

import { z } from 'zod';
import { dayInZone } from '../../measure/zone.ts';
import { boxForecastNow } from '../../notices/box-forecast.ts';
import { read } from '../../records/entries.ts';
import { historyOf } from '../../records/history.ts';
import { STAY } from '../../records/kinds.ts';
import { limitsOf, ruleSettingsOf, setLimit } from '../../records/limits.ts';
import { listPlans } from '../../records/plans.ts';
import { roundOf } from '../../records/round.ts';
import { keepForecast, newestForecast } from '../../records/weather.ts';
import { assessmentSchema } from '../../schema/assessment.ts';
import { boxForecastSchema } from '../../schema/box-forecast.ts';
import { daySchema, idSchema } from '../../schema/common.ts';
import { historySchema } from '../../schema/history.ts';
import { keptPlanSchema, newPlanSchema } from '../../schema/kept-plan.ts';
import { limitsSchema, limitWantedSchema } from '../../schema/limits.ts';
import { roundSchema } from '../../schema/round.ts';
import { forecastSchema, wintersSchema } from '../../schema/winters.ts';
import { outlookLimits } from '../../winter/outlook-limits.ts';
import { WINTER_DAYS } from '../../winter/season.ts';
import { say } from '../../wording/say.ts';
import { type Api, type Asked, route } from '../api.ts';
import { boxForecastAnswer } from '../box-forecast-answer.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

const ROOT = '/api/v1';
const ofAnimal = z.object({ id: idSchema });

// What judges, plans and makes weather is loaded when it is first asked for, so that a server starts quickly and small.
const later = {
  verdict: () => import('../../records/assessing.ts'),
  plan: () => import('../../records/planning.ts'),
  winters: () => import('../../records/winters.ts'),
};

/** Verdict, plan, history of one animal; the round; the weather that places and boxes are run through. */
export function winterRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  const today = ({ who, scope }: Pick<Asked<unknown, unknown, unknown>, 'who' | 'scope'>) =>
    dayInZone(scope.nowMs, who.group.zone);

  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/animals/{id}/assessment`,
      needs: 'reader',
      summary: 'Whether this animal may go down, judged from its records',
      params: ofAnimal,
      query: z.object({ moment: z.enum(['deciding', 'going-down']).default('deciding'), day: daySchema.optional() }),
      answer: assessmentSchema,
      problems: ['not-measured'],
    },
    async ({ params, query, ...asked }) => {
      const day = query.day ?? today(asked);
      const { assessAnimal } = await later.verdict();
      const { assessment } = await assessAnimal(database, asked.scope, asked.who.group, params.id, query.moment, day);
      return assessment as unknown as z.infer<typeof assessmentSchema>;
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/animals/{id}/plans`,
      needs: 'reader',
      summary: 'Every revision of every winter’s plan, oldest first',
      params: ofAnimal,
      answer: z.array(keptPlanSchema),
    },
    ({ params, scope }) => listPlans(database, scope, params.id),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${ROOT}/animals/{id}/plans`,
      needs: 'keeper',
      summary: 'Make a plan, or its next revision; a tropical, unknown or unfit animal gets none to sleep',
      params: ofAnimal,
      body: newPlanSchema,
      answer: keptPlanSchema,
      problems: ['not-hibernating', 'not-measured', 'id-in-use'],
    },
    async ({ params, body, ...asked }) =>
      (await later.plan()).planWinter(
        database,
        asked.scope,
        asked.who.group,
        { ...body, animalId: params.id },
        today(asked),
      ),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/animals/{id}/history`,
      needs: 'reader',
      summary: 'Everything recorded about one animal, with who entered it',
      params: ofAnimal,
      answer: historySchema,
    },
    ({ params, scope }) => historyOf(database, scope, params.id),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/round`,
      needs: 'reader',
      summary: 'What is to be done on one day, place by place',
      query: z.object({ day: daySchema.optional() }),
      answer: roundSchema,
    },
    ({ query, ...asked }) => roundOf(database, asked.scope, asked.who.group, query.day ?? today(asked)),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/stays/{id}/limits`,
      needs: 'reader',
      summary: 'Limits of the watch set for one stay, and who changed them',
      params: ofAnimal,
      answer: limitsSchema,
    },
    ({ params, scope }) => limitsOf(database, scope, params.id),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/stays/{id}/forecast`,
      needs: 'reader',
      summary:
        'The next three days in the box, from the weather forecast and the readings, or why there is no forecast',
      params: ofAnimal,
      answer: boxForecastSchema,
      problems: ['not-found'],
    },
    async ({ params, who, scope }) => {
      await read(database, scope, STAY, params.id);
      const found = await boxForecastNow(database, scope.groupId, params.id, scope.nowMs);
      if ('reason' in found)
        return { state: 'none' as const, reason: found.reason, what: say(`records.noForecast.${found.reason}`) };
      const limits = outlookLimits(await ruleSettingsOf(database, scope.groupId, params.id));
      return boxForecastAnswer(found, limits, who.group.temperatureUnit);
    },
  );
  route(
    api,
    context,
    {
      method: 'put',
      path: `${ROOT}/stays/{id}/limits`,
      needs: 'keeper',
      summary:
        'Set one limit of the watch for one stay; what is looser than usual needs the tutor, and all of it is kept',
      params: ofAnimal,
      body: limitWantedSchema,
      answer: limitsSchema,
      problems: ['not-allowed'],
    },
    ({ params, body, who, scope }) =>
      setLimit(
        database,
        scope,
        { role: who.role ?? 'reader', name: who.person?.name ?? say('records.somebody') },
        params.id,
        body,
      ),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/weather/winters`,
      needs: 'reader',
      summary: 'Winters to run a place and a box through: recorded ones, or made from the group’s normals',
      query: z.object({
        fromDay: daySchema.optional(),
        days: z.coerce.number().int().min(1).max(366).default(WINTER_DAYS),
        winters: z.coerce.number().int().min(1).max(60).default(30),
      }),
      answer: wintersSchema,
    },
    async ({ query, who, scope }) => {
      const { defaultWinterFrom, wintersOf } = await later.winters();
      const fromDay = query.fromDay ?? defaultWinterFrom(scope.nowMs, who.group);
      return wintersOf(database, who.group, { ...query, fromDay });
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ROOT}/forecasts`,
      needs: 'reader',
      summary: 'The newest forecast of the weather outdoors',
      answer: forecastSchema,
      problems: ['not-found'],
    },
    async ({ scope }) => {
      const found = await newestForecast(database, scope.groupId);
      if (!found) throw new Refusal('not-found');
      return found;
    },
  );
  route(
    api,
    context,
    { method: 'post', path: `${ROOT}/forecasts`, needs: 'tutor', summary: 'Keep a forecast', body: forecastSchema },
    async ({ body, scope }) => keepForecast(database, scope.groupId, body),
  );
}

import { createHash } from 'node:crypto';
import { z } from 'zod';
import {
  listCalendarLinks,
  makeCalendarLink,
  revokeCalendarLink,
  scopeByCalendarToken,
} from '../../access/calendar-links.ts';
import type { CalendarPlan } from '../../papers/calendar.ts';
import type { Database } from '../../records/database.ts';
import { list, type Scope } from '../../records/entries.ts';
import { groupById } from '../../records/groups.ts';
import { ANIMAL } from '../../records/kinds.ts';
import { listPlans } from '../../records/plans.ts';
import { idSchema } from '../../schema/common.ts';
import { calendarLinkSchema, newCalendarLinkSchema } from '../../schema/person.ts';
import { say, spokenIn } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { fileAnswer } from '../file-answer.ts';
import { drawn, ICALENDAR } from './papers.ts';

const MANY = '/api/v1/calendars';
const TOKEN = /^[\w-]{20,100}$/;

/** Addresses that a calendar program subscribes to: every plan its maker may see, by a secret that can be taken back. */
export function calendarRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  route(
    api,
    context,
    {
      method: 'get',
      path: MANY,
      needs: 'reader',
      summary: 'Calendar addresses in force: one’s own, for a tutor all of the group',
      answer: z.array(calendarLinkSchema),
    },
    ({ scope, who }) => listCalendarLinks(database, scope, who.role === 'tutor'),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: MANY,
      needs: 'reader',
      summary: 'Make a calendar address; its secret is told only here',
      body: newCalendarLinkSchema,
      answer: z.strictObject({ path: z.string().meta({ examples: ['/calendar/SECRET.ics'] }) }).meta({
        id: 'CalendarAddress',
        description: 'What the calendar program subscribes to, after the name of the server',
        examples: [{ path: '/calendar/kq1Vw0m2cFJp8ZtXbS5nRyLd3hGuEoA7iTzNxQ4sPwM.ics' }],
      }),
      problems: ['id-in-use'],
    },
    async ({ body, scope }) => ({ path: `/calendar/${await makeCalendarLink(database, scope, body)}.ics` }),
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: `${MANY}/{id}`,
      needs: 'reader',
      summary: 'Take a calendar address back; at once and for good',
      params: z.object({ id: idSchema }),
    },
    ({ params, scope, who }) => revokeCalendarLink(database, scope, params.id, who.role === 'tutor'),
  );

  // Calendar programs sign in nowhere: the secret in the address is all they have.
  api.get('/calendar/:file{.+\\.ics}', async (http) => {
    const token = http.req.param('file').slice(0, -'.ics'.length);
    const scope = await scopeByCalendarToken(database, TOKEN.test(token) ? token : '', context.nowMs());
    const text = await groupCalendar(database, scope);
    const etag = `"${createHash('sha256').update(text).digest('base64url')}"`;
    if (http.req.header('if-none-match') === etag) return http.body(null, 304, { etag, 'cache-control': 'no-store' });
    const answer = fileAnswer(text, ICALENDAR, say('papers.file.calendar'), 'ics');
    answer.headers.set('etag', etag);
    return answer;
  });
}

async function groupCalendar(database: Database, scope: Scope): Promise<string> {
  const group = await groupById(database, scope.groupId);
  const { calendarPlan } = await drawn.calendarView();
  const plans: CalendarPlan[] = [];
  for (const animal of await list(database, scope, ANIMAL)) {
    const plan = calendarPlan(animal, await listPlans(database, scope, animal.id), scope.nowMs);
    if (plan) plans.push(plan);
  }
  const { calendarOf } = await drawn.calendar();
  return spokenIn(group, () => calendarOf(say('papers.calendar.name', { group: group.name }), plans));
}

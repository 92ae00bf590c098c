import { z } from 'zod';
import { acknowledge, listNotices } from '../../records/notices.ts';
import { acknowledgementSchema, noticeSchema } from '../../schema/notice.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';

/** What the watch has to say, and that somebody has seen it. */
export function noticeRoutes(api: Api, context: ServerContext): void {
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/notices',
      needs: 'reader',
      summary: 'Notices, newest first',
      query: z.object({ open: z.enum(['true', 'false']).default('false') }),
      answer: z.array(noticeSchema),
    },
    ({ query, scope }) => listNotices(context.database, scope, query.open === 'true'),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/notices/acknowledgements',
      needs: 'keeper',
      summary: 'Say that a notice has been seen; the first who does so stands',
      body: acknowledgementSchema,
      problems: ['not-found'],
    },
    async ({ body, scope }) => {
      await acknowledge(context.database, scope, body);
    },
  );
}

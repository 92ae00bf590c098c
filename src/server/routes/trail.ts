import { z } from 'zod';
import { deletedEntries, trailOf } from '../../records/trail.ts';
import { idSchema } from '../../schema/common.ts';
import { deletedEntrySchema, trailSchema } from '../../schema/trail.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';

/** What was changed and what was deleted, by whom and when. */
export function trailRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/records/{id}/changes',
      needs: 'reader',
      summary: 'Who changed one record, when, and what stood there before; with edits that wait beside it',
      params: z.object({ id: idSchema }),
      answer: trailSchema,
    },
    ({ params, scope }) => trailOf(database, scope, params.id),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/deleted',
      needs: 'reader',
      summary: 'What was deleted in the last 30 days and can be brought back, newest first',
      answer: z.array(deletedEntrySchema),
    },
    ({ scope }) => deletedEntries(database, scope),
  );
}

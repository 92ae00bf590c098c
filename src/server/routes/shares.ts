import { z } from 'zod';
import { listShares, makeShare, revokeShare, shareByToken } from '../../access/shares.ts';
import { read } from '../../records/entries.ts';
import { historyOf } from '../../records/history.ts';
import { ANIMAL } from '../../records/kinds.ts';
import { photographImage } from '../../records/photographs.ts';
import { idSchema, instantSchema } from '../../schema/common.ts';
import { historySchema } from '../../schema/history.ts';
import { shareSchema } from '../../schema/person.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { noteEvent } from '../guard.ts';
import { Refusal } from '../problem-answers.ts';
import { pictureAnswer } from './photographs.ts';

const MANY = '/api/v1/animals/{animalId}/shares';

/** Links that let a vet read one animal: read-only, expiring, revocable. */
export function shareRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  const params = z.object({ animalId: idSchema });
  route(
    api,
    context,
    {
      method: 'get',
      path: MANY,
      needs: 'keeper',
      summary: 'Links that let somebody read this animal',
      params,
      answer: z.array(z.strictObject({ ...shareSchema.shape, revoked: z.boolean() })),
    },
    async ({ params: { animalId }, scope }) => {
      await read(database, scope, ANIMAL, animalId);
      return listShares(database, scope.groupId, animalId);
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: MANY,
      needs: 'keeper',
      summary: 'Make a link for a vet; its token is told only here',
      params,
      body: shareSchema,
      answer: z
        .strictObject({ token: z.string(), until: instantSchema })
        .meta({ id: 'ShareToken', description: 'What the vet opens: /shared/ and the token' }),
    },
    async ({ params: { animalId }, body, scope, http }) => {
      const what = say('server.animalDiffers');
      if (body.animalId !== animalId) throw new Refusal('invalid', what, [{ where: 'animalId', what }]);
      await read(database, scope, ANIMAL, animalId);
      const token = await makeShare(database, {
        id: body.id,
        groupId: scope.groupId,
        animalId,
        forWhom: body.forWhom,
        untilMs: Date.parse(body.until),
        by: scope.personId,
        nowMs: scope.nowMs,
      });
      noteEvent(context, http, { what: 'share-made', who: scope.personId, about: body.id });
      return { token, until: body.until };
    },
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: `${MANY}/{id}`,
      needs: 'keeper',
      summary: 'Take a link back; at once and for good',
      params: z.object({ animalId: idSchema, id: idSchema }),
    },
    async ({ params: { animalId, id }, scope, http }) => {
      await read(database, scope, ANIMAL, animalId);
      await revokeShare(database, scope.groupId, animalId, id, scope.nowMs);
      noteEvent(context, http, { what: 'share-revoked', who: scope.personId, about: id });
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/shared/{token}',
      needs: 'anyone',
      summary: 'What the holder of a link may read: one animal’s history, without names of people',
      params: z.object({ token: z.string().min(20).max(100) }),
      answer: z
        .strictObject({ forWhom: z.string(), until: instantSchema, history: historySchema })
        .meta({ id: 'Shared', description: 'One animal’s history, for the holder of a link' }),
    },
    async ({ params: { token }, http }) => {
      const nowMs = context.nowMs();
      const share = await shareByToken(database, token, nowMs);
      const history = await historyOf(database, { groupId: share.groupId, personId: null, nowMs }, share.animalId);
      noteEvent(context, http, { what: 'share-opened', who: null, about: share.id });
      // The vet needs the animal's record, not who in the group typed what.
      return { forWhom: share.forWhom, until: share.until, history: { ...history, changes: [] } };
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/shared/{token}/photographs/{id}/image',
      needs: 'anyone',
      summary: 'A picture of the one animal the holder of a link may read about',
      params: z.object({ token: z.string().min(20).max(100), id: idSchema }),
      file: 'image/jpeg',
    },
    async ({ params: { token, id } }) => {
      const nowMs = context.nowMs();
      const { groupId, animalId } = await shareByToken(database, token, nowMs);
      return pictureAnswer(await photographImage(database, { groupId, personId: null, nowMs }, { id, animalId }));
    },
  );
}

import { z } from 'zod';
import { list, read, remove, restore } from '../../records/entries.ts';
import { ANIMAL, PHOTOGRAPH } from '../../records/kinds.ts';
import { changePhotograph, keepPhotograph, mainPhotographs, photographImage } from '../../records/photographs.ts';
import { daySchema, idSchema, noteSchema } from '../../schema/common.ts';
import { photographSchema } from '../../schema/photograph.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import { bytesBody } from '../body.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

const MANY = '/api/v1/animals/{animalId}/photographs';
const MOST_BYTES = 15_000_000;
const TYPES = ['image/jpeg', 'image/png', 'image/webp'];

/** Photographs of an animal: the picture is sent as it is and comes back made anew, without place and device. */
export function photographRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  const params = z.object({ animalId: idSchema });
  const single = z.object({ animalId: idSchema, id: idSchema });
  route(
    api,
    context,
    {
      method: 'get',
      path: MANY,
      needs: 'reader',
      summary: 'The photographs of an animal, without the pictures themselves',
      params,
      answer: z.array(photographSchema),
    },
    async ({ params: { animalId }, scope }) => {
      await read(database, scope, ANIMAL, animalId);
      return list(database, scope, PHOTOGRAPH, { animalId });
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: MANY,
      needs: 'keeper',
      summary: 'Keep a photograph: the body is the picture (JPEG, PNG or WebP, at most 15 MB)',
      params,
      query: z.object({ id: idSchema, takenOn: daySchema.optional(), note: noteSchema.optional() }),
      answer: photographSchema,
      problems: ['too-large', 'wrong-content-type', 'id-in-use'],
    },
    async ({ params: { animalId }, query: { id, takenOn, note }, scope, http }) => {
      const type = (http.req.header('content-type') ?? '').split(';')[0]!.trim();
      if (!TYPES.includes(type))
        throw new Refusal('wrong-content-type', say('server.problem.wrong-content-type', { type: TYPES.join(', ') }));
      const about = { id, animalId, ...(takenOn ? { takenOn } : {}), ...(note ? { note } : {}) };
      return keepPhotograph(database, scope, about, await bytesBody(http, MOST_BYTES));
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${MANY}/{id}/image`,
      needs: 'reader',
      summary: 'The picture itself, JPEG; small for a list',
      params: single,
      query: z.object({ size: z.enum(['whole', 'small']).default('whole') }),
      file: 'image/jpeg',
    },
    async ({ params, query, scope }) =>
      pictureAnswer(await photographImage(database, scope, { ...params, small: query.size === 'small' })),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/photographs/main',
      needs: 'reader',
      summary: 'The photograph each animal is shown by',
      answer: z.array(photographSchema),
    },
    ({ scope }) => mainPhotographs(database, scope),
  );
  route(
    api,
    context,
    {
      method: 'put',
      path: `${MANY}/{id}`,
      needs: 'keeper',
      summary: 'Change the day or the caption of a photograph; the picture itself stays',
      params: single,
      body: photographSchema,
      answer: photographSchema,
      problems: ['edit-conflict', 'deleted'],
    },
    async ({ params, body, scope }) => {
      const where = body.id === params.id ? 'animalId' : 'id';
      const what = say(where === 'id' ? 'server.idDiffers' : 'server.animalDiffers');
      if (body.id !== params.id || body.animalId !== params.animalId)
        throw new Refusal('invalid', what, [{ where, what }]);
      return changePhotograph(database, scope, body);
    },
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: `${MANY}/{id}`,
      needs: 'keeper',
      summary: 'Delete a photograph; it can be brought back for 30 days',
      params: single,
    },
    async ({ params: { id }, scope }) => {
      await remove(database, scope, PHOTOGRAPH, id);
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${MANY}/{id}/restore`,
      needs: 'keeper',
      summary: 'Bring back a photograph',
      params: single,
      answer: photographSchema,
      problems: ['too-late'],
    },
    ({ params: { id }, scope }) => restore(database, scope, PHOTOGRAPH, id),
  );
}

/** A picture that never changes under its address; only the browser that was let in may keep it. */
export const pictureAnswer = (image: Uint8Array): Response =>
  new Response(new Uint8Array(image), {
    headers: { 'content-type': 'image/jpeg', 'cache-control': 'private, max-age=86400' },
  });

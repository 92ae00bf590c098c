import { z } from 'zod';
import { change, list, make, read, remove, restore } from '../../records/entries.ts';
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
import { idSchema } from '../../schema/common.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

const ROOT = '/api/v1';
const one = z.object({ id: idSchema });
const ofAnimal = z.object({ animalId: idSchema });
const oneOfAnimal = z.object({ animalId: idSchema, id: idSchema });

/** Routes of everything a person enters: list, make, read, change, delete, bring back. */
export function entryRoutes(api: Api, context: ServerContext): void {
  whole(api, context, 'animals', ANIMAL);
  whole(api, context, 'places', PLACE);
  whole(api, context, 'boxes', BOX);
  whole(api, context, 'stays', STAY);
  whole(api, context, 'probes', PROBE);
  whole(api, context, 'tasks-done', TASK_DONE);
  belonging(api, context, 'measurements', MEASUREMENT);
  belonging(api, context, 'examinations', EXAMINATION);
  belonging(api, context, 'health-events', HEALTH_EVENT);
  belonging(api, context, 'diary', DIARY);
  belonging(api, context, 'gut-warmth', GUT_WARMTH);
}

function whole<T extends { id: string }>(api: Api, context: ServerContext, name: string, kind: EntryKind<T>): void {
  const { database } = context;
  const many = `${ROOT}/${name}`;
  const single = `${many}/{id}`;
  const thing = kind.schema;
  route(
    api,
    context,
    { method: 'get', path: many, needs: 'reader', summary: `All ${name}`, answer: z.array(thing) },
    ({ scope }) => list(database, scope, kind),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: many,
      needs: 'keeper',
      summary: `Keep one of ${name}; sending it again changes nothing`,
      body: thing,
      answer: thing,
      problems: ['id-in-use'],
    },
    async ({ body, scope }) => (await make(database, scope, kind, body)).record,
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: single,
      needs: 'reader',
      summary: `One of ${name}`,
      params: one,
      answer: thing,
      problems: ['deleted'],
    },
    ({ params, scope }) => read(database, scope, kind, params.id),
  );
  changes(api, context, name, single, kind);
}

function belonging<T extends { id: string; animalId: string }>(
  api: Api,
  context: ServerContext,
  name: string,
  kind: EntryKind<T>,
): void {
  const { database } = context;
  const many = `${ROOT}/animals/{animalId}/${name}`;
  const thing = kind.schema;
  route(
    api,
    context,
    {
      method: 'get',
      path: many,
      needs: 'reader',
      summary: `The ${name} of one animal`,
      params: ofAnimal,
      answer: z.array(thing),
    },
    async ({ params, scope }) => {
      await read(database, scope, ANIMAL, params.animalId);
      return list(database, scope, kind, { animalId: params.animalId });
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: many,
      needs: 'keeper',
      summary: `Keep one of the ${name} of an animal; sending it again changes nothing`,
      params: ofAnimal,
      body: thing,
      answer: thing,
      problems: ['id-in-use'],
    },
    async ({ params, body, scope }) => {
      sameAnimal(params.animalId, body.animalId);
      return (await make(database, scope, kind, body)).record;
    },
  );
  changes(api, context, name, `${many}/{id}`, kind);
}

function changes<T extends { id: string }>(
  api: Api,
  context: ServerContext,
  name: string,
  path: string,
  kind: EntryKind<T>,
): void {
  const { database } = context;
  const params = path.includes('{animalId}') ? oneOfAnimal : one;
  const thing = kind.schema;
  route(
    api,
    context,
    {
      method: 'put',
      path,
      needs: 'keeper',
      summary: `Change one of ${name}; with the revision it was made from, two edits are noticed`,
      params,
      body: thing,
      answer: thing,
      problems: ['edit-conflict', 'deleted'],
    },
    async ({ params: { id, ...rest }, body, scope }) => {
      const where = 'id';
      if (body.id !== id)
        throw new Refusal('invalid', say('server.idDiffers'), [{ where, what: say('server.idDiffers') }]);
      if ('animalId' in rest) sameAnimal(String(rest.animalId), (body as { animalId?: string }).animalId);
      return change(database, scope, kind, body);
    },
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path,
      needs: 'keeper',
      summary: `Delete one of ${name}; it can be brought back for 30 days`,
      params,
    },
    async ({ params: { id }, scope }) => {
      await remove(database, scope, kind, id);
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${path}/restore`,
      needs: 'keeper',
      summary: `Bring back one of ${name}`,
      params,
      answer: thing,
      problems: ['too-late'],
    },
    ({ params: { id }, scope }) => restore(database, scope, kind, id),
  );
}

function sameAnimal(inPath: string, inBody: string | undefined): void {
  if (inPath === inBody) return;
  const what = say('server.animalDiffers');
  throw new Refusal('invalid', what, [{ where: 'animalId', what }]);
}

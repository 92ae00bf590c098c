import { presentGroup, saveGroup } from '../../records/groups.ts';
import { groupSchema } from '../../schema/group.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

/** The group: its place, its units, its normals. Putting one with a new id beside the demonstration group begins one's own. */
export function groupRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/group',
      needs: 'anyone',
      summary: 'The group of whoever asks',
      answer: groupSchema,
      problems: ['not-signed-in', 'no-group'],
    },
    async ({ who }) => {
      if (!who.role) throw new Refusal('not-signed-in');
      if (!who.group) throw new Refusal('no-group');
      return who.group;
    },
  );
  route(
    api,
    context,
    {
      method: 'put',
      path: '/api/v1/group',
      needs: 'anyone',
      summary: 'Begin a group, or change it',
      body: groupSchema,
      answer: groupSchema,
      problems: ['not-signed-in', 'not-allowed', 'edit-conflict'],
    },
    async ({ who, body }) => {
      if (!who.role) throw new Refusal('not-signed-in');
      if (who.role !== 'tutor') throw new Refusal('not-allowed');
      const present = who.group ?? (await presentGroup(database));
      const begins = present === undefined || (present.demonstration === true && present.id !== body.id);
      if (!begins && present.id !== body.id)
        throw new Refusal('invalid', say('server.oneGroup'), [{ where: 'id', what: say('server.oneGroup') }]);
      // Only the demonstration itself bears that mark.
      const { demonstration: _, ...rest } = body;
      const marked = !begins && present.demonstration ? { ...rest, demonstration: true } : rest;
      const saved = await saveGroup(database, marked, who.person?.id ?? null, context.nowMs());
      if (begins && who.person)
        await database.kysely
          .updateTable('people')
          .set({ groupId: saved.id })
          .where('id', '=', who.person.id)
          .execute();
      return saved;
    },
  );
}

import { deleteCookie, setCookie } from 'hono/cookie';
import { z } from 'zod';
import {
  changeRole,
  invite,
  join,
  listPeople,
  personBySignIn,
  personOf,
  removePerson,
  setPassphrase,
  setUpFirst,
} from '../../access/people.ts';
import { endSession, endSessions, LONGEST_MS, listSessions, openSession } from '../../access/sessions.ts';
import { presentGroup } from '../../records/groups.ts';
import { idSchema, instantSchema } from '../../schema/common.ts';
import {
  invitationSchema,
  newRoleSchema,
  passphraseSchema,
  personSchema,
  type Role,
  sessionSchema,
  setUpSchema,
  signInSchema,
} from '../../schema/person.ts';
import { say } from '../../wording/say.ts';
import { type Api, type Asked, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { COOKIE, isHttps, noteEvent, remoteAddress } from '../guard.ts';
import { signInLimits } from '../limits.ts';
import { Refusal } from '../problem-answers.ts';

const SESSION = '/api/v1/session';
const PEOPLE = '/api/v1/people';

/** Who is here, signing in and out, and the people of the group. */
export function sessionRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  const limits = signInLimits();

  const begin = async (http: Asked<unknown, unknown, unknown>['http'], personId: string) => {
    const token = await openSession(database, personId, http.req.header('user-agent'), context.nowMs());
    noteEvent(context, http, { what: 'signed-in', who: personId });
    const secure = isHttps(http);
    setCookie(http, secure ? `__Host-${COOKIE}` : COOKIE, token, {
      httpOnly: true,
      sameSite: 'Lax',
      path: '/',
      secure,
      maxAge: LONGEST_MS / 1000,
    });
  };

  route(
    api,
    context,
    { method: 'get', path: SESSION, needs: 'anyone', summary: 'Who is asking', answer: sessionSchema },
    async ({ who }) => {
      const visitor: { role: Role } | Record<never, never> = who.role ? { role: who.role } : {};
      return {
        peopleExist: who.peopleExist,
        ...visitor,
        ...(who.person ? { person: who.person } : {}),
        ...(who.group ? { groupId: who.group.id } : {}),
        demonstration: who.group?.demonstration ?? false,
        nowMs: context.nowMs(),
      };
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: SESSION,
      needs: 'anyone',
      summary: 'Sign in',
      body: signInSchema,
      answer: personSchema,
      problems: ['not-signed-in', 'too-many'],
    },
    async ({ body, http }) => {
      await limits.spend(remoteAddress(http), body.signInName);
      const row = await personBySignIn(database, body.signInName, body.passphrase);
      if (!row) throw new Refusal('not-signed-in', say('server.problem.wrong-passphrase'));
      await limits.forgive(remoteAddress(http), body.signInName);
      await begin(http, row.id);
      return personOf(row);
    },
  );
  route(
    api,
    context,
    { method: 'delete', path: SESSION, needs: 'anyone', summary: 'Sign out' },
    async ({ who, http }) => {
      if (who.token) await endSession(database, who.token);
      if (who.person) noteEvent(context, http, { what: 'signed-out', who: who.person.id });
      deleteCookie(http, COOKIE, { path: '/' });
      deleteCookie(http, `__Host-${COOKIE}`, { path: '/', secure: true });
      http.header('clear-site-data', '"cache", "storage"');
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${SESSION}/set-up`,
      needs: 'anyone',
      summary: 'Set up the first person, who becomes the tutor; only while there is nobody',
      body: setUpSchema,
      answer: personSchema,
      problems: ['not-allowed', 'no-group'],
    },
    async ({ body, http }) => {
      const group = await presentGroup(database);
      if (!group) throw new Refusal('no-group');
      const person = await setUpFirst(database, group.id, body, context.nowMs());
      await begin(http, person.id);
      return person;
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${SESSION}/join`,
      needs: 'anyone',
      summary: 'Take up an invitation',
      body: z
        .strictObject({ ...setUpSchema.shape, token: z.string().min(20).max(100) })
        .meta({ id: 'Join', description: 'A person who was invited' }),
      answer: personSchema,
      problems: ['not-found', 'too-many'],
    },
    async ({ body: { token, ...person }, http }) => {
      await limits.spend(remoteAddress(http), 'join');
      const row = await join(database, token, person, context.nowMs());
      noteEvent(context, http, { what: 'joined', who: row.id });
      await begin(http, row.id);
      return personOf(row);
    },
  );
  route(
    api,
    context,
    {
      method: 'put',
      path: `${SESSION}/passphrase`,
      needs: 'reader',
      summary: 'Change one’s own passphrase; every session ends and this one begins anew',
      body: z
        .strictObject({ old: z.string().min(1).max(200), passphrase: passphraseSchema })
        .meta({ id: 'ChangePassphrase', description: 'The old passphrase and the new one' }),
      problems: ['too-many'],
    },
    async ({ body, who, http }) => {
      if (!who.person) throw new Refusal('not-signed-in');
      await limits.spend(remoteAddress(http), who.person.signInName);
      if (!(await personBySignIn(database, who.person.signInName, body.old)))
        throw new Refusal('not-signed-in', say('server.problem.wrong-passphrase'));
      await setPassphrase(database, who.person.id, body.passphrase);
      await begin(http, who.person.id);
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${SESSION}/all`,
      needs: 'reader',
      summary: 'One’s own sessions on every device',
      answer: z.array(z.strictObject({ device: z.string(), createdAtMs: z.number(), lastSeenAtMs: z.number() })),
    },
    async ({ who }) => (who.person ? listSessions(database, who.person.id) : []),
  );
  route(
    api,
    context,
    { method: 'delete', path: `${SESSION}/others`, needs: 'reader', summary: 'End one’s sessions on other devices' },
    async ({ who }) => {
      if (who.person) await endSessions(database, who.person.id, who.token);
    },
  );
  route(
    api,
    context,
    { method: 'get', path: PEOPLE, needs: 'reader', summary: 'The people of the group', answer: z.array(personSchema) },
    async ({ scope, who }) => {
      const people = await listPeople(database, scope.groupId);
      // Keepers need each other's names, not how they sign in.
      return who.role === 'tutor' ? people : people.map((person) => ({ ...person, signInName: '–' }));
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${PEOPLE}/invitations`,
      needs: 'tutor',
      summary: 'Invite a person; the token is told only here',
      body: invitationSchema,
      answer: z
        .strictObject({ token: z.string(), until: instantSchema })
        .meta({ id: 'InvitationToken', description: 'What the invited person opens' }),
    },
    async ({ body, scope, http }) => {
      const asked = { id: body.id, role: body.role, animalIds: body.animalIds ?? [] };
      const made = await invite(database, { ...asked, groupId: scope.groupId, by: scope.personId, nowMs: scope.nowMs });
      noteEvent(context, http, { what: 'invited', who: scope.personId, about: body.id });
      return { token: made.token, until: new Date(made.untilMs).toISOString() };
    },
  );
  route(
    api,
    context,
    {
      method: 'put',
      path: `${PEOPLE}/{id}/role`,
      needs: 'tutor',
      summary: 'Give a person another role; it holds at once. The group keeps at least one tutor',
      params: z.object({ id: idSchema }),
      body: newRoleSchema,
      answer: personSchema,
      problems: ['not-allowed', 'not-found'],
    },
    async ({ params, body, scope, http }) => {
      const person = await changeRole(database, scope, params.id, body.role);
      noteEvent(context, http, { what: 'role-changed', who: scope.personId, about: params.id, detail: body.role });
      return person;
    },
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: `${PEOPLE}/{id}`,
      needs: 'tutor',
      summary: 'Remove a person; all their sessions end',
      params: z.object({ id: idSchema }),
    },
    async ({ params, scope, http }) => {
      await removePerson(database, scope.groupId, params.id, scope.nowMs);
      noteEvent(context, http, { what: 'person-removed', who: scope.personId, about: params.id });
    },
  );
}

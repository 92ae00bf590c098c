import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { dismissQuarantine, listQuarantine } from '../../intake/quarantine.ts';
import { addChannel, channelsOf, listeningOf, removeChannel, saveListening } from '../../notices/channels.ts';
import { queueLetter, undelivered } from '../../notices/outbox.ts';
import { testLetter } from '../../notices/sender.ts';
import { channelSchema, listeningSchema } from '../../schema/channel.ts';
import { idSchema, instantSchema } from '../../schema/common.ts';
import { noticeLevelSchema } from '../../schema/notice.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext, Who } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

const outsideSchema = z
  .strictObject({
    broker: z.strictObject({ connected: z.boolean(), reason: z.string().optional(), topic: z.string() }).nullable(),
    wire: z.boolean(),
    weather: z
      .strictObject({ at: instantSchema.nullable(), error: z.string().nullable() })
      .nullable()
      .meta({ description: 'Last answer of the weather service, and what went wrong since; null when none is set up' }),
    mail: z.boolean(),
    pushKey: z.string().nullable(),
  })
  .meta({ id: 'Outside', description: 'What this server listens to and how it can tell people' });

const quarantinedSchema = z
  .strictObject({
    id: idSchema,
    source: z.string(),
    sender: z.string(),
    what: z.string(),
    why: z.string(),
    firstAt: instantSchema,
    lastAt: instantSchema,
    count: z.int(),
  })
  .meta({ id: 'Quarantined', description: 'Something that came in and could not be taken' });

const keptChannelSchema = z
  .strictObject({ channel: channelSchema, failedAt: instantSchema.optional(), lastError: z.string().optional() })
  .meta({ id: 'KeptChannel', description: 'A way to reach a person, and why it failed when it did' });

const undeliveredSchema = z
  .strictObject({
    noticeId: z.string(),
    level: noticeLevelSchema
      .nullable()
      .meta({ description: 'Level of the notice; null for a letter that is about none' }),
    personId: idSchema,
    attempts: z.int(),
    lastError: z.string(),
    givenUp: z.boolean(),
  })
  .meta({ id: 'Undelivered', description: 'A message that has not reached its person' });

const iso = (ms: number) => new Date(ms).toISOString();

/** What comes in from outside and could not be taken, and how people are told. */
export function outsideRoutes(api: Api, context: ServerContext): void {
  const { database, nowMs } = context;
  const me = (who: Who & { group: { id: string } }) => {
    if (!who.person) throw new Refusal('not-allowed', say('server.problem.no-person'));
    return { id: who.person.id, groupId: who.group.id };
  };

  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/outside',
      needs: 'reader',
      summary: 'What this server listens to and how it can tell people',
      answer: outsideSchema,
    },
    async () => {
      const { broker, wire, weather, mail, pushKey } = context.outside ?? {
        broker: undefined,
        wire: false,
        weather: undefined,
        mail: false,
        pushKey: undefined,
      };
      const { atMs, error = null } = weather ?? {};
      return {
        broker: broker ?? null,
        wire,
        weather: weather ? { at: atMs === undefined ? null : iso(atMs), error } : null,
        mail,
        pushKey: pushKey ?? null,
      };
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/quarantine',
      needs: 'keeper',
      summary: 'What came in and could not be taken, newest first',
      answer: z.array(quarantinedSchema),
    },
    async ({ scope }) => {
      const rows = await listQuarantine(database, scope.groupId);
      return rows.map(({ id, source, sender, what, why, firstAtMs, lastAtMs, count }) => ({
        id,
        source,
        sender,
        what,
        why,
        firstAt: iso(firstAtMs),
        lastAt: iso(lastAtMs),
        count,
      }));
    },
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: '/api/v1/quarantine/{id}',
      needs: 'tutor',
      summary: 'Clear one line of the quarantine',
      params: z.object({ id: idSchema }),
    },
    async ({ params, scope }) => dismissQuarantine(database, scope.groupId, params.id),
  );

  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/channels',
      needs: 'reader',
      summary: 'The ways I can be reached',
      answer: z.array(keptChannelSchema),
    },
    async ({ who }) => {
      const kept = await channelsOf(database, me(who).id);
      return kept.map(({ channel, failedAtMs, lastError }) => ({
        channel,
        ...(failedAtMs === null ? {} : { failedAt: iso(failedAtMs) }),
        ...(lastError === null ? {} : { lastError }),
      }));
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/channels',
      needs: 'reader',
      summary: 'Add a way to reach me; the secret of a webhook is shown this once',
      body: channelSchema,
      answer: z.strictObject({ secret: z.string().optional() }),
      problems: ['id-in-use'],
    },
    async ({ body, who }) => addChannel(database, me(who), body, nowMs()),
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: '/api/v1/channels/{id}',
      needs: 'reader',
      summary: 'Remove a way to reach me',
      params: z.object({ id: idSchema }),
      problems: ['not-found'],
    },
    async ({ params, who }) => removeChannel(database, me(who).id, params.id),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/channels/{id}/test',
      needs: 'reader',
      summary: 'Send a test to one of my ways',
      params: z.object({ id: idSchema }),
      problems: ['not-found'],
    },
    async ({ params, who }) => {
      const person = me(who);
      const channel = (await channelsOf(database, person.id)).find((one) => one.id === params.id);
      if (!channel) throw new Refusal('not-found', say('records.notFound'));
      await queueLetter(
        database,
        { id: channel.id, groupId: person.groupId, personId: person.id },
        JSON.stringify(testLetter(uuidv7())),
        nowMs(),
      );
      await context.outside?.flush();
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/listening',
      needs: 'reader',
      summary: 'When I want to hear of notices',
      answer: listeningSchema,
    },
    async ({ who }) => listeningOf(database, me(who).id),
  );
  route(
    api,
    context,
    {
      method: 'put',
      path: '/api/v1/listening',
      needs: 'reader',
      summary: 'Say when I want to hear of notices',
      body: listeningSchema,
    },
    async ({ body, who }) => saveListening(database, me(who).id, body),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/undelivered',
      needs: 'reader',
      summary: 'Messages that have not reached their person',
      answer: z.array(undeliveredSchema),
    },
    async ({ scope }) => undelivered(database, scope.groupId),
  );
}

import { z } from 'zod';
import { newToken, tokenHash } from '../../access/tokens.ts';
import { Arrivals } from '../../intake/arrivals.ts';
import { batteryLevels } from '../../records/batteries.ts';
import { read } from '../../records/entries.ts';
import { PROBE } from '../../records/kinds.ts';
import { numberProbes } from '../../records/readings.ts';
import { idSchema } from '../../schema/common.ts';
import { sentReadingsSchema, takenSchema } from '../../schema/ingest.ts';
import { batteryLevelSchema } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

/** A sender that was cut off sends what it kept in one go; a probe gone mad is still stopped. */
const MOST_A_MINUTE = 5000;

/** Thermometers that send by themselves, each with a token of its own that can write its readings and nothing else. */
export function ingestRoutes(api: Api, context: ServerContext): void {
  const { database, nowMs } = context;
  const arrivals = new Map<string, Arrivals>();
  const arrivalsOf = (groupId: string): Arrivals => {
    const known = arrivals.get(groupId);
    if (known) return known;
    const made = new Arrivals({ database, groupId, source: 'http', nowMs, mostAMinute: MOST_A_MINUTE });
    arrivals.set(groupId, made);
    return made;
  };
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/ingest',
      needs: 'anyone',
      summary:
        'Readings of one probe, single or a list, with the token of the probe; what cannot be true goes into quarantine',
      body: sentReadingsSchema,
      answer: takenSchema,
      problems: ['not-signed-in'],
    },
    async ({ body, http }) => {
      const token = /^Bearer ([\w-]{43})$/.exec(http.req.header('authorization') ?? '')?.[1];
      const probe =
        token === undefined
          ? undefined
          : await database.kysely
              .selectFrom('probeNumbers')
              .select(['probeId', 'groupId'])
              .where('tokenHash', '=', tokenHash(token))
              .executeTakeFirst();
      if (!probe) throw new Refusal('not-signed-in', say('server.ingest.token'));
      const sent = Array.isArray(body) ? body : [body];
      return arrivalsOf(probe.groupId).store(
        sent.map(({ at, tempC, humidity, batteryPercent }) => ({
          probe: probe.probeId,
          atMs: at === undefined ? nowMs() : Date.parse(at),
          tempC,
          ...(humidity === undefined ? {} : { humidity }),
          ...(batteryPercent === undefined ? {} : { batteryPercent }),
        })),
      );
    },
  );

  const params = z.object({ id: idSchema });
  const setToken = async (id: string, groupId: string, hash: string | null) => {
    await database.kysely.transaction().execute(async (transaction) => {
      await numberProbes(transaction, groupId);
      await transaction.updateTable('probeNumbers').set({ tokenHash: hash }).where('probeId', '=', id).execute();
    });
  };
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/probes/{id}/token',
      needs: 'keeper',
      summary: 'Whether a probe has a token; the token itself is shown only when it is made',
      params,
      answer: z.strictObject({ made: z.boolean() }).meta({ examples: [{ made: true }] }),
    },
    async ({ params: { id }, scope }) => {
      await read(database, scope, PROBE, id);
      const row = await database.kysely
        .selectFrom('probeNumbers')
        .select('tokenHash')
        .where('probeId', '=', id)
        .executeTakeFirst();
      return { made: typeof row?.tokenHash === 'string' };
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/probes/{id}/battery',
      needs: 'reader',
      summary: 'What a probe said of its battery, newest first',
      params,
      answer: z.array(batteryLevelSchema),
    },
    async ({ params: { id }, scope }) => {
      await read(database, scope, PROBE, id);
      return batteryLevels(database, id);
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/probes/{id}/token',
      needs: 'keeper',
      summary:
        'Make a token that the thermometer sends its readings with; shown this once, and the one before stops working',
      params,
      answer: z.strictObject({ token: z.string() }).meta({ examples: [{ token: 'x'.repeat(43) }] }),
    },
    async ({ params: { id }, scope }) => {
      await read(database, scope, PROBE, id);
      const token = newToken();
      await setToken(id, scope.groupId, tokenHash(token));
      return { token };
    },
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: '/api/v1/probes/{id}/token',
      needs: 'keeper',
      summary: 'Revoke the token of a probe',
      params,
    },
    async ({ params: { id }, scope }) => {
      await read(database, scope, PROBE, id);
      await setToken(id, scope.groupId, null);
    },
  );
}

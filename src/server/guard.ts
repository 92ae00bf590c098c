import { hostname, networkInterfaces } from 'node:os';
import { TLSSocket } from 'node:tls';
import type { HttpBindings } from '@hono/node-server';
import type { Context, MiddlewareHandler } from 'hono';
import { getCookie } from 'hono/cookie';
import { peopleExist, personOf } from '../access/people.ts';
import { personBySession } from '../access/sessions.ts';
import { groupById, presentGroup } from '../records/groups.ts';
import { say } from '../wording/say.ts';
import type { Env } from './api.ts';
import type { ServerContext, Who } from './context.ts';
import { Refusal } from './problem-answers.ts';
import type { SecurityEvent } from './security-log.ts';

/**
 * Name of the session's cookie. Over plain HTTP at home a `__Host-` cookie is impossible (it needs `Secure`); the name with
 * `__Host-` is used behind HTTPS.
 */
export const COOKIE = 'stillwinter_session';

/** True when the browser reached us by HTTPS: our own, or that of a proxy on this machine that says so. */
export const isHttps = (http: Context): boolean =>
  (http.env as HttpBindings | undefined)?.incoming?.socket instanceof TLSSocket ||
  (http.req.header('x-forwarded-proto') === 'https' && isLoopback(remoteAddress(http)));

const LOOPBACK = /^(127\.\d+\.\d+\.\d+|::1|::ffff:127\.\d+\.\d+\.\d+)$/;
const isLoopback = (address: string | undefined): boolean => address === undefined || LOOPBACK.test(address);

/** Address of the other end; undefined where there is none, as in a test that calls the app directly. */
export function remoteAddress(http: Context): string | undefined {
  return (http.env as HttpBindings | undefined)?.incoming?.socket.remoteAddress;
}

/** Names this machine answers to; a page that points its own name at us is refused (DNS rebinding). */
export function knownHosts(extra: readonly string[] = []): ReadonlySet<string> {
  const own = Object.values(networkInterfaces()).flatMap((addresses) => (addresses ?? []).map((a) => a.address));
  const name = hostname().toLowerCase();
  return new Set([
    'localhost',
    '127.0.0.1',
    '[::1]',
    name,
    `${name}.local`,
    ...own,
    ...own.map((a) => `[${a}]`),
    ...extra,
  ]);
}

/** Refuses unknown host names and changes asked for by other pages. */
export function sameOrigin(hosts: ReadonlySet<string>): MiddlewareHandler<Env> {
  return async (http, next) => {
    const host = http.req.header('host') ?? '';
    if (!hosts.has(host.replace(/:\d+$/, '').toLowerCase())) throw new Refusal('wrong-host');
    if (!['GET', 'HEAD', 'OPTIONS'].includes(http.req.method)) {
      const origin = http.req.header('origin');
      const fetchSite = http.req.header('sec-fetch-site');
      const foreign = origin !== undefined && origin.replace(/^https?:\/\//, '').toLowerCase() !== host.toLowerCase();
      // Programs send neither header; browsers always send an origin with a change.
      if (foreign || (fetchSite !== undefined && fetchSite !== 'same-origin' && fetchSite !== 'none'))
        throw new Refusal('not-allowed', say('server.problem.wrong-origin'));
    }
    await next();
  };
}

/** Finds out who asks, once per request. Until a first person exists only this machine may ask at all. */
export function findWho(context: ServerContext): MiddlewareHandler<Env> {
  return async (http, next) => {
    http.set('who', await whoAsks(context, http));
    await next();
  };
}

async function whoAsks(context: ServerContext, http: Context): Promise<Who> {
  const { database } = context;
  if (!(await peopleExist(database))) {
    if (!isLoopback(remoteAddress(http))) throw new Refusal('not-allowed', say('server.problem.loopback-only'));
    const group = await presentGroup(database);
    return { peopleExist: false, role: 'tutor', person: undefined, group, token: undefined };
  }
  const token = getCookie(http, `__Host-${COOKIE}`) ?? getCookie(http, COOKIE);
  const row = token === undefined ? undefined : await personBySession(database, token, context.nowMs());
  if (!row) return { peopleExist: true, role: undefined, person: undefined, group: undefined, token: undefined };
  const person = personOf(row);
  return { peopleExist: true, role: person.role, person, group: await groupById(database, row.groupId), token };
}

/** Writes down who did what that opens or closes a door: the route's pattern and identifiers, never a token. */
export function noteEvent(
  context: Pick<ServerContext, 'security'>,
  http: Context<Env>,
  event: Pick<SecurityEvent, 'what' | 'detail' | 'about'> & { readonly who: string | null },
): void {
  context.security?.({
    ...event,
    who: event.who ?? 'nobody',
    from: remoteAddress(http),
    method: http.req.method,
    route: http.req.routePath,
  });
}

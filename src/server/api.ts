import { type Context, Hono } from 'hono';
import type { z } from 'zod';
import type { Scope } from '../records/entries.ts';
import type { Group } from '../schema/group.ts';
import { problemsOf } from '../schema/problems.ts';
import { say } from '../wording/say.ts';
import { jsonBody } from './body.ts';
import { type ServerContext, scopeOf, type Who } from './context.ts';
import { type ProblemName, Refusal } from './problem-answers.ts';

/** Who may use a route. `anyone`: also without session; `reader`, `keeper`, `tutor`: this role or a higher one. */
type Needs = 'anyone' | 'reader' | 'keeper' | 'tutor';
const RANK = { reader: 1, keeper: 2, tutor: 3 } as const;

export type Env = { Variables: { who: Who } };
export type Api = Hono<Env> & { readonly described: RouteInfo[] };

/** A route as it was added. The OpenAPI document is made of these when somebody asks for it: no server needs it to start. */
export type RouteInfo = RouteSpec<z.ZodObject, z.ZodObject, z.ZodType, z.ZodType>;
type Method = 'get' | 'post' | 'put' | 'delete';

interface RouteSpec<P extends z.ZodObject, Q extends z.ZodObject, B extends z.ZodType, A extends z.ZodType> {
  readonly method: Method;
  /** With `{id}` for what varies. */
  readonly path: string;
  readonly needs: Needs;
  readonly summary: string;
  readonly params?: P;
  readonly query?: Q;
  readonly body?: B;
  /** Most bytes of the body; default 1 MB. */
  readonly limit?: number;
  readonly answer?: A;
  /** Media type of the file that is answered instead of JSON. */
  readonly file?: string;
  /** Problems this route can answer with, beside those every route can. */
  readonly problems?: readonly ProblemName[];
}

/** What a handler gets: everything checked, and the records it may touch. */
export interface Asked<P, Q, B> {
  readonly params: P;
  readonly query: Q;
  readonly body: B;
  readonly who: Who & { group: Group };
  readonly scope: Scope;
  readonly http: Context<Env>;
}

export function createApi(): Api {
  return Object.assign(new Hono<Env>(), { described: [] });
}

/**
 * Adds one route: checks role, parameters and body before the handler; the OpenAPI document describes all of it from the same schemas.
 * The handler's answer is sent as JSON; `undefined` is 204.
 */
export function route<
  P extends z.ZodObject = z.ZodObject<Record<never, never>>,
  Q extends z.ZodObject = z.ZodObject<Record<never, never>>,
  B extends z.ZodType = z.ZodUndefined,
  A extends z.ZodType = z.ZodVoid,
>(
  api: Api,
  context: ServerContext,
  spec: RouteSpec<P, Q, B, A>,
  handle: (asked: Asked<z.infer<P>, z.infer<Q>, z.infer<B>>) => Promise<z.infer<A> | Response>,
): void {
  api.described.push(spec as unknown as RouteInfo);
  api.on(spec.method.toUpperCase(), spec.path.replaceAll(/\{(\w+)\}/g, ':$1'), async (http) => {
    const who = http.get('who');
    if (spec.needs !== 'anyone') {
      if (!who.role) throw new Refusal('not-signed-in');
      if (RANK[who.role] < RANK[spec.needs]) throw new Refusal('not-allowed');
      if (!who.group) throw new Refusal('no-group');
    }
    const params = checked(spec.params, http.req.param(), 'not-found');
    const query = checked(spec.query, http.req.query());
    const body = spec.body ? checked(spec.body, await jsonBody(http, spec.limit)) : undefined;
    const scope = who.group ? scopeOf({ ...who, group: who.group }, context.nowMs()) : undefined;
    // `anyone` routes that touch records find their group themselves.
    const asked = { params, query, body, who, scope, http } as Asked<z.infer<P>, z.infer<Q>, z.infer<B>>;
    const answer = await handle(asked);
    if (answer instanceof Response) return answer;
    return answer === undefined ? http.body(null, 204) : http.json(answer as object);
  });
}

function checked<S extends z.ZodType>(schema: S | undefined, input: unknown, as: 'invalid' | 'not-found' = 'invalid') {
  if (!schema) return {} as z.infer<S>;
  const result = schema.safeParse(input);
  if (result.success) return result.data;
  if (as === 'not-found') throw new Refusal('not-found', say('records.notFound'));
  const problems = problemsOf(result.error);
  throw new Refusal('invalid', problems[0]!.what, problems);
}

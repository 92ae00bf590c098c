import { compress } from 'hono/compress';
import { RecordProblem } from '../records/problem.ts';
import { type Api, createApi, type RouteInfo } from './api.ts';
import type { Care } from './care.ts';
import type { ServerContext } from './context.ts';
import { findWho, knownHosts, remoteAddress, sameOrigin } from './guard.ts';
import { protectiveHeaders } from './headers.ts';
import { PROBLEM_STATUS, problemDetails, Refusal } from './problem-answers.ts';
import { allRoutes } from './routes/all.ts';
import { webFiles } from './web-files.ts';

export interface AppOptions {
  readonly context: ServerContext;
  readonly webFolder: string;
  /** Names this server answers to beside its own. */
  readonly hosts?: readonly string[];
  /** Knows how the file is; without it nothing is known and nothing refused. */
  readonly care?: Pick<Care, 'health' | 'mayWrite'>;
  /** Hears of faults of ours, which the reader is told in general words only. */
  readonly onFault?: (error: unknown) => void;
}

/** The whole HTTP face: the API, the screens, and what protects both. */
export function createApp(options: AppOptions): Api {
  const { context } = options;
  const api = createApi();
  api.use(protectiveHeaders);
  api.get('/health', (http) =>
    http.json({
      state: 'ready',
      storage: context.database.kind,
      integrity: options.care?.health.integrity ?? 'not-checked',
      ...(context.outside?.broker ? { broker: context.outside.broker.connected } : {}),
    }),
  );
  api.use(sameOrigin(knownHosts(options.hosts)));
  api.use('/api/*', compress());
  api.use('/api/*', findWho(context));
  api.use('/api/*', async (http, next) => {
    if (http.req.method !== 'GET') options.care?.mayWrite();
    await next();
  });

  allRoutes(api, context);

  // The document and its examples are large and seldom asked for.
  api.get('/api/v1/openapi.json', async (http) => http.json((await import('./openapi.ts')).openApiDocument(api)));
  api.get('/problems/:name', (http) => {
    const name = http.req.param('name');
    if (!Object.hasOwn(PROBLEM_STATUS, name)) throw new Refusal('no-such-route');
    const { detail: _, ...about } = problemDetails(new Refusal(name as keyof typeof PROBLEM_STATUS, name));
    return http.json(about);
  });
  api.all('/api/*', () => {
    throw new Refusal('no-such-route');
  });
  const screens = webFiles(options.webFolder);
  api.all('*', (http) => screens(http));

  api.notFound((http) => refused(http, new Refusal('no-such-route')));
  api.onError((error, http) => {
    const known = error instanceof Refusal || error instanceof RecordProblem;
    if (!known) options.onFault?.(error);
    noteRefusal(context, http, error, known);
    return refused(http, error);
  });
  return api;
}

/** When to ask again a database that is away, s. */
const AWAY_RETRY_S = 10;

function refused(http: Parameters<Parameters<Api['onError']>[0]>[1], error: unknown): Response {
  const problem = problemDetails(error);
  const headers: Record<string, string> = { 'content-type': 'application/problem+json' };
  const retryAfterS = error instanceof Refusal ? error.retryAfterS : undefined;
  const away = problem.type === '/problems/database-away' ? AWAY_RETRY_S : undefined;
  if (retryAfterS ?? away) headers['retry-after'] = String(retryAfterS ?? away);
  return http.body(JSON.stringify(problem), problem.status as 400, headers);
}

/** Writes down denials and faults: the route's pattern, never the path, which may hold a token. */
function noteRefusal(
  context: ServerContext,
  http: Parameters<Parameters<Api['onError']>[0]>[1],
  error: unknown,
  known: boolean,
) {
  const name = error instanceof Refusal ? error.problem : error instanceof RecordProblem ? error.type : 'unexpected';
  if (known && !NOTED.has(name)) return;
  context.security?.({
    what: known ? 'denied' : 'fault',
    who: http.get('who')?.person?.id ?? 'nobody',
    from: remoteAddress(http),
    method: http.req.method,
    route: http.req.routePath,
    // What a fault says may quote what was sent; its kind does not.
    detail: known ? name : error instanceof Error ? error.name : typeof error,
  });
}
const NOTED: ReadonlySet<string> = new Set(['not-signed-in', 'not-allowed', 'wrong-host', 'too-many']);

/** The routes of the API with the role each needs: what the role matrix is checked against. */
export const routesOf = (api: Api): readonly RouteInfo[] => api.described;

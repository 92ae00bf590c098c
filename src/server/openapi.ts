import { OpenAPIHono } from '@hono/zod-openapi';
import { z } from 'zod';
import { type Api, createApi, type RouteInfo } from './api.ts';
import type { ServerContext } from './context.ts';
import { exampleOf } from './examples.ts';
import { PROBLEM_STATUS, type ProblemName } from './problem-answers.ts';
import { allRoutes } from './routes/all.ts';

/** The OpenAPI document, made from the schemas that check what comes in. */
export function openApiDocument(api: Api): object {
  return describedRoutes(api).getOpenAPI31Document({
    openapi: '3.1.0',
    info: {
      title: 'Stillwinter',
      version: '1',
      description:
        'Takes pet and rescue tortoises through the winter. Instants are UTC, masses grams, lengths millimetres, temperatures °C. ' +
        'Identifiers are UUIDs made by whoever makes the record, so that sending again makes nothing twice.',
      license: { name: 'Apache-2.0' },
    },
    servers: [{ url: '/' }],
  });
}

/** Every route with its schemas and examples. */
export function describedRoutes(api: Api): OpenAPIHono {
  const book = new OpenAPIHono();
  for (const spec of api.described) describe(book, spec);
  return book;
}

/** The routes without a server behind them: for their description only. */
export function describedApi(): Api {
  const api = createApi();
  // Nothing is asked of the records while routes are only described.
  allRoutes(api, { nowMs: () => 0, dataFolder: '' } as unknown as ServerContext);
  return api;
}

/** The document as it lies in docs/openapi.json. */
export const openApiText = (): string => `${JSON.stringify(openApiDocument(describedApi()), null, 1)}\n`;

export const problemSchema = z
  .strictObject({
    type: z.string().meta({ examples: ['/problems/invalid'] }),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    errors: z.array(z.strictObject({ where: z.string(), what: z.string() })),
    current: z.unknown().optional().meta({ description: 'On a conflict: the record as it stands' }),
  })
  .meta({
    id: 'Problem',
    description: 'Problem details (RFC 9457)',
    examples: [
      {
        type: '/problems/invalid',
        title: 'Something in this does not fit',
        status: 422,
        detail: 'Give 1 or more.',
        errors: [{ where: 'massG', what: 'Give 1 or more.' }],
      },
    ],
  });

function describe(book: OpenAPIHono, spec: RouteInfo): void {
  const json = (schema: z.ZodType, side: 'body' | 'answer') => ({
    'application/json': { schema, example: exampleOf(spec, side, schema) },
  });
  const names: ProblemName[] = [
    ...(spec.needs === 'anyone' ? [] : (['not-signed-in', 'not-allowed'] as const)),
    ...(spec.params ? (['not-found'] as const) : []),
    ...(spec.body || spec.query ? (['invalid'] as const) : []),
    ...(spec.body ? (['not-json', 'too-large', 'wrong-content-type'] as const) : []),
    ...(spec.problems ?? []),
  ];
  const refusals = new Map<number, string[]>();
  for (const name of names) refusals.set(PROBLEM_STATUS[name], [...(refusals.get(PROBLEM_STATUS[name]) ?? []), name]);
  const problem = { 'application/problem+json': { schema: problemSchema } };
  book.openAPIRegistry.registerPath({
    method: spec.method,
    path: spec.path,
    summary: spec.summary,
    description: NEEDS_TEXT[spec.needs],
    request: {
      ...(spec.params ? { params: spec.params } : {}),
      ...(spec.query ? { query: spec.query } : {}),
      ...(spec.body ? { body: { content: json(spec.body, 'body'), required: true } } : {}),
    },
    responses: {
      ...(spec.file
        ? { 200: { description: 'The file', content: { [spec.file]: { schema: FILE } } } }
        : spec.answer
          ? { 200: { description: 'Done', content: json(spec.answer, 'answer') } }
          : { 204: { description: 'Done; nothing to say' } }),
      ...Object.fromEntries(
        [...refusals].map(([status, types]) => [status, { description: types.join(', '), content: problem }]),
      ),
    },
  });
}

const FILE = z.string().meta({ description: 'The bytes of the file', format: 'binary' });

const NEEDS_TEXT: Record<RouteInfo['needs'], string> = {
  anyone: 'Open to anyone who reaches the server.',
  reader: 'For readers, keepers and tutors of the group.',
  keeper: 'For keepers and tutors; a keeper reaches their own animals only.',
  tutor: 'For tutors.',
};

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Validator } from '@seriousme/openapi-schema-validator';
import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { describedApi, describedRoutes, openApiText } from '../../src/server/openapi.ts';

const api = describedApi();
const text = openApiText();
// biome-ignore lint/suspicious/noExplicitAny: a document of every shape
const document = JSON.parse(text) as any;

describe('the OpenAPI document', () => {
  it('is sound by the published schema of OpenAPI 3.1, as a validator from outside the project finds', async () => {
    const validator = new Validator();
    expect((await validator.validate(structuredClone(document))).errors).toBeUndefined();
    const spoilt = structuredClone(document);
    spoilt.paths['/api/v1/group'].get.responses = 'none';
    expect((await new Validator().validate(spoilt)).valid).toBe(false);
  });

  it('lies in docs/ as the server hands it out; “node tools/openapi.mjs” writes it anew', () => {
    expect(readFileSync(join('docs', 'openapi.json'), 'utf8')).toBe(text);
  });

  it('describes every route, each with its refusals as problem details', () => {
    const listed = Object.entries(document.paths).flatMap(([path, item]) =>
      Object.keys(item as object).map((method) => `${method} ${path}`),
    );
    expect(listed.sort()).toEqual(api.described.map((route) => `${route.method} ${route.path}`).sort());
  });

  it('shows an example of whatever a route takes and gives, and each passes the check the server makes', () => {
    let examples = 0;
    const missing: string[] = [];
    for (const definition of describedRoutes(api).openAPIRegistry.definitions) {
      if (definition.type !== 'route') continue;
      const { method, path, request, responses } = definition.route;
      const answer = responses[200] as { content?: Content } | undefined;
      const parts = { body: request?.body?.content as Content | undefined, answer: answer?.content };
      for (const [side, content] of Object.entries(parts)) {
        const json = content?.['application/json'];
        if (!json) continue;
        if (json.example === undefined) {
          missing.push(`${method} ${path} ${side}`);
          continue;
        }
        const result = json.schema.safeParse(json.example);
        expect(result.error?.issues, `${method} ${path} ${side}`).toBeUndefined();
        examples += 1;
      }
    }
    expect(missing).toEqual([]);
    expect(examples).toBeGreaterThan(api.described.length);
  });
});

type Content = Record<string, { schema: z.ZodType; example?: unknown }>;

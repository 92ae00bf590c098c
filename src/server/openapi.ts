import { type Api, createApi } from './api.ts';
import type { ServerContext } from './context.ts';
import { allRoutes } from './routes/all.ts';

/** The OpenAPI document, made from the schemas that check what comes in. */
export function openApiDocument(api: Api): object {
  return api.getOpenAPI31Document({
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

/** The routes without a server behind them: for their description only. */
export function describedApi(): Api {
  const api = createApi();
  // Nothing is asked of the records while routes are only described.
  allRoutes(api, { nowMs: () => 0, dataFolder: '' } as unknown as ServerContext);
  return api;
}

/** The document as it lies in docs/openapi.json. */
export const openApiText = (): string => `${JSON.stringify(openApiDocument(describedApi()), null, 1)}\n`;

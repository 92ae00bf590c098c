import type { Api } from './api.ts';

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

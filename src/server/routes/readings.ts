import { Readable } from 'node:stream';
import { z } from 'zod';
import { MOST_BUCKETS, readingChart } from '../../records/charts.ts';
import { read } from '../../records/entries.ts';
import { PROBE } from '../../records/kinds.ts';
import { MOST_SINGLE, readingsFile, singleReadings } from '../../records/reading-list.ts';
import { appendMaxMin, appendReadings, correctReading } from '../../records/readings.ts';
import { idSchema, instantSchema, lineSchema } from '../../schema/common.ts';
import { chartSchema, maxMinSchema, readingSchema, singleReadingSchema } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

const MOST_IN_BATCH = 20_000;
const BATCH_BYTES = 8_000_000;
const storedSchema = z
  .strictObject({ stored: z.int(), alreadyThere: z.int() })
  .meta({ id: 'Stored', description: 'How many were new and how many were there already' });

const MOST_IN_FILE = 50;
const spanSchema = z.object({ from: instantSchema, to: instantSchema });

function spanOf(query: z.infer<typeof spanSchema>): [number, number] {
  const [fromMs, toMs] = [Date.parse(query.from), Date.parse(query.to)];
  const what = say('schema.rule.toBeforeFrom');
  if (!(fromMs < toMs)) throw new Refusal('invalid', what, [{ where: 'to', what }]);
  return [fromMs, toMs];
}

/** Readings in as batches, out as charts, one by one and as a file. */
export function readingRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/readings/single',
      needs: 'reader',
      summary: `Readings of one probe one by one with their corrections, the first ${MOST_SINGLE} of the range`,
      query: z.object({ probeId: idSchema, ...spanSchema.shape }),
      answer: z.array(singleReadingSchema),
      problems: ['not-found'],
    },
    async ({ query, scope }) => {
      await read(database, scope, PROBE, query.probeId);
      return singleReadings(database, query.probeId, ...spanOf(query));
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/readings/file',
      needs: 'reader',
      summary: 'Readings of some probes as a CSV file; probeIds are parted by commas',
      query: z.object({
        probeIds: z
          .string()
          .transform((text) => text.split(','))
          .pipe(z.array(idSchema).min(1).max(MOST_IN_FILE)),
        ...spanSchema.shape,
      }),
      problems: ['not-found'],
    },
    async ({ query, scope }) => {
      const [fromMs, toMs] = spanOf(query);
      const probes = await Promise.all(query.probeIds.map((id) => read(database, scope, PROBE, id)));
      const pages = readingsFile(database, probes, fromMs, toMs);
      const bytes = Readable.toWeb(Readable.from(pages, { objectMode: false }));
      return new Response(bytes as unknown as ReadableStream, {
        headers: {
          'content-type': 'text/csv; charset=utf-8',
          'content-disposition': 'attachment; filename="readings.csv"',
          'cache-control': 'no-store',
        },
      });
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/readings',
      needs: 'reader',
      summary: 'Readings of one probe as minimum, mean and maximum per stretch',
      query: z.object({
        probeId: idSchema,
        from: instantSchema,
        to: instantSchema,
        buckets: z.coerce.number().int().min(1).max(MOST_BUCKETS).default(MOST_BUCKETS),
      }),
      answer: chartSchema,
      problems: ['not-found'],
    },
    async ({ query, scope }) => {
      await read(database, scope, PROBE, query.probeId);
      return readingChart(database, query.probeId, ...spanOf(query), query.buckets);
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/readings',
      needs: 'keeper',
      summary: 'Store readings, each once; all or none',
      body: z.array(readingSchema).min(1).max(MOST_IN_BATCH),
      limit: BATCH_BYTES,
      answer: storedSchema,
    },
    ({ body, scope }) => appendReadings(database, scope, body),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/readings/max-min',
      needs: 'keeper',
      summary: 'Store what maximum-minimum thermometers said; all or none',
      body: z.array(maxMinSchema).min(1).max(2000),
      answer: storedSchema,
    },
    ({ body, scope }) => appendMaxMin(database, scope, body),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/readings/corrections',
      needs: 'keeper',
      summary: 'Correct or exclude one reading; the reading itself stays as it came',
      body: z
        .strictObject({ reading: readingSchema, reason: lineSchema(400) })
        .meta({ id: 'ReadingCorrection', description: 'What counts instead of a reading, and why' }),
      problems: ['not-found'],
    },
    async ({ body, scope }) => correctReading(database, scope, body.reading, body.reason),
  );
}

import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { chartOf } from '../../intake/csv/chart.ts';
import type { ImportedFile } from '../../intake/csv/import.ts';
import { csvCell } from '../../records/csv-cells.ts';
import { RecordProblem } from '../../records/problem.ts';
import { idSchema } from '../../schema/common.ts';
import { importPreviewSchema, importReadSchema, importSaveSchema, importStateSchema } from '../../schema/import.ts';
import { say } from '../../wording/say.ts';
import { type Api, type Asked, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';
import { type Upload, Uploads } from '../uploads.ts';

// The reading of files is loaded with the first file.
const reading = {
  bytes: () => import('../../intake/csv/file-bytes.ts'),
  file: () => import('../../intake/csv/import.ts'),
  table: () => import('../../intake/csv/read-table.ts'),
  save: () => import('../../intake/csv/save.ts'),
};

const ONE = '/api/v1/imports/{id}';
const TYPES = ['text/csv', 'application/octet-stream'];

/** Logger files: sent as they are, looked at as often as needed, saved once. */
export function importRoutes(api: Api, context: ServerContext): void {
  const { database, nowMs } = context;
  const uploads = new Uploads(join(context.dataFolder, 'uploads'), nowMs);
  const params = z.object({ id: idSchema });
  type Who = Asked<unknown, unknown, unknown>['who'];
  const owner = (who: Who) => `${who.group.id} ${who.person?.id ?? ''}`;
  const told = ({ id, bytes, state, done, all, saved, problem }: Upload) => ({
    id,
    bytes,
    state,
    done,
    all,
    ...(saved ? { saved } : {}),
    ...(problem === undefined ? {} : { problem }),
  });
  const ready = (upload: Upload): Upload => {
    if (upload.state === 'uploaded' || upload.state === 'failed') return upload;
    throw new Refusal('invalid', say('server.imports.busy'));
  };
  const readAs = async (upload: Upload, asked: z.infer<typeof importReadSchema>, who: Who): Promise<ImportedFile> => {
    upload.choices = asked.choices ?? {};
    const { fileBytes } = await reading.bytes();
    const { importFile } = await reading.file();
    try {
      return await importFile(fileBytes(upload.path), {
        zone: who.group.zone,
        nowMs: nowMs(),
        probeName: asked.probeName ?? say('server.imports.probe'),
        choices: upload.choices,
      });
    } catch (error) {
      if (!(error instanceof (await reading.table()).NotATableError)) throw error;
      const what = say(error.problem);
      throw new Refusal('invalid', what, [{ where: 'file', what }]);
    }
  };

  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/imports',
      needs: 'keeper',
      summary: 'Send a logger’s file as it is (at most 200 MB); nothing is saved yet',
      query: z.object({ id: idSchema }),
      answer: importStateSchema,
      problems: ['too-large', 'too-many', 'wrong-content-type', 'id-in-use'],
    },
    async ({ query, who, http }) => {
      const type = (http.req.header('content-type') ?? '').split(';')[0]!.trim();
      if (!TYPES.includes(type))
        throw new Refusal('wrong-content-type', say('server.problem.wrong-content-type', { type: TYPES.join(', ') }));
      return told(await uploads.take(http, query.id, owner(who)));
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: ONE,
      needs: 'keeper',
      summary: 'How far an uploaded file is',
      params,
      answer: importStateSchema,
    },
    async ({ params, who }) => told(uploads.find(params.id, owner(who))),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${ONE}/preview`,
      needs: 'keeper',
      summary: 'What an uploaded file holds when it is read this way; nothing is saved',
      params,
      body: importReadSchema,
      answer: importPreviewSchema,
    },
    async ({ params, body, who }) => {
      const file = await readAs(ready(uploads.find(params.id, owner(who))), body, who);
      return { ...file.preview, chart: chartOf(file) };
    },
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: `${ONE}/rejected`,
      needs: 'keeper',
      summary: 'The rejected rows with their reasons as CSV, read as at the last preview; the first 10,000',
      params,
    },
    async ({ params, who, http }) => {
      const upload = ready(uploads.find(params.id, owner(who)));
      const { rejections } = await readAs(upload, { choices: upload.choices }, who);
      const lines = rejections.map((one) => [one.line, one.text, say(one.reason)].map(csvCell).join(','));
      return http.body(`\ufeffline,text,reason\r\n${lines.map((line) => `${line}\r\n`).join('')}`, 200, {
        'content-type': 'text/csv; charset=utf-8',
        'content-disposition': 'attachment; filename="rejected-rows.csv"',
      });
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: `${ONE}/save`,
      needs: 'keeper',
      summary: 'Save the readings of an uploaded file, each once, all or none; ask for its state to see how far it is',
      params,
      body: importSaveSchema,
      answer: importStateSchema,
    },
    async ({ params, body, who, scope }) => {
      const upload = ready(uploads.find(params.id, owner(who)));
      upload.state = 'saving';
      upload.done = 0;
      delete upload.problem;
      const save = async () => {
        const file = await readAs(upload, body, who);
        upload.all = file.preview.ready;
        upload.saved = await (await reading.save()).saveImported(database, scope, file, {
          ...(body.probes ? { probes: body.probes } : {}),
          ...(body.newNames ? { newNames: body.newNames } : {}),
          progress: (done) => {
            upload.done = done;
            upload.touchedMs = nowMs();
          },
        });
        await rm(upload.path, { force: true });
        upload.state = 'saved';
      };
      save().catch((error: unknown) => {
        upload.state = 'failed';
        const ours = error instanceof RecordProblem || error instanceof Refusal;
        const problems = error instanceof RecordProblem ? error.problems : error instanceof Refusal ? error.errors : [];
        upload.problem = ours
          ? [...new Set([error.message, ...problems.map((one) => one.what)])].join(' ')
          : say('server.imports.failed');
      });
      return told(upload);
    },
  );
  route(
    api,
    context,
    { method: 'delete', path: ONE, needs: 'keeper', summary: 'Throw an uploaded file away', params },
    async ({ params, who }) => uploads.drop(ready(uploads.find(params.id, owner(who)))),
  );
}

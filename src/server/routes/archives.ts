import { createReadStream } from 'node:fs';
import { mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { archiveContents } from '../../records/archive-contents.ts';
import { backupFolder, listBackups, makeBackup } from '../../records/backup.ts';
import { read } from '../../records/entries.ts';
import { exportToFile } from '../../records/export-file.ts';
import { importExport } from '../../records/import.ts';
import { ANIMAL } from '../../records/kinds.ts';
import { archiveContentsSchema, archiveTakenSchema, backupsSchema } from '../../schema/archive.ts';
import { idSchema } from '../../schema/common.ts';
import { say } from '../../wording/say.ts';
import { type Api, type Asked, route } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { dispositionOf } from '../file-answer.ts';
import { Refusal } from '../problem-answers.ts';
import { Uploads } from '../uploads.ts';

const ZIP = 'application/zip';
/** Read whole into memory beside the watch; larger archives are taken in by the command, with the server stopped. */
const MOST_ARCHIVE_BYTES = 50_000_000;

/** Records to take along: an archive of everything or of one animal out and in again, and the backups beside the records. */
export function archiveRoutes(api: Api, context: ServerContext): void {
  const { database, dataFolder, nowMs } = context;
  const uploads = new Uploads(join(dataFolder, 'archives'), nowMs);
  type Who = Asked<unknown, unknown, unknown>['who'];
  const owner = (who: Who) => `${who.group.id} ${who.person?.id ?? ''}`;
  const one = z.object({ id: idSchema });

  const archive = async (groupId: string, name: string, animalId?: string): Promise<Response> => {
    const folder = join(dataFolder, 'archives');
    await mkdir(folder, { recursive: true, mode: 0o700 });
    const file = join(folder, `${uuidv7()}.zip`);
    await exportToFile(database, { groupId, nowMs: nowMs(), ...(animalId === undefined ? {} : { animalId }) }, file);
    const stream = createReadStream(file);
    // Sent or broken off: either way the copy does not stay behind.
    stream.once('close', () => void rm(file, { force: true }));
    return new Response(Readable.toWeb(stream) as unknown as BodyInit, {
      headers: {
        'content-type': ZIP,
        'cache-control': 'no-store',
        'content-disposition': dispositionOf(name, 'zip', 'attachment'),
      },
    });
  };

  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/archive',
      needs: 'tutor',
      summary: 'Everything the group has recorded, as a zip of JSON and CSV with its schema',
      file: ZIP,
    },
    ({ who }) => archive(who.group.id, who.group.name),
  );
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/animals/{id}/archive',
      needs: 'keeper',
      summary: 'One animal’s whole history, to hand to another keeper',
      params: one,
      file: ZIP,
    },
    async ({ params: { id }, who, scope }) => {
      const animal = await read(database, scope, ANIMAL, id);
      return archive(who.group.id, animal.name, id);
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/archives',
      needs: 'tutor',
      summary: 'Send an archive (at most 50 MB) and hear what it holds; nothing is taken in yet',
      query: z.object({ id: idSchema }),
      answer: archiveContentsSchema,
      problems: ['too-large', 'too-many', 'wrong-content-type', 'id-in-use', 'database-newer'],
    },
    async ({ query, who, http }) => {
      const type = (http.req.header('content-type') ?? '').split(';')[0]!.trim();
      if (type !== ZIP)
        throw new Refusal('wrong-content-type', say('server.problem.wrong-content-type', { type: ZIP }));
      const upload = await uploads.take(http, query.id, owner(who), MOST_ARCHIVE_BYTES);
      try {
        const contents = await archiveContents(database, await readFile(upload.path), who.group.id);
        return { id: upload.id, bytes: upload.bytes, ...contents };
      } catch (error) {
        await uploads.drop(upload);
        throw error;
      }
    },
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/archives/{id}/take-in',
      needs: 'tutor',
      summary: 'Take an archive in, each record and reading once; what is here already stays as it is',
      params: one,
      answer: archiveTakenSchema,
    },
    async ({ params: { id }, who }) => {
      const upload = uploads.find(id, owner(who));
      const into = { intoGroupId: who.group.id, nowMs: nowMs() };
      const counts = await importExport(database, await readFile(upload.path), into);
      await uploads.drop(upload);
      const sum = (of: (count: (typeof counts)[number]) => number) => counts.reduce((all, count) => all + of(count), 0);
      return {
        records: sum((count) => (count.part.startsWith('readings/') ? 0 : count.taken)),
        readings: sum((count) => (count.part.startsWith('readings/') ? count.taken : 0)),
        differing: sum((count) => count.differing),
      };
    },
  );
  route(
    api,
    context,
    {
      method: 'delete',
      path: '/api/v1/archives/{id}',
      needs: 'tutor',
      summary: 'Throw a sent archive away',
      params: one,
    },
    ({ params: { id }, who }) => uploads.drop(uploads.find(id, owner(who))),
  );
  const backups = () => ({
    ownTools: !database.sqlite,
    backups: database.sqlite
      ? listBackups(backupFolder(dataFolder)).map(({ madeAtMs, bytes }) => ({
          madeAt: new Date(madeAtMs).toISOString(),
          bytes,
        }))
      : [],
  });
  route(
    api,
    context,
    {
      method: 'get',
      path: '/api/v1/backups',
      needs: 'tutor',
      summary: 'The backups beside the records, newest first',
      answer: backupsSchema,
    },
    async () => backups(),
  );
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/backups',
      needs: 'tutor',
      summary: 'Make a backup now, checked when it is made',
      answer: backupsSchema,
      problems: ['database-damaged', 'disk-full'],
    },
    async () => {
      await makeBackup(database, backupFolder(dataFolder), nowMs());
      return backups();
    },
  );
}

import { createWriteStream, rmSync } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { Context } from 'hono';
import type { ImportChoices, SavedImport } from '../schema/import.ts';
import { say } from '../wording/say.ts';
import { Refusal } from './problem-answers.ts';

/** Largest file that is taken. */
const MOST_UPLOAD_BYTES = 200_000_000;
/** An upload that nobody asked about for this long is thrown away. */
const ABANDONED_MS = 3_600_000;
/** Uploads kept at the same time on one server; together they bound the disk they take. */
const MOST_UPLOADS = 5;

export interface Upload {
  readonly id: string;
  readonly owner: string;
  readonly path: string;
  bytes: number;
  touchedMs: number;
  /** How the file was last read. */
  choices: ImportChoices;
  state: 'arriving' | 'uploaded' | 'saving' | 'saved' | 'failed';
  done: number;
  all: number;
  saved?: SavedImport;
  problem?: string;
}

/** Files on their way in: on the disk, never whole in memory; gone when saved, discarded, abandoned, or when the server starts anew. */
export class Uploads {
  private readonly folder: string;
  private readonly nowMs: () => number;
  private readonly kept = new Map<string, Upload>();

  constructor(folder: string, nowMs: () => number) {
    this.folder = folder;
    this.nowMs = nowMs;
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Writes a body to the disk, counting as it comes. Throws Refusal `too-large`, `too-many`, `id-in-use`. */
  async take(http: Context, id: string, owner: string, limit = MOST_UPLOAD_BYTES): Promise<Upload> {
    await this.clean();
    if (this.kept.has(id)) throw new Refusal('id-in-use', say('records.idInUse'));
    if (this.kept.size >= MOST_UPLOADS) throw new Refusal('too-many', say('server.imports.too-many'), [], 60);
    if (Number(http.req.header('content-length') ?? 0) > limit) throw new Refusal('too-large');
    const path = join(this.folder, `${id}.upload`);
    const upload: Upload = {
      id,
      owner,
      path,
      bytes: 0,
      touchedMs: this.nowMs(),
      choices: {},
      state: 'arriving',
      done: 0,
      all: 0,
    };
    this.kept.set(id, upload);
    try {
      await mkdir(this.folder, { recursive: true, mode: 0o700 });
      const body = http.req.raw.body;
      const counted = async function* (pieces: AsyncIterable<Uint8Array>) {
        for await (const piece of pieces) {
          upload.bytes += piece.byteLength;
          if (upload.bytes > limit) throw new Refusal('too-large');
          yield piece;
        }
      };
      const from = body ? Readable.fromWeb(body as never) : Readable.from([]);
      await pipeline(from, counted, createWriteStream(path, { mode: 0o600 }));
      const told = http.req.header('content-length');
      if (told !== undefined && Number(told) !== upload.bytes)
        throw new Refusal('invalid', say('server.imports.cut-short'));
    } catch (error) {
      await this.drop(upload);
      throw error;
    }
    upload.state = 'uploaded';
    return upload;
  }

  /** One upload of this owner. Throws Refusal `not-found`. */
  find(id: string, owner: string): Upload {
    const upload = this.kept.get(id);
    if (!upload || upload.owner !== owner) throw new Refusal('not-found', say('server.imports.gone'));
    upload.touchedMs = this.nowMs();
    return upload;
  }

  async drop(upload: Upload): Promise<void> {
    this.kept.delete(upload.id);
    await rm(upload.path, { force: true });
  }

  private async clean(): Promise<void> {
    for (const upload of this.kept.values()) {
      const busy = upload.state === 'arriving' || upload.state === 'saving';
      const finished = upload.state === 'saved' && this.kept.size >= MOST_UPLOADS;
      if (finished || (!busy && this.nowMs() - upload.touchedMs > ABANDONED_MS)) await this.drop(upload);
    }
  }
}

import type { Context } from 'hono';
import { say } from '../wording/say.ts';
import { Refusal } from './problem-answers.ts';

const DEFAULT_LIMIT = 1_000_000;

/** The bytes of a body, counted as they come: a length that was promised is not believed. */
export async function bytesBody(http: Context, limit = DEFAULT_LIMIT): Promise<Buffer> {
  if (Number(http.req.header('content-length') ?? 0) > limit) throw new Refusal('too-large');
  const stream = http.req.raw.body;
  if (!stream) return Buffer.alloc(0);
  const pieces: Uint8Array[] = [];
  let size = 0;
  const reader = stream.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.byteLength;
    if (size > limit) {
      await reader.cancel();
      throw new Refusal('too-large');
    }
    pieces.push(value);
  }
  return Buffer.concat(pieces);
}

/** The JSON of a body. Only `application/json` is taken: a form of another page cannot send that without being asked first. */
export async function jsonBody(http: Context, limit = DEFAULT_LIMIT): Promise<unknown> {
  const type = (http.req.header('content-type') ?? '').split(';')[0]!.trim().toLowerCase();
  if (type !== 'application/json')
    throw new Refusal('wrong-content-type', say('server.problem.wrong-content-type', { type: 'application/json' }));
  const bytes = await bytesBody(http, limit);
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    throw new Refusal('not-json');
  }
}

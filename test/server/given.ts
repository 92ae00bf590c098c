import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Database } from '../../src/records/database.ts';
import type { Api } from '../../src/server/api.ts';
import { createApp } from '../../src/server/app.ts';
import { NOW_MS } from '../records/given.ts';

export interface Answer {
  readonly status: number;
  // biome-ignore lint/suspicious/noExplicitAny: tests read answers of every shape
  readonly body: any;
  readonly headers: Headers;
}

/** A server without a socket: requests seem to come from this machine. */
export function testApp(database: Database, nowMs: () => number = () => NOW_MS) {
  const api: Api = createApp({
    context: { database, nowMs, dataFolder: join(tmpdir(), 'stillwinter-tests') },
    webFolder: '/nowhere',
    onFault: (error) => {
      throw error;
    },
  });
  const ask = async (
    method: string,
    path: string,
    body?: unknown,
    headers: Record<string, string> = {},
  ): Promise<Answer> => {
    const response = await api.request(path.startsWith('/') ? path : `/api/v1/${path}`, {
      method,
      headers: { host: 'localhost', ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    });
    const text = await response.text();
    const json = /json/.test(response.headers.get('content-type') ?? '');
    return { status: response.status, body: json ? JSON.parse(text) : text, headers: response.headers };
  };
  return { api, ask };
}

/** The session cookie an answer sets, to be sent back. */
export const cookieOf = (answer: Answer): Record<string, string> => ({
  cookie: (answer.headers.get('set-cookie') ?? '').split(';')[0]!,
});

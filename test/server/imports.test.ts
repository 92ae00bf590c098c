import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Database } from '../../src/records/database.ts';
import { createApp } from '../../src/server/app.ts';
import { id, NOW_MS, smallGroup } from '../records/given.ts';
import { freshDatabase } from '../records/stores.ts';

const text = 'Time;Box;Outdoors\n2026-12-01 00:00;4,8;1,2\n2026-12-01 01:00;-127;1,0\n2026-12-01 02:00;4,6;=2+3\n';

describe('a logger’s file sent to the server', () => {
  let database: Database;
  let folder: string;
  let now = NOW_MS;
  let api: ReturnType<typeof createApp>;
  beforeEach(async () => {
    now = NOW_MS;
    database = await freshDatabase('sqlite');
    await smallGroup(database);
    folder = mkdtempSync(join(tmpdir(), 'stillwinter-'));
    api = createApp({ context: { database, nowMs: () => now, dataFolder: folder }, webFolder: '/nowhere' });
  });
  afterEach(async () => {
    await database.close();
    rmSync(folder, { recursive: true });
  });
  const ask = async (method: string, path: string, body?: BodyInit | object, headers: Record<string, string> = {}) => {
    const raw = typeof body === 'string' || body instanceof ReadableStream;
    const answer = await api.request(`/api/v1/${path}`, {
      method,
      headers: { host: 'localhost', 'content-type': raw ? 'text/csv' : 'application/json', ...headers },
      ...(body === undefined ? {} : { body: raw ? (body as BodyInit) : JSON.stringify(body), duplex: 'half' }),
    } as RequestInit);
    const said = await answer.text();
    const json = /json/.test(answer.headers.get('content-type') ?? '');
    // biome-ignore lint/suspicious/noExplicitAny: answers of every shape
    return { status: answer.status, body: (json ? JSON.parse(said) : said) as any };
  };
  const settled = async (one: string) => {
    for (;;) {
      const { body } = await ask('GET', `imports/${one}`);
      if (body.state !== 'saving') return body;
      await new Promise((later) => setTimeout(later, 5));
    }
  };

  it('is previewed, its rejected rows are fetched, and it is saved once', async () => {
    expect((await ask('POST', `imports?id=${id(20)}`, text)).body).toMatchObject({
      state: 'uploaded',
      bytes: text.length,
    });
    const preview = await ask('POST', `imports/${id(20)}/preview`, {});
    expect(preview.body).toMatchObject({ ready: 4, rejected: 2, questions: [] });
    const rejected = await ask('GET', `imports/${id(20)}/rejected`);
    expect(rejected.body).toMatch(/^.?line,text,reason\r\n/);
    expect(rejected.body).toMatch(/\r\n3,"","−127/);
    await ask('POST', `imports/${id(20)}/save`, { probes: { Outdoors: id(3) } });
    const done = await settled(id(20));
    expect(done).toMatchObject({ state: 'saved', all: 4, done: 4, saved: { stored: 4 } });
    expect(readdirSync(join(folder, 'uploads'))).toEqual([]);
    expect((await ask('POST', `imports/${id(20)}/save`, {})).status).toBe(422);
    await ask('POST', `imports?id=${id(21)}`, text);
    await ask('POST', `imports/${id(21)}/save`, {});
    expect((await settled(id(21))).saved).toMatchObject({ stored: 0, alreadyThere: 4 });
  });

  it('with an open question nothing is saved and the question is told; with the answer it is saved', async () => {
    await ask('POST', `imports?id=${id(20)}`, 'Date,Temp C\n03/04/2026 01:00,5.1\n03/04/2026 02:00,5.0\n');
    await ask('POST', `imports/${id(20)}/save`, {});
    expect(await settled(id(20))).toMatchObject({ state: 'failed', problem: expect.stringContaining('day') });
    await ask('POST', `imports/${id(20)}/save`, { choices: { dateOrder: 'dmy' }, probeName: 'Lid' });
    expect((await settled(id(20))).saved).toMatchObject({ stored: 2, probes: [{ name: 'Lid' }] });
  });

  it('more than is allowed, a cut connection, a wrong type and a page that is no table are refused and leave no file', async () => {
    const endless = new ReadableStream({ pull: (out) => out.enqueue(new Uint8Array(4_000_000)) });
    expect((await ask('POST', `imports?id=${id(20)}`, endless)).status).toBe(413);
    expect((await ask('POST', `imports?id=${id(21)}`, text, { 'content-length': '5000' })).status).toBe(422);
    expect((await ask('POST', `imports?id=${id(22)}`, text, { 'content-type': 'text/html' })).status).toBe(415);
    expect(existsSync(join(folder, 'uploads')) ? readdirSync(join(folder, 'uploads')) : []).toEqual([]);
    await ask('POST', `imports?id=${id(23)}`, '<!doctype html><p>hello');
    const answer = await ask('POST', `imports/${id(23)}/preview`, {});
    expect(answer.body).toMatchObject({ status: 422, errors: [{ where: 'file' }] });
    expect((await ask('DELETE', `imports/${id(23)}`)).status).toBe(204);
    expect(readdirSync(join(folder, 'uploads'))).toEqual([]);
  });

  it('an abandoned upload is thrown away when another comes, and none survives a new start', async () => {
    await ask('POST', `imports?id=${id(20)}`, text);
    now += 3_700_000;
    await ask('POST', `imports?id=${id(21)}`, text);
    expect((await ask('GET', `imports/${id(20)}`)).status).toBe(404);
    expect(readdirSync(join(folder, 'uploads'))).toHaveLength(1);
    createApp({ context: { database, nowMs: () => now, dataFolder: folder }, webFolder: '/nowhere' });
    expect(existsSync(join(folder, 'uploads'))).toBe(false);
  });
});

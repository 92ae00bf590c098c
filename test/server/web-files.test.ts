import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { brotliCompressSync, brotliDecompressSync, gzipSync } from 'node:zlib';
import { Hono } from 'hono';
import { afterAll, describe, expect, it } from 'vitest';
import { webFiles } from '../../src/server/web-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillwinter-web-'));
const page = '<!doctype html><p>The round</p>';
mkdirSync(join(folder, 'assets'));
for (const [name, text] of [
  ['index.html', page],
  ['assets/first-1a2b.js', 'export const winter = 1;'],
] as const) {
  writeFileSync(join(folder, name), text);
  writeFileSync(join(folder, `${name}.br`), brotliCompressSync(text));
  writeFileSync(join(folder, `${name}.gz`), gzipSync(text));
}
writeFileSync(join(folder, 'assets', 'letters.woff2'), 'letters');
const screens = webFiles(folder);
const app = new Hono().all('*', (http) => screens(http));
const get = (path: string, accept = '') => app.request(path, { headers: { 'accept-encoding': accept } });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the built screens', () => {
  it('are sent as the build packed them, the tightest that is understood', async () => {
    const tight = await get('/assets/first-1a2b.js', 'gzip, deflate, br');
    expect(tight.headers.get('content-encoding')).toBe('br');
    expect(brotliDecompressSync(Buffer.from(await tight.arrayBuffer())).toString()).toBe('export const winter = 1;');
    expect((await get('/assets/first-1a2b.js', 'gzip')).headers.get('content-encoding')).toBe('gzip');
    const plain = await get('/assets/first-1a2b.js');
    expect(plain.headers.get('content-encoding')).toBeNull();
    expect(await plain.text()).toBe('export const winter = 1;');
    for (const answer of [tight, plain]) expect(answer.headers.get('vary')).toBe('accept-encoding');
  });

  it('are kept for a year where the name holds a hash, and asked for again where it does not', async () => {
    expect((await get('/assets/first-1a2b.js', 'br')).headers.get('cache-control')).toBe(
      'public, max-age=31536000, immutable',
    );
    expect((await get('/', 'br')).headers.get('cache-control')).toBe('no-cache');
  });

  it('answer every address of theirs with the page, and serve neither packed files by name nor what is packed already', async () => {
    expect(await (await get('/animals/new')).text()).toBe(page);
    expect((await get('/index.html.br')).status).toBe(404);
    expect((await get('/assets/gone.js')).status).toBe(404);
    const letters = await get('/assets/letters.woff2', 'br');
    expect([letters.headers.get('content-encoding'), letters.headers.get('vary')]).toEqual([null, null]);
  });
});

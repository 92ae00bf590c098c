import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join, sep } from 'node:path';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';
import type { Context } from 'hono';
import { say } from '../wording/say.ts';

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};
const COMPRESSED = new Set(['.html', '.js', '.css', '.json', '.webmanifest', '.svg']);

interface WebFile {
  readonly bytes: Buffer;
  readonly type: string;
  readonly immutable: boolean;
  packed: Map<string, Buffer>;
}

/**
 * The built screens, read once. Only files that were there at the start are ever served, by exact name, so no path can climb out of
 * the folder. Every other address below is the app's own and gets its first page.
 */
export function webFiles(folder: string): (http: Context) => Response {
  const files = new Map<string, WebFile>();
  if (existsSync(folder))
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
      if (!entry.isFile()) continue;
      const path = join(entry.parentPath, entry.name);
      const name = path.slice(folder.length).split(sep).join('/').replace(/^\/?/, '/');
      const type = TYPES[extname(name)];
      if (!type) continue;
      files.set(name, { bytes: readFileSync(path), type, immutable: name.startsWith('/assets/'), packed: new Map() });
    }
  return (http) => {
    if (http.req.method !== 'GET' && http.req.method !== 'HEAD') return http.notFound() as Response;
    const exact = files.get(http.req.path);
    const looksLikeFile = /\.[a-z0-9]+$/i.test(http.req.path);
    const file = exact ?? (looksLikeFile ? undefined : files.get('/index.html'));
    if (!file) {
      if (files.size === 0 && !looksLikeFile) return http.text(say('server.web.missing'), 503);
      return http.notFound() as Response;
    }
    return answer(http, file, exact ? extname(http.req.path) : '.html');
  };
}

function answer(http: Context, file: WebFile, extension: string): Response {
  const headers: Record<string, string> = {
    'content-type': file.type,
    'cache-control': file.immutable ? 'public, max-age=31536000, immutable' : 'no-cache',
  };
  const wanted = http.req.header('accept-encoding') ?? '';
  const coding = COMPRESSED.has(extension)
    ? /\bbr\b/.test(wanted)
      ? 'br'
      : /\bgzip\b/.test(wanted)
        ? 'gzip'
        : ''
    : '';
  const bytes = coding === '' ? file.bytes : packed(file, coding);
  if (coding !== '') Object.assign(headers, { 'content-encoding': coding, vary: 'accept-encoding' });
  return new Response(http.req.method === 'HEAD' ? null : new Uint8Array(bytes), { headers });
}

function packed(file: WebFile, coding: 'br' | 'gzip'): Buffer {
  let bytes = file.packed.get(coding);
  if (!bytes) {
    bytes =
      coding === 'br'
        ? brotliCompressSync(file.bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 7 } })
        : gzipSync(file.bytes);
    file.packed.set(coding, bytes);
  }
  return bytes;
}

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join, sep } from 'node:path';
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
/** What the build packed once and for all, the tightest first. */
const CODINGS = [
  { coding: 'br', ending: '.br' },
  { coding: 'gzip', ending: '.gz' },
] as const;

interface WebFile {
  readonly bytes: Buffer;
  readonly type: string;
  readonly immutable: boolean;
  readonly packed: readonly { readonly coding: string; readonly bytes: Buffer }[];
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
      const packed = CODINGS.flatMap(({ coding, ending }) => {
        const beside = `${path}${ending}`;
        return existsSync(beside) ? [{ coding, bytes: readFileSync(beside) }] : [];
      });
      files.set(name, { bytes: readFileSync(path), type, immutable: name.startsWith('/assets/'), packed });
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
    return answer(http, file);
  };
}

function answer(http: Context, file: WebFile): Response {
  const headers: Record<string, string> = {
    'content-type': file.type,
    'cache-control': file.immutable ? 'public, max-age=31536000, immutable' : 'no-cache',
  };
  const wanted = http.req.header('accept-encoding') ?? '';
  const packed = file.packed.find(({ coding }) => new RegExp(`\\b${coding}\\b`).test(wanted));
  if (file.packed.length > 0) headers.vary = 'accept-encoding';
  if (packed) headers['content-encoding'] = packed.coding;
  return new Response(http.req.method === 'HEAD' ? null : new Uint8Array(packed?.bytes ?? file.bytes), { headers });
}

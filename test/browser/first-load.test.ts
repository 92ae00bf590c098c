import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';

const built = join(import.meta.dirname, '..', '..', 'dist', 'web');
const MOST_BYTES = 200_000;

describe('the first screen', () => {
  it('needs at most 200 KB of compressed script', () => {
    const page = readFileSync(join(built, 'index.html'), 'utf8');
    const scripts = [...page.matchAll(/(?:src|href)="(\/assets\/[^"]+\.js)"/g)].map((match) => match[1] as string);
    expect(scripts.length).toBeGreaterThan(0);
    const bytes = scripts.reduce((sum, path) => sum + gzipSync(readFileSync(join(built, path))).length, 0);
    expect(bytes).toBeLessThanOrEqual(MOST_BYTES);
  });

  it('has nothing inline that the content security policy would forbid', () => {
    const page = readFileSync(join(built, 'index.html'), 'utf8');
    expect(page).not.toMatch(/<script(?![^>]*\bsrc=)/);
    expect(page).not.toMatch(/<style|\sstyle=|\son[a-z]+=/);
    expect(page).not.toMatch(/https?:\/\//);
  });
});

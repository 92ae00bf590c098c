import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const knowledge = ['measure', 'wording', 'tortoise', 'physiology', 'air', 'weather', 'heat', 'winter', 'schema'];
const files = knowledge.flatMap((room) =>
  readdirSync(join('src', room), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join('src', room, name)),
);
const noComments = (text: string) => text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|[^:])\/\/.*$/gm, '$1');

describe('knowledge is pure', () => {
  it.each(files)('%s knows no clock and rolls no dice', (file) => {
    const code = noComments(readFileSync(file, 'utf8'));
    expect(code).not.toMatch(/Date\.now|new Date\(\s*\)|performance\.now|Math\.random|process\.|globalThis/);
  });

  it.each(files.filter((file) => !file.includes('/wording/')))('%s has no month name in its logic', (file) => {
    const code = noComments(readFileSync(file, 'utf8'));
    expect(code).not.toMatch(/\b(January|February|March|April|June|July|August|September|October|November|December)\b/);
  });
});

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';

vi.mock('#wording', async () => ({ english: (await import('../../src/wording/en/first.ts')).english }));

const folder = join(import.meta.dirname, '..', '..', 'src', 'web');
/** Every part of a screen; the beginnings of the page and of the workers need a browser. */
const parts = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
  (name) => /\.tsx?$/.test(name) && !/(^|\/)main\.tsx$|^early\.ts$|worker/.test(name),
);

/** A part and the rest of the words are fetched side by side: the part may be read first and must say nothing until it is drawn. */
describe('a part of a screen that arrives before the rest of the words', () => {
  it('is looked for in every folder', () => {
    expect(parts.length).toBeGreaterThan(120);
  });

  it.each(parts)('says nothing yet: %s', async (name) => {
    await expect(import(join(folder, name))).resolves.toBeDefined();
  });
});

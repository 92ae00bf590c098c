import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';
import { WATCH_RULES } from '../../src/winter/watch-rules.ts';
import { english as first } from '../../src/wording/en/first.ts';
import { english } from '../../src/wording/en/index.ts';
import { rest } from '../../src/wording/en/rest.ts';

const keys = Object.keys(english);
const stems = new Map<string, string[]>();
for (const key of keys) {
  const stem = key.replace(/_(one|other)$/, '');
  stems.set(stem, [...(stems.get(stem) ?? []), key]);
}
const textOf = (file: string) => readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');

/** Every file that the first screen fetches at once: what main.tsx reaches without `import()` and without types alone. */
function firstFiles(file: string, found = new Set<string>()): Set<string> {
  if (found.has(file)) return found;
  found.add(file);
  for (const match of textOf(file).matchAll(/^(?:import|export)(?! type)[^;]*?\bfrom '(\.[^']+)';/gm)) {
    const path = normalize(join(dirname(file), match[1] as string));
    if (/\.tsx?$/.test(path) && !path.includes('wording')) firstFiles(path, found);
  }
  return found;
}

/** The keys that a file may say: written out, or begun in a template whose end is worked out. */
function keysIn(file: string): string[] {
  const text = textOf(file);
  const written = [...text.matchAll(/'([a-z][\w.-]+)'/g)].flatMap((match) => stems.get(match[1] as string) ?? []);
  const begun = [...text.matchAll(/`([a-z][\w-]*\.[\w.-]*\.)\$\{/g)].map((match) => match[1] as string);
  return [...written, ...keys.filter((key) => begun.some((start) => key.startsWith(start)))];
}

describe('the words of the first screen', () => {
  const files = [...firstFiles('src/web/main.tsx')];

  it('are looked for in the round and the frame', () => {
    expect(files).toContain(join('src', 'web', 'round', 'round-line.tsx'));
    expect(files).toContain(join('src', 'web', 'app', 'shell.tsx'));
    expect(files.length).toBeLessThan(60);
  });

  it.each(files)('are all there for %s', (file) => {
    expect(keysIn(file).filter((key) => !(key in first))).toEqual([]);
  });

  it('cover what plans and watch have the round say', () => {
    const said = [
      ...keys.filter((key) => key.startsWith('winter.task.') || key.startsWith('winter.watch.')),
      ...WATCH_RULES.flatMap((rule) => stems.get(rule.say) ?? [rule.say]),
    ];
    expect(said.length).toBeGreaterThan(60);
    expect(said.filter((key) => !(key in first))).toEqual([]);
  });

  it('and those fetched later cover every other screen', () => {
    const screens = readdirSync('src/web', { recursive: true, encoding: 'utf8' }).filter((name) =>
      /\.tsx?$/.test(name),
    );
    const missing = screens.flatMap((name) =>
      keysIn(join('src', 'web', name)).filter((key) => !(key in first) && !(key in rest)),
    );
    expect(missing).toEqual([]);
  });
});

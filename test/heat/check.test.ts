import { describe, expect, it } from 'vitest';
import { checkBox, checkBoxInPlace, checkPlace } from '../../src/heat/check.ts';
import type { BoxDescription, ShellDescription } from '../../src/heat/description.ts';
import { materials } from '../../src/heat/materials.ts';
import { boxDescriptionSchema } from '../../src/schema/box.ts';
import { placeDescriptionSchema } from '../../src/schema/place.ts';
import { problemsOf } from '../../src/schema/problems.ts';
import { simulateExactSchema } from '../../src/schema/simulate.ts';
import { say } from '../../src/wording/say.ts';

const shell: ShellDescription = {
  insideLengthMm: 500,
  insideWidthMm: 350,
  insideHeightMm: 300,
  walls: [{ material: 'polystyrene', thicknessMm: 30 }],
};
const box = (change: Partial<BoxDescription> = {}): BoxDescription => ({ shells: [shell], ...change });
const keys = (one: BoxDescription) => checkBox(one).map((fault) => `${fault.path.join('.')} ${fault.message.key}`);
const wall = (thicknessMm: number, exact?: object) => ({
  shells: [{ ...shell, walls: [{ material: 'polystyrene' as const, thicknessMm, ...(exact ? { exact } : {}) }] }],
});

describe('boxes that cannot be', () => {
  it('lets an ordinary box pass', () => {
    expect(checkBox(box({ animal: { massG: 1200 }, ballast: [{ bottles: 5, litresEach: 1 }] }))).toEqual([]);
  });
  it.each<[string, BoxDescription, string]>([
    ['no shell', { shells: [] }, 'shells heat.check.noShell'],
    ['thickness 0', wall(0), 'shells.0.walls.0.thicknessMm heat.check.thickness'],
    ['thickness below 0', wall(-30), 'shells.0.walls.0.thicknessMm heat.check.thickness'],
    ['thickness in the wrong unit', wall(600), 'shells.0.walls.0.thicknessMm heat.check.tooThick'],
    [
      'a metal called polystyrene',
      wall(30, { conductivityWmK: 160 }),
      'shells.0.walls.0.exact.conductivityWmK heat.check.conductivity',
    ],
    [
      'conductivity a hundred times too small',
      wall(30, { conductivityWmK: 0.0004 }),
      'shells.0.walls.0.exact.conductivityWmK heat.check.conductivity',
    ],
    [
      'polystyrene as heavy as brick',
      wall(30, { densityKgM3: 1700 }),
      'shells.0.walls.0.exact.densityKgM3 heat.check.density',
    ],
    ['a size of nothing', { shells: [{ ...shell, insideWidthMm: 0 }] }, 'shells.0.insideWidthMm heat.check.size'],
    ['no walls', { shells: [{ ...shell, walls: [] }] }, 'shells.0.walls heat.check.noWall'],
    ['an inner box as large as the outer', { shells: [shell, shell] }, 'shells.1 heat.check.doesNotFit'],
    [
      'bottles in a box that is not there',
      box({ ballast: [{ bottles: 1, litresEach: 1, shell: 1 }] }),
      'ballast.0.shell heat.check.noSuchShell',
    ],
    ['more water than room', box({ ballast: [{ bottles: 50, litresEach: 1 }] }), 'ballast heat.check.bottlesDoNotFit'],
    [
      'bedding over the brim',
      box({ bedding: { material: 'straw', depthMm: 301 } }),
      'bedding.depthMm heat.check.beddingDeep',
    ],
    ['a giant', box({ animal: { massG: 90_000 } }), 'animal heat.check.animalDoesNotFit'],
  ])('%s', (_name, one, expected) => {
    expect(keys(one)).toContain(expected);
  });
  it('takes values that a data sheet could hold', () => {
    expect(checkBox(wall(30, { conductivityWmK: 0.031, densityKgM3: 25 }) as BoxDescription)).toEqual([]);
  });
  it('says which material the doubtful figure does not belong to', () => {
    const [fault] = checkBox(wall(30, { conductivityWmK: 160 }) as BoxDescription);
    expect(say(fault!.message)).toMatch(/polystyrene.*0\.033 to 0\.04.*160/);
  });
});

describe('places', () => {
  it('refuses sizes of nothing and more glass than wall', () => {
    expect(checkPlace({ kind: 'building', preset: 'timber-shed', lengthM: 0 })[0]!.message.key).toBe('heat.check.size');
    expect(
      checkPlace({ kind: 'building', preset: 'timber-shed', glazing: { kind: 'single', areaM2: 99 } })[0]!.path,
    ).toEqual(['glazing', 'areaM2']);
    expect(checkPlace({ kind: 'building', preset: 'cellar' })).toEqual([]);
    expect(checkPlace({ kind: 'readings' })).toEqual([]);
  });
  it('refuses a box larger than its place, on both sides of the limit', () => {
    const place = { kind: 'building', preset: 'timber-shed', lengthM: 1, widthM: 0.56, heightM: 1 } as const;
    expect(checkBoxInPlace(box(), place)).toEqual([]);
    expect(
      checkBoxInPlace({ shells: [{ ...shell, insideLengthMm: 520, insideWidthMm: 505 }] }, place)[0]!.message.key,
    ).toBe('heat.check.largerThanPlace');
  });
});

describe('schemas', () => {
  it('say where and what in plain words', () => {
    const parsed = boxDescriptionSchema.safeParse({
      shells: [{ ...shell, walls: [{ material: 'polystyrene', thicknessMm: 0 }] }],
    });
    expect(problemsOf(parsed.error!)[0]!.where).toBe('shells[0].walls[0].thicknessMm');
    const asked = boxDescriptionSchema.safeParse(wall(30, { conductivityWmK: 160 }));
    expect(problemsOf(asked.error!)[0]!.what).toMatch(/belongs to another material/);
  });
  it('take their own examples', () => {
    for (const schema of [boxDescriptionSchema, placeDescriptionSchema, simulateExactSchema])
      for (const example of (schema.meta()!.examples ?? []) as unknown[])
        expect(schema.safeParse(example).success).toBe(true);
  });
  it('refuse an unknown material and an unknown field', () => {
    expect(placeDescriptionSchema.safeParse({ kind: 'building', preset: 'igloo' }).success).toBe(false);
    expect(boxDescriptionSchema.safeParse({ shells: [shell], colour: 'red' }).success).toBe(false);
  });
  it('refuse an exact case in which nothing resists', () => {
    const parsed = simulateExactSchema.safeParse({
      shell: { areaM2: 1, layers: [], outsideResistanceM2KW: 0, insideResistanceM2KW: 0 },
      contents: [{ massKg: 1, specificHeatJkgK: 4190 }],
      heatW: 0,
      outside: { stepS: 3600, temperatureC: [1, 2] },
      initialC: 5,
    });
    expect(problemsOf(parsed.error!)[0]!.what).toMatch(/Nothing resists/);
  });
});

describe('table of materials', () => {
  it.each(Object.entries(materials))('%s has its word, its source, and a value inside its range', (id, row) => {
    expect(say(`heat.material.${id}` as never).length).toBeGreaterThan(2);
    expect(row.source.cite.length).toBeGreaterThan(5);
    const [low, high] = row.conductivityRangeWmK;
    expect(row.conductivityWmK).toBeGreaterThanOrEqual(low);
    expect(row.conductivityWmK).toBeLessThanOrEqual(high);
  });
});

import { describe, expect, it } from 'vitest';
import { checkSize } from '../../src/tortoise/size-check.ts';
import { say } from '../../src/wording/say.ts';

describe('mass and length that cannot be right', () => {
  it.each([
    ['nothing on the scale', 0, 150, 'massG', 'The scale was not read'],
    ['a negative mass', -5, 150, 'massG', 'The scale was not read'],
    ['no length', 650, 0, 'sclMm', 'not over the curve'],
    ['inches', 650, 5.9, 'sclMm', '5.9 in would be 150 mm'],
    ['centimetres', 650, 15, 'sclMm', '15.0 cm would be 150 mm'],
    ['kilograms', 1.24, 182, 'massG', '1.24 kg would be 1,240 g'],
    ['ounces', 43.7, 182, 'massG', '43.7 oz would be 1,239 g'],
    ['nine kilograms at six centimetres', 9000, 60, 'sclMm', 'No tortoise of 60'],
    ['a length beyond any tortoise', 900_000, 1600, 'sclMm', 'No tortoise has a straight carapace length'],
  ])('%s: refused with what to do', (_, massG, sclMm, where, words) => {
    const [problem] = checkSize(massG, sclMm);
    expect(problem).toMatchObject({ where, level: 'refuse' });
    expect(say(problem!.what).replaceAll('\u00a0', ' ')).toContain(words);
  });

  it.each([
    [0.121, undefined],
    [0.119, 'ask'],
    [0.061, 'ask'],
    [0.059, 'refuse'],
    [0.339, undefined],
    [0.341, 'ask'],
    [0.599, 'ask'],
    [0.601, 'refuse'],
  ])('ratio %f: %s', (ratio, level) => {
    expect(checkSize(ratio * 15 ** 3, 150)[0]?.level).toBe(level);
  });

  it.each([
    ['a hatchling', 12, 36],
    ['a steppe tortoise', 620, 142],
    ['a grown female', 1400, 190],
    ['a giant', 150_000, 1000],
    ['a pancake tortoise', 450, 150],
  ])('has nothing to ask about %s', (_, massG, sclMm) => {
    expect(checkSize(massG, sclMm)).toEqual([]);
  });
});

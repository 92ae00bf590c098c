import { describe, expect, it } from 'vitest';
import { errorAt, typedMass, typedNumber } from '../../src/web/parts/field.tsx';

describe('a number typed with cold fingers', () => {
  it.each([
    ['412', 412],
    ['41,5', 41.5],
    ['41.5 g', 41.5],
    ['1 240', 1240],
    ['−1.6', -1.6],
    ['-1,6 °C', -1.6],
    ['178mm', 178],
  ])('reads %s', (text, value) => expect(typedNumber(text)).toBe(value));

  it.each(['', 'n/a', 'about a kilo', '1,2,3', '12 stone', '--5'])('does not guess at %j', (text) =>
    expect(typedNumber(text)).toBeUndefined(),
  );
});

describe('a mass', () => {
  it.each([
    ['1,001', 1001],
    ['1,001 g', 1001],
    ['12,345.5', 12345.5],
    ['1,24', 1.24],
    ['41,5', 41.5],
    ['0,125', 0.125],
    ['1001', 1001],
  ])('%s as the screens write thousands is %f', (text, value) => expect(typedMass(text)).toBe(value));
});

describe('an error of the server', () => {
  it('finds its field, and the field that holds it', () => {
    const errors = [
      { where: 'vet.name', what: 'Too long.' },
      { where: 'massG', what: 'Too small.' },
    ];
    expect(errorAt(errors, 'vet')).toBe('Too long.');
    expect(errorAt(errors, 'massG')).toBe('Too small.');
    expect(errorAt(errors, 'mass')).toBeUndefined();
  });
});

import { describe, expect, it } from 'vitest';
import { figure, mass, percent, temperature } from '../../src/measure/figures.ts';

describe('figures as a keeper reads them', () => {
  it.each([
    [1204, 0, '1,204'],
    [-0.04, 1, '0.0'],
    [-1.25, 1, '\u22121.3'],
    [1234567.891, 2, '1,234,567.89'],
    [Number.NaN, 1, '\u2013'],
  ])('%d with %d digits reads %s', (value, digits, text) => expect(figure(value, digits)).toBe(text));

  it('puts a no-break space before the unit', () => {
    expect(temperature(4.94)).toBe('4.9\u00a0°C');
    expect(temperature(5, 'F')).toBe('41.0\u00a0°F');
    expect(mass(412)).toBe('412\u00a0g');
    expect(mass(24.13)).toBe('24.1\u00a0g');
    expect(percent(0.863)).toBe('86\u00a0%');
  });
});

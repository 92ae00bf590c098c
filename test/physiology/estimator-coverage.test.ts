import { describe, expect, it } from 'vitest';
import { coverage } from './support/coverage.ts';

// A small sample of what bench/prove/estimator-coverage.ts does with thousands: wide enough not to fail by chance.
describe('the bands hold what they say on animals made by other equations', () => {
  it.each([
    [0, 42],
    [4, 28],
  ])('after %d weigh-ins, %d days ahead', (known, ahead) => {
    const found = coverage(150, known, ahead, 9000);
    expect(found.in90).toBeGreaterThanOrEqual(0.85);
    expect(found.in90).toBeLessThanOrEqual(0.99);
    expect(found.in50).toBeGreaterThanOrEqual(0.4);
    expect(found.in50).toBeLessThanOrEqual(0.72);
    expect(found.under90).toBeLessThanOrEqual(0.1);
    expect(found.falseEvents).toBeLessThan(0.01);
  });

  it('four weigh-ins halve the width of the forecast', () => {
    expect(coverage(60, 4, 28, 500).width).toBeLessThan(0.65 * coverage(60, 0, 28, 500).width);
  });
});

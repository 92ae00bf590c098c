import { describe, expect, it } from 'vitest';
import { correctedCovariance } from '../../src/heat/correlated-errors.ts';
import { inverseNormal, leastSquares } from '../../src/heat/least-squares.ts';
import { seededRandom } from '../../src/weather/random.ts';

function estimate(count: number, start: number[], model: (p: Float64Array, i: number) => number, observed: number[]) {
  const result = leastSquares({
    start,
    low: start.map(() => -1e6),
    high: start.map(() => 1e6),
    residuals: count,
    evaluate: (p, out) => {
      for (let i = 0; i < count; i++) out[i] = model(p, i) - observed[i]!;
    },
  });
  const freedom = count - start.length;
  const inverse = inverseNormal(result.jacobian);
  const residualSd = Math.sqrt(result.sumOfSquares / freedom);
  return {
    parameters: result.parameters,
    residualSd,
    errors: start.map((_, p) => residualSd * Math.sqrt(inverse.get(p, p))),
    covariance: inverse.get(0, 1) * residualSd ** 2,
  };
}

// Data sets of the R language (from memory; the published estimates below confirm the figures).
const speed = [
  4, 4, 7, 7, 8, 9, 10, 10, 10, 11, 11, 12, 12, 12, 12, 13, 13, 13, 13, 14, 14, 14, 14, 15, 15, 15, 16, 16, 17, 17, 17,
  18, 18, 18, 18, 19, 19, 19, 20, 20, 20, 20, 20, 22, 23, 24, 24, 24, 24, 25,
];
const distance = [
  2, 10, 4, 22, 16, 10, 18, 26, 34, 17, 28, 14, 20, 24, 28, 26, 34, 34, 46, 26, 36, 60, 80, 20, 26, 54, 32, 40, 32, 40,
  50, 42, 56, 76, 84, 36, 46, 68, 32, 48, 52, 56, 64, 66, 54, 70, 92, 93, 120, 85,
];
const concentration = [0.02, 0.02, 0.06, 0.06, 0.11, 0.11, 0.22, 0.22, 0.56, 0.56, 1.1, 1.1];
const rate = [76, 47, 97, 107, 123, 139, 159, 152, 191, 201, 207, 200];

describe('least squares against R', () => {
  it('straight line through R data set "cars" (R 4.2.2, lm)', () => {
    const { parameters, errors, residualSd } = estimate(50, [0, 0], (p, i) => p[0]! + p[1]! * speed[i]!, distance);
    expect(parameters[0]).toBeCloseTo(-17.579095, 5);
    expect(parameters[1]).toBeCloseTo(3.932409, 5);
    expect(errors[0]).toBeCloseTo(6.75844, 5);
    expect(errors[1]).toBeCloseTo(0.415513, 5);
    expect(residualSd).toBeCloseTo(15.379587, 5);
  });

  it('saturation curve through R data set "Puromycin", treated (R 4.2.2, nls)', () => {
    const { parameters, errors, residualSd, covariance } = estimate(
      12,
      [150, 0.2],
      (p, i) => (p[0]! * concentration[i]!) / (p[1]! + concentration[i]!),
      rate,
    );
    expect(parameters[0]).toBeCloseTo(212.683743, 4);
    expect(parameters[1]).toBeCloseTo(0.06412128, 7);
    expect(errors[0]).toBeCloseTo(6.947155, 3);
    expect(errors[1]).toBeCloseTo(0.00828095, 6);
    expect(residualSd).toBeCloseTo(10.933658, 5);
    expect(covariance).toBeCloseTo(0.0440145, 5);
  });
});

describe('standard errors under autocorrelated residuals', () => {
  // A mean of n values of a first-order autoregressive series has a standard error larger by sqrt((1+φ)/(1-φ)).
  it.each([
    [0.9, 4.36],
    [0.95, 6.24],
  ])('φ %d makes them %d times larger', (phi, factor) => {
    const random = seededRandom(17);
    const n = 6000;
    const inflations: number[] = [];
    for (let trial = 0; trial < 12; trial++) {
      const residuals = new Float64Array(n);
      let x = 0;
      for (let i = 0; i < n; i++) {
        x = phi * x + Math.sqrt(1 - phi * phi) * random.normal();
        residuals[i] = x;
      }
      const ones = new Float64Array(n).fill(1);
      const atS = Float64Array.from({ length: n }, (_, i) => 300 * i);
      const runs = [{ atS, from: 0, count: n }];
      inflations.push(correctedCovariance(residuals, [ones], inverseNormal([ones]), runs).inflation[0]!);
    }
    const mean = inflations.reduce((a, b) => a + b, 0) / inflations.length;
    expect(Math.sqrt((1 + phi) / (1 - phi))).toBeCloseTo(factor, 2);
    expect(mean / factor).toBeGreaterThan(0.9);
    expect(mean / factor).toBeLessThan(1.1);
  });

  it('independent residuals keep them as they are', () => {
    const random = seededRandom(3);
    const n = 4000;
    const residuals = Float64Array.from({ length: n }, () => random.normal());
    const ones = new Float64Array(n).fill(1);
    const atS = Float64Array.from({ length: n }, (_, i) => 300 * i);
    const { inflation } = correctedCovariance(residuals, [ones], inverseNormal([ones]), [{ atS, from: 0, count: n }]);
    expect(inflation[0]).toBeGreaterThan(0.9);
    expect(inflation[0]).toBeLessThan(1.3);
  });
});

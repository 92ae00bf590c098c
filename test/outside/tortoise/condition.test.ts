import { describe, expect, it } from 'vitest';
import {
  conditionIndex,
  expectedMassG,
  jacksonRatio,
  judgeCondition,
  ownExpectedMassG,
} from '../../../src/tortoise/condition.ts';
import { JACKSON_LINE, PRESPA_LINES } from '../../../src/tortoise/condition-table.ts';

const judge = (massG: number, sclMm: number, sex: 'female' | 'male' | 'unknown' = 'unknown') =>
  judgeCondition({ species: 'Testudo hermanni', sex, massG, sclMm, onDay: '2026-09-20' });

describe('Jackson 1980, J. Small Anim. Pract. 21:409-416, points of the average line as reproduced at ukchelonia.info', () => {
  // Read off the published graph, g at mm; 1500 g stands at 191 mm (printed 111, a misprint).
  const points: [number, number][] = [
    [300, 110],
    [400, 120],
    [600, 136],
    [800, 149],
    [1100, 168],
    [1300, 180],
    [1500, 191],
    [1650, 200],
    [1900, 214],
    [2200, 230],
    [2400, 240],
  ];

  it.each([
    [136, 600, 0.239],
    [180, 1300, 0.223],
    [230, 2200, 0.181],
    [240, 2400, 0.174],
  ])('the ratio of the average animal of %i mm', (sclMm, massG, ratio) => {
    expect(jacksonRatio(massG, sclMm)).toBeCloseTo(ratio, 3);
    expect(Math.abs(conditionIndex(massG, expectedMassG(JACKSON_LINE, sclMm)))).toBeLessThan(0.05);
  });

  it.each(points)('an average animal, %i g at %i mm, is acceptable', (massG, sclMm) => {
    expect(
      judgeCondition({ species: 'Testudo graeca', sex: 'unknown', massG, sclMm, onDay: '2026-09-20' }),
    ).toMatchObject({ state: 'passes', band: 'normal' });
  });

  it.each([
    [0.159, 'seriously-light'],
    [0.161, 'light'],
    [0.179, 'light'],
    [0.181, 'acceptable'],
    [0.21, 'acceptable'],
    [0.229, 'acceptable'],
    [0.231, 'heavy'],
  ])('a ratio of %f reads as %s (bands as quoted on many pages)', (ratio, band) => {
    expect(judge(ratio * 18 ** 3, 180).jacksonBand).toBe(band);
  });

  it('650 g at 15 cm gives 0.1926 (worked example)', () => {
    expect(jacksonRatio(650, 150)).toBeCloseTo(0.1926, 4);
  });
});

describe('Lake Prespa, open data of Ecology Letters 2026, doi 10.1111/ele.70296: mainland females', () => {
  it.each([
    [1400, 200, -0.071],
    [2231, 219, 0.032],
    [1696, 222, -0.101],
    [2360, 234, -0.016],
  ])('%i g at %i mm has a condition index of %f', (massG, sclMm, index) => {
    expect(conditionIndex(massG, expectedMassG(PRESPA_LINES.female, sclMm))).toBeCloseTo(index, 3);
    expect(judge(massG, sclMm, 'female').conditionIndex).toBeCloseTo(index, 3);
  });

  it('expects 1647 g of a female of 200 mm', () => {
    expect(expectedMassG(PRESPA_LINES.female, 200)).toBeCloseTo(1647, 0);
  });

  it('calls the third light and the fourth normal for its size, though its ratio is 0.184', () => {
    expect(judge(1696, 222, 'female')).toMatchObject({ state: 'fails', jacksonBand: 'seriously-light' });
    expect(judge(2360, 234, 'female')).toMatchObject({ state: 'passes', band: 'normal' });
    expect(judge(2360, 234, 'female').jacksonRatio).toBeCloseTo(0.184, 3);
  });

  it('females are about 6 % heavier than males of their length', () => {
    const share = expectedMassG(PRESPA_LINES.female, 190) / expectedMassG(PRESPA_LINES.male, 190);
    expect(share).toBeGreaterThan(1.04);
    expect(share).toBeLessThan(1.08);
  });

  it('an own record of 900 g at 150 mm in good order expects 1172 g at 165 mm (exponent 2.77)', () => {
    expect(Math.abs(ownExpectedMassG({ massG: 900, sclMm: 150 }, 165) - 1172)).toBeLessThan(1);
  });
});

describe('Bosco della Mesola, Mazzotti et al. 2006: the means of two wild samples are normal', () => {
  it.each([
    ['male', 797, 157.5, 0.204],
    ['female', 1034, 175, 0.193],
  ] as const)('%s', (sex, massG, sclMm, ratio) => {
    expect(jacksonRatio(massG, sclMm)).toBeCloseTo(ratio, 3);
    expect(judge(massG, sclMm, sex)).toMatchObject({ state: 'passes', band: 'normal' });
  });
});

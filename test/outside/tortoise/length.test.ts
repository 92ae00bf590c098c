import { describe, expect, it } from 'vitest';
import { hibernationLength } from '../../../src/tortoise/length.ts';
import type { LengthAdvice } from '../../../src/tortoise/types.ts';

const ceiling = (advice: LengthAdvice, ageYears: number, sclMm: number) =>
  hibernationLength({ species: 'Testudo hermanni', advice, ageYears, sclMm }).ceilingDays;

describe('length of hibernation against published advice', () => {
  it('BSAVA, BVZS and BVA, 18 October 2016: three months at most, none in the first winter, then six weeks', () => {
    expect(ceiling('uk-joint-2016', 20, 190)).toBeLessThanOrEqual(92);
    expect(ceiling('uk-joint-2016', 20, 190)).toBeGreaterThanOrEqual(90);
    expect(ceiling('uk-joint-2016', 0, 45)).toBe(0);
    expect(ceiling('uk-joint-2016', 1, 65)).toBe(6 * 7);
  });

  it('Bundestierärztekammer via Westdeutsche Zeitung: very young animals six to eight weeks; adults from three months', () => {
    expect(ceiling('german-chamber', 1, 65)).toBe(8 * 7);
    const adult = hibernationLength({
      species: 'Testudo hermanni',
      advice: 'german-chamber',
      ageYears: 20,
      sclMm: 190,
    });
    expect(adult.suggestedDays).toBeGreaterThanOrEqual(90);
  });

  it('common practice, no source: 1 to 3 weeks, 3 to 6, 4 to 6, up to 12 and never more than 13', () => {
    expect(ceiling('common-practice', 0, 45)).toBe(3 * 7);
    expect(ceiling('common-practice', 1, 65)).toBe(6 * 7);
    expect(ceiling('common-practice', 4, 100)).toBe(6 * 7);
    expect(ceiling('common-practice', 60, 200)).toBe(6 * 7);
    const adult = hibernationLength({
      species: 'Testudo hermanni',
      advice: 'common-practice',
      ageYears: 20,
      sclMm: 190,
    });
    expect(adult).toMatchObject({ suggestedDays: 12 * 7, ceilingDays: 13 * 7 });
  });

  it('In & Around, veterinary column, September 2022: Testudo horsfieldii 8 weeks', () => {
    const found = hibernationLength({
      species: 'Testudo horsfieldii',
      advice: 'common-practice',
      ageYears: 20,
      sclMm: 160,
    });
    expect(found.suggestedDays).toBe(8 * 7);
  });
});

import { GRAMS_PER_OUNCE } from '../measure/units.ts';

const GRAMS_PER_POUND = 16 * GRAMS_PER_OUNCE;

/** What a figure may have been meant as when it was typed in another unit than grams. */
export interface UnitSlip {
  readonly unit: 'kg' | 'oz' | 'lb' | 'g';
  readonly massG: number;
}

/** Readings of `typed` in another unit that lie from `lowG` to `highG`. */
export function unitSlips(typed: number, lowG: number, highG: number): UnitSlip[] {
  const read: UnitSlip[] = [
    { unit: 'kg', massG: typed * 1000 },
    { unit: 'lb', massG: typed * GRAMS_PER_POUND },
    { unit: 'oz', massG: typed * GRAMS_PER_OUNCE },
    // Grams typed where ounces were asked for, and so multiplied once too often.
    { unit: 'g', massG: typed / GRAMS_PER_OUNCE },
  ];
  return read.filter(({ massG }) => massG >= lowG && massG <= highG);
}

/**
 * Figures one slip of the finger away from `typed` (one digit changed, left out, added, two neighbours swapped, or the
 * decimal point moved) that lie from `lowG` to `highG`, nearest to the middle of the range first.
 */
export function digitSlips(typed: number, lowG: number, highG: number): number[] {
  const text = String(typed);
  const found = new Set<number>();
  const keep = (candidate: string) => {
    const value = Number(candidate);
    if (candidate !== '' && Number.isFinite(value) && value !== typed && value >= lowG && value <= highG)
      found.add(value);
  };
  for (let i = 0; i <= text.length; i++) {
    for (const digit of '0123456789') {
      keep(text.slice(0, i) + digit + text.slice(i));
      if (i < text.length && text[i] !== '.') keep(text.slice(0, i) + digit + text.slice(i + 1));
    }
    if (i < text.length) keep(text.slice(0, i) + text.slice(i + 1));
    if (i < text.length - 1) keep(text.slice(0, i) + text[i + 1] + text[i] + text.slice(i + 2));
  }
  keep(String(typed * 10));
  keep(String(typed / 10));
  const middle = (lowG + highG) / 2;
  return [...found].sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
}

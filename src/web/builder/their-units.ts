import { gramsToOunces, inchesToMm, mmToInches, ouncesToGrams } from '../../measure/units.ts';
import { useFigures } from '../data/group.ts';
import type { Movable } from './moved-value.tsx';
import { sized } from './words.ts';

const FEET_PER_M = 1000 / 25.4 / 12;
const rounded = (value: number, digits: number) => Math.round(value * 10 ** digits) / 10 ** digits;

/** A value as it is kept: mm, m, m² or g. */
interface Kept {
  readonly id: string;
  readonly label: string;
  readonly at: number;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  /** Where a word says more than the figure. */
  readonly text?: string;
  readonly set: (to: number) => void;
}

interface Turned {
  readonly unit: string;
  readonly turn: (kept: number) => number;
  readonly back: (typed: number) => number;
  /** Decimals shown, and decimals kept. */
  readonly shown: number;
  readonly kept: number;
  readonly step: (kept: number) => number;
}

const as = (of: Kept, to: Turned): Movable => {
  const at = rounded(to.turn(of.at), to.shown);
  const step = to.step(of.step);
  return {
    id: of.id,
    label: of.label,
    text: of.text ?? `${sized(at, to.shown)}\u00a0${to.unit}`,
    at,
    low: rounded(to.turn(of.low), to.shown),
    high: rounded(to.turn(of.high), to.shown),
    step,
    pageStep: step * 4,
    unit: to.unit,
    move: (typed) => of.set(Math.max(of.low, Math.min(of.high, rounded(to.back(typed), to.kept)))),
  };
};

const same = (value: number) => value;
const own = (unit: string, digits: number): Turned => ({
  unit,
  turn: same,
  back: same,
  shown: digits,
  kept: digits,
  step: same,
});

/** Lengths, areas and masses that move in steps of the reader's own units, and are kept in mm, m, m² and g. */
export function useTheirUnits() {
  const { lengthUnit, massUnit } = useFigures();
  const inches = lengthUnit === 'in';
  const mm: Turned = inches
    ? { unit: 'in', turn: mmToInches, back: inchesToMm, shown: 2, kept: 1, step: (step) => (step > 5 ? 0.5 : 0.25) }
    : own('mm', 1);
  const metres: Turned = inches
    ? {
        unit: 'ft',
        turn: (m) => m * FEET_PER_M,
        back: (feet) => feet / FEET_PER_M,
        shown: 2,
        kept: 3,
        step: () => 0.5,
      }
    : own('m', 2);
  const squareMetres: Turned = inches
    ? {
        unit: 'ft²',
        turn: (m2) => m2 * FEET_PER_M ** 2,
        back: (feet2) => feet2 / FEET_PER_M ** 2,
        shown: 1,
        kept: 4,
        step: () => 1,
      }
    : own('m²', 2);
  const grams: Turned =
    massUnit === 'oz'
      ? { unit: 'oz', turn: gramsToOunces, back: ouncesToGrams, shown: 1, kept: 1, step: () => 1 }
      : own('g', 0);
  return {
    mm: (of: Kept) => as(of, mm),
    metres: (of: Kept) => as(of, metres),
    squareMetres: (of: Kept) => as(of, squareMetres),
    grams: (of: Kept) => as(of, grams),
  };
}

import { Matrix, solve } from 'ml-matrix';
import { type Day, dayNumber } from '../measure/day.ts';

/** Means over many years of the daily maximum and minimum in one month, °C. */
export interface MonthlyNormal {
  readonly maxC: number;
  readonly minC: number;
}

/** Twelve months, in the order of the calendar year. */
export type MonthlyNormals = readonly MonthlyNormal[];

const MONTH_DAYS = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const YEAR_DAYS = 365.25;

/** Middle of a day as a share of its year, 0 to 1. */
export function yearShare(day: Day): number {
  const year = Number(day.slice(0, 4));
  const start = dayNumber(`${day.slice(0, 4)}-01-01`);
  const length = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 366 : 365;
  return (dayNumber(day) - start + 0.5) / length;
}

/**
 * A smooth yearly curve: mean and harmonics of the year. `cosine[k]` and `sine[k]` belong to k turns a year; `cosine[0]` is the mean.
 */
export interface SeasonalCurve {
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
}

/** The curve's value at a share of the year, 0 to 1. */
export function seasonalValue(curve: SeasonalCurve, share: number): number {
  let sum = curve.cosine[0]!;
  for (let k = 1; k < curve.cosine.length; k++) {
    const angle = 2 * Math.PI * k * share;
    sum += curve.cosine[k]! * Math.cos(angle) + curve.sine[k]! * Math.sin(angle);
  }
  return sum;
}

/**
 * The curve of six harmonics whose mean over each month is exactly the value given for it. A curve through the middles of the months
 * would be too warm in the coldest month and too cold in the warmest one; this one gives back what was put in.
 * Throws RangeError unless there are twelve finite values.
 */
export function seasonalCurve(monthValues: readonly number[]): SeasonalCurve {
  if (monthValues.length !== 12 || monthValues.some((value) => !Number.isFinite(value)))
    throw new RangeError('A seasonal curve needs twelve monthly values');
  const rows: number[][] = [];
  let from = 0;
  for (const days of MONTH_DAYS) {
    const to = from + days / YEAR_DAYS;
    const row = [1];
    for (let k = 1; k <= 6; k++) {
      const angle = 2 * Math.PI * k;
      // The mean of the cosine and of the sine over the month, by their integrals.
      if (k < 6) row.push((Math.sin(angle * to) - Math.sin(angle * from)) / (angle * (to - from)));
      row.push((Math.cos(angle * from) - Math.cos(angle * to)) / (angle * (to - from)));
    }
    rows.push(row);
    from = to;
  }
  const found = solve(new Matrix(rows), Matrix.columnVector([...monthValues])).to1DArray();
  const cosine = new Float64Array(7);
  const sine = new Float64Array(7);
  cosine[0] = found[0]!;
  for (let k = 1; k < 6; k++) {
    cosine[k] = found[2 * k - 1]!;
    sine[k] = found[2 * k]!;
  }
  // Twelve values fix eleven harmonics and one half: of six turns a year only the sine differs between months.
  sine[6] = found[11]!;
  return { cosine, sine };
}

/** Mean of maximum and minimum, and their difference, as yearly curves. Throws RangeError when a maximum lies below its minimum. */
export function seasonOfNormals(normals: MonthlyNormals): {
  readonly mean: SeasonalCurve;
  readonly range: SeasonalCurve;
} {
  if (normals.some(({ maxC, minC }) => !(maxC >= minC)))
    throw new RangeError('A month’s mean maximum must not lie below its mean minimum');
  return {
    mean: seasonalCurve(normals.map(({ maxC, minC }) => (maxC + minC) / 2)),
    range: seasonalCurve(normals.map(({ maxC, minC }) => maxC - minC)),
  };
}

/** How cold a share of the year is by the yearly wave alone: 1 at its coldest, -1 at its warmest, 0 where the year has no wave to speak of. */
export function coldness(mean: SeasonalCurve, share: number): number {
  const amplitude = Math.hypot(mean.cosine[1]!, mean.sine[1]!);
  if (amplitude < 0.5) return 0;
  const angle = 2 * Math.PI * share;
  return -(mean.cosine[1]! * Math.cos(angle) + mean.sine[1]! * Math.sin(angle)) / amplitude;
}

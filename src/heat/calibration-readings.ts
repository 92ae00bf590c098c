/** What a calibration is made from: a house that can be computed, and what was read in it. */
import type { FactorId } from './calibration-data.ts';

/** A house whose temperatures can be computed for any values of its free parameters. */
export interface CalibratedHouse {
  /** Factors on the described values; all above 0. */
  readonly factors: readonly FactorId[];
  /**
   * Temperatures fitted beside the factors, K: starts, soon forgotten, and lasting differences, which go into forecasts. `sdK` is what they
   * may be before any reading; Infinity: anything.
   */
  readonly offsets: readonly { readonly sdK: number; readonly lasting: boolean }[];
  readonly probes: number;
  /** Grid of the prediction, s from the start of the readings' clock; may begin before the first reading. */
  readonly fromS: number;
  readonly stepS: number;
  readonly samples: number;
  /** Temperatures by probe on the grid for `values`: the factors in their order, then the offsets. */
  readonly predict: (values: Float64Array, out: readonly Float64Array[]) => void;
  /** Outdoors on the same grid, °C, to tell why a factor could not be found. */
  readonly outsideC: Float64Array;
  /** Sun on the same grid, W/m2; left out: no sun in this case. */
  readonly sunWm2?: Float64Array;
}

export interface ProbeReadings {
  readonly probe: number;
  /** Seconds on the clock of the house, rising. */
  readonly atS: Float64Array;
  readonly tempC: Float64Array;
}

/** What a max-min thermometer showed when it was reset at `toS`: the warmest and coldest since `fromS`. */
export interface MaxMinReading {
  readonly probe: number;
  readonly fromS: number;
  readonly toS: number;
  readonly maxC: number;
  readonly minC: number;
}

export interface CalibrationReadings {
  readonly points: readonly ProbeReadings[];
  readonly spans: readonly MaxMinReading[];
}

export const grids = (house: CalibratedHouse) =>
  Array.from({ length: house.probes }, () => new Float64Array(house.samples));

/** Value of a grid at `atS`, straight between samples. */
export function interpolate(house: CalibratedHouse, grid: Float64Array, atS: number): number {
  const position = Math.min(Math.max((atS - house.fromS) / house.stepS, 0), house.samples - 1);
  const index = Math.min(Math.floor(position), house.samples - 2);
  return grid[index]! + (position - index) * (grid[index + 1]! - grid[index]!);
}

/** Highest or lowest of a grid over a window, its ends included. */
export function extremeOver(house: CalibratedHouse, grid: Float64Array, span: MaxMinReading, side: 1 | -1): number {
  let best = Math.max(side * interpolate(house, grid, span.fromS), side * interpolate(house, grid, span.toS));
  const first = Math.ceil((span.fromS - house.fromS) / house.stepS);
  const last = Math.floor((span.toS - house.fromS) / house.stepS);
  for (let i = Math.max(first, 0); i <= Math.min(last, house.samples - 1); i++)
    if (side * grid[i]! > best) best = side * grid[i]!;
  return side * best;
}

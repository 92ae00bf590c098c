import type { Source } from '../measure/source.ts';

/** What it takes to make a change, in points: about the price of a sheet of polystyrene, or an hour's work. All are estimates. */
export const buildCosts = {
  /** A thicker wall, per 10 mm over all sides. */
  wallPer10Mm: 1,
  /** Bottles of water, per litre: nearly free, but they take room. */
  ballastPerLitre: 0.1,
  /** Another fill between boxes or round the bedding. */
  fill: 1,
  /** Sleeping earlier or later, per week. */
  datesPerWeek: 0.75,
  /** Carrying everything to another place. */
  place: 4,
  source: {
    cite: 'our estimate of prices and work',
    status: 'estimate',
    note: 'Only the order matters; nobody is told a price from it',
  } satisfies Source,
} as const;

/** What is sold and what fits: walls of polystyrene, bottles, dates. */
export const buildChoices = {
  wallMm: [20, 30, 40, 50, 60, 80, 100, 120],
  litres: [0, 3, 6, 9, 12, 18],
  shiftWeeks: [-2, 0, 2],
} as const;

/** A winter is kept when no hour is under 2 or over 10 °C and this share of its hours lies in the band. */
export const keptWinter = { coldC: 2, warmC: 10, inBandShare: 0.9, ofWinters: 0.95 } as const;

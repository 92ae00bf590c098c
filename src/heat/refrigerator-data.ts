import type { Source } from '../measure/source.ts';

/** What a refrigerator is like before its own readings have been seen. Heat losses and capacities are inside the foam. */
export interface RefrigeratorPreset {
  /** Room to lining, W/K. */
  readonly lossWK: number;
  /** Lining, shelves and fittings, J/K. */
  readonly liningJK: number;
  /** Heat the compressor takes out while it runs, W. */
  readonly coolingW: number;
  readonly volumeL: number;
  readonly source: Source;
}

const note =
  'A 130 l cabinet of 1.3 W/K at 5 °C in an 18.5 °C room lets in 17.6 W, which at 1.5 W of heat per W of current is 103 kWh a year: ' +
  'what labels of such appliances say. Measured homes: mean 6.6 °C, 0.9 to 11.4 °C, large differences between shelves ' +
  '(Laguerre, Derens and Palagos 2002, Int. J. Refrig. 25:653-659); mean 5.3 °C in rooms at 18.5 °C, and in 27 of 998 the compressor never stopped (Biglia and others 2018, Int. J. Refrig.)';
const estimate: Source = { cite: 'our estimate from the size of the cabinet', status: 'estimate', note };

export const refrigeratorPresets = {
  'table-top': { lossWK: 0.9, liningJK: 20_000, coolingW: 55, volumeL: 45, source: estimate },
  'under-counter': { lossWK: 1.3, liningJK: 45_000, coolingW: 80, volumeL: 130, source: estimate },
  tall: { lossWK: 1.9, liningJK: 90_000, coolingW: 110, volumeL: 320, source: estimate },
} as const satisfies Record<string, RefrigeratorPreset>;

export type RefrigeratorPresetId = keyof typeof refrigeratorPresets;

/** How heat moves inside: all estimates, chosen so that shelves differ by 1 to 4 K without a fan and by under 1 K with one. */
export const insideRefrigerator = {
  /** Upper and lower air, W/K: a fan stirs, else cold air lies below. */
  mixingWK: { fan: 15, still: 0.6 },
  /** Cooling plate to air, W/K for each W of cooling: a running plate is some 15 K (fan) or 30 K (still) colder than the air. */
  plateWKperW: { fan: 1 / 15, still: 1 / 30 },
  /** Share of the plate's cold that reaches the lower shelf first. */
  plateToLower: { fan: 0.5, still: 0.85 },
  /** Heat capacity of the plate and the refrigerant in it, J/K per W of cooling. */
  plateJKperW: 45,
  /** Lining to air, W/(m2 K), radiation included (EN ISO 6946 films at 5 °C are 1/0.145 = 6.9; a fan adds). */
  liningFilmWm2K: { fan: 11, still: 6.9 },
  /** Water bottles to air, W/K per litre: 0.05 m2 of bottle a litre and the film above. */
  bottleWKperL: { fan: 0.55, still: 0.345 },
  source: { cite: 'our estimate; films EN ISO 6946', status: 'estimate' } satisfies Source,
} as const;

import type { Source, SourceStatus } from '../measure/source.ts';

/**
 * Thermal properties of what places and boxes are made of, near 5 to 10 °C and dry unless the row says otherwise.
 * A range is [low, high] of what is sold or found under the same word; the range goes into the forecast's spread.
 */
export interface Material {
  /** λ, W/(m K). For air layers and bubble wrap an equivalent value at the usual thickness. */
  readonly conductivityWmK: number;
  readonly conductivityRangeWmK: readonly [number, number];
  /** ρ, kg/m³. */
  readonly densityKgM3: number;
  /** c, J/(kg K). */
  readonly specificHeatJkgK: number;
  readonly source: Source;
}

const iso: Source = { cite: 'EN ISO 10456:2007', status: 'from-memory' };
const ashrae: Source = { cite: 'ASHRAE Handbook of Fundamentals 2005, chapters 25 and 30', status: 'quoted' };
const cibse: Source = { cite: 'CIBSE Guide A, tables 3.36 to 3.39', status: 'from-memory' };
const database: Source = { cite: 'ESP-r material database', status: 'quoted' };
const noted = (source: Source, note: string, status: SourceStatus = source.status): Source => ({
  ...source,
  status,
  note,
});

const row = (
  conductivityWmK: number,
  conductivityRangeWmK: readonly [number, number],
  densityKgM3: number,
  specificHeatJkgK: number,
  source: Source,
): Material => ({ conductivityWmK, conductivityRangeWmK, densityKgM3, specificHeatJkgK, source });

export const materials = {
  // Insulation a keeper can lay hands on.
  polystyrene: row(
    0.037,
    [0.033, 0.04],
    18,
    1450,
    noted(
      ashrae,
      'Expanded polystyrene (EPS), 0.033 to 0.038 by density; the British EPS trade group gives 0.038 at 15 kg/m³. Specific heat EN ISO 10456; others give 1210 to 1500',
    ),
  ),
  'extruded-polystyrene': row(0.033, [0.029, 0.04], 35, 1450, noted(database, 'XPS: 0.029 (ASHRAE) to 0.040')),
  'mineral-wool': row(0.038, [0.034, 0.044], 30, 1030, iso),
  'polyurethane-foam': row(0.026, [0.022, 0.035], 35, 1400, iso),
  // Fills and beddings.
  'shredded-paper': row(
    0.042,
    [0.038, 0.06],
    45,
    1600,
    noted(iso, 'Loose cellulose fibre 0.040 at 35 kg/m³; hand-shredded paper is coarser, so the range goes up'),
  ),
  newspaper: row(0.06, [0.05, 0.08], 620, 1300, noted(database, 'Stacked flat')),
  straw: row(0.06, [0.045, 0.072], 100, 1700, {
    cite: 'Gurskis and Juodis, Lithuanian University of Agriculture',
    status: 'quoted',
    note: 'Dry 0.045 to 0.060, air-dry 0.054 to 0.072',
  }),
  'dry-leaves': row(0.06, [0.045, 0.09], 40, 1700, {
    cite: 'estimate from loose plant fibres',
    status: 'estimate',
    note: 'No published conductivity of leaf litter was found',
  }),
  'wood-shavings': row(0.065, [0.055, 0.08], 80, 1700, {
    cite: 'Nakaya 2016, wood-shaving mats',
    status: 'quoted',
    note: '0.061 to 0.069 at 30 to 80 kg/m³',
  }),
  soil: row(
    1.5,
    [0.5, 2],
    1800,
    1600,
    noted(iso, 'Moist; dry soil is nearer 0.5. EN ISO 13370 gives 1.5 for clay or silt'),
  ),
  'potting-soil': row(0.4, [0.2, 0.8], 700, 1900, {
    cite: 'estimate between dry peat and moist soil',
    status: 'estimate',
    note: 'Depends mostly on how wet it is',
  }),
  sand: row(
    0.4,
    [0.3, 1.7],
    1600,
    920,
    noted(database, 'Loose and dry near 0.3, compact 1.74; damp sand is higher', 'from-memory'),
  ),
  'bubble-wrap': row(0.058, [0.045, 0.08], 30, 2000, {
    cite: 'derived: treated as a still air layer of 7.5 mm, EN ISO 6946',
    status: 'derived',
  }),
  // Boards and sheets.
  cardboard: row(0.065, [0.05, 0.12], 120, 1400, {
    cite: 'Čekon, Struhala and Slávik 2017, J. Renew. Mater. 5 S1:84-93',
    status: 'abstract',
    note: 'Stacked corrugated panels 0.05 to 0.12; density and specific heat estimated',
  }),
  softwood: row(0.13, [0.09, 0.15], 500, 1600, iso),
  hardwood: row(0.18, [0.16, 0.2], 700, 1600, iso),
  plywood: row(0.13, [0.1, 0.15], 500, 1600, noted(iso, '0.12 at 544 kg/m³ in ASHRAE')),
  'strand-board': row(0.13, [0.1, 0.14], 650, 1700, noted(iso, 'OSB')),
  chipboard: row(0.14, [0.1, 0.18], 600, 1700, iso),
  plastic: row(0.2, [0.17, 0.25], 910, 1800, noted(iso, 'Polypropylene storage box')),
  plasterboard: row(0.25, [0.21, 0.25], 900, 1000, iso),
  glass: row(1, [1, 1.05], 2500, 750, iso),
  polycarbonate: row(0.2, [0.19, 0.22], 1200, 1200, iso),
  'steel-sheet': row(50, [15, 60], 7800, 450, iso),
  'aluminium-sheet': row(160, [120, 230], 2800, 880, iso),
  'roofing-felt': row(0.23, [0.17, 0.25], 1100, 1000, iso),
  // Masonry and ground.
  brick: row(0.77, [0.56, 0.9], 1750, 1000, noted(cibse, 'Outer leaf; inner leaf 0.56')),
  'concrete-block': row(
    0.51,
    [0.2, 1.13],
    1400,
    1000,
    noted(database, 'Lightweight aggregate; aerated 0.11 to 0.24, medium 1.13'),
  ),
  'aerated-block': row(0.18, [0.11, 0.24], 600, 1000, noted(database, '0.24 at 750 kg/m³', 'from-memory')),
  concrete: row(2, [1.4, 2.15], 2400, 1000, iso),
  stone: row(1.7, [1.1, 2.8], 2200, 1000, noted(iso, 'Limestone to granite')),
  'clay-tiles': row(1, [0.8, 1], 2000, 800, iso),
  plaster: row(0.57, [0.4, 0.7], 1300, 1000, iso),
  render: row(0.87, [0.5, 1], 1800, 1000, iso),
  // Layers of still air, unventilated: λ = thickness over the tabulated resistance.
  cavity: row(0.278, [0.25, 0.3], 1.25, 1005, {
    cite: 'EN ISO 6946, unventilated air layer of 50 mm, 0.18 m²K/W across a wall',
    status: 'from-memory',
  }),
} as const satisfies Record<string, Material>;

/** What a keeper calls it; the words themselves are `heat.material.<id>` in the catalogue. */
export type MaterialId = keyof typeof materials;

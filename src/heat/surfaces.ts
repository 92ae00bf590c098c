import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import { ZERO_CELSIUS_K } from '../measure/units.ts';

/** Which way heat flows through a surface. */
export type FlowDirection = 'horizontal' | 'up' | 'down';

/** Stefan-Boltzmann constant, W/(m² K⁴) (CODATA 2018). */
const STEFAN_BOLTZMANN = 5.670374419e-8;

/** Tabulated surface resistances of a heated room and of outdoors, m²K/W. */
export const tabulatedFilms: {
  readonly inside: Readonly<Record<FlowDirection, number>>;
  readonly outside: number;
  readonly source: Source;
} = {
  inside: { horizontal: 0.13, up: 0.1, down: 0.17 },
  outside: 0.04,
  source: {
    cite: 'EN ISO 6946, table of surface resistances',
    status: 'quoted',
    note: 'Belongs to 20 °C inside; a cold box has more: see insideFilm',
  },
};

/** Convective coefficients of inside surfaces, W/(m² K): EN ISO 6946, annex on surface resistances (from memory). */
const insideConvection: Readonly<Record<FlowDirection, number>> = { horizontal: 2.5, up: 5, down: 0.7 };

/** Radiative coefficient of a black surface, 4 σ T³, W/(m² K), at a mean temperature in °C (EN ISO 6946, annex). */
function blackRadiationWm2K(meanC: number): number {
  return 4 * STEFAN_BOLTZMANN * (meanC + ZERO_CELSIUS_K) ** 3;
}

/**
 * Resistance of the air film on an inside surface, m²K/W: R = 1/(hc + ε 4σT³) (EN ISO 6946, annex; from memory,
 * reproduces the table at 20 °C). At 5 °C: 0.145 across, 0.106 up, 0.196 down. `emissivity` 0 to 1, 0.9 for anything
 * but bare metal.
 */
export function insideFilm(direction: FlowDirection, meanC: number, emissivity = 0.9): number {
  return 1 / (insideConvection[direction] + emissivity * blackRadiationWm2K(meanC));
}

/** Convective coefficient of an outside surface, W/(m² K): 4 + 4 v, v the wind in m/s at the surface (EN ISO 6946). */
function outsideConvectionWm2K(windMs: number): number {
  return 4 + 4 * windMs;
}

/** Resistance of the film on an outside surface, m²K/W; at 4 m/s and 0 to 10 °C 0.041 (EN ISO 6946, annex). */
export function outsideFilm(windMs: number, meanC: number, emissivity = 0.9): number {
  return 1 / (outsideConvectionWm2K(windMs) + emissivity * blackRadiationWm2K(meanC));
}

/** Volumetric heat capacity of air at 101,325 Pa, J/(m³ K): ideal gas, c 1006; 1278 at 5 °C, which is 0.355 Wh/(m³ K). */
export function airHeatCapacityJm3K(airC: number): number {
  return (1006 * 101_325) / (287.05 * (airC + ZERO_CELSIUS_K));
}

/** Temperature at which a cold place's and box's films and air are taken: the middle of the sleeping band. */
export const COLD_BOX_C = 5;
/** Wind at the walls of a sheltered outbuilding, m/s; the tabulated outside film belongs to 4 m/s. */
export const SHELTERED_WIND = { metresPerSecond: 2, source: COMMON_PRACTICE } as const;

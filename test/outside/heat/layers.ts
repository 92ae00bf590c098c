import type { SolidLayer } from '../../../src/heat/transmittance.ts';

/** A layer as the published examples write it: mm, W/(m K), kg/m³, J/(kg K). */
export const layer = (
  thicknessMm: number,
  conductivityWmK: number,
  densityKgM3 = 1000,
  specificHeatJkgK = 1000,
): SolidLayer => ({
  thicknessM: thicknessMm / 1000,
  conductivityWmK,
  densityKgM3,
  specificHeatJkgK,
});

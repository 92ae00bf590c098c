/** How a bottle or a layer of water freezes from its surface inwards: the front by the enthalpy method, and Plank's formula. */
import { WATER } from './freezing.ts';

export type BodyShape = 'slab' | 'cylinder' | 'sphere';

/** Plank's factors P (film) and R (inside) for a body cooled on all sides; the size is its thickness or diameter (Plank 1941; Singh and Heldman). */
const plankFactors = {
  slab: { film: 1 / 2, inside: 1 / 8 },
  cylinder: { film: 1 / 4, inside: 1 / 16 },
  sphere: { film: 1 / 6, inside: 1 / 24 },
} as const satisfies Record<BodyShape, unknown>;

export interface FreezingMatter {
  readonly densityKgM3: number;
  readonly latentJkg: number;
  /** Conductivity of the frozen matter, W/(m K). */
  readonly frozenWmK: number;
  readonly freezingC: number;
}

const water: FreezingMatter = {
  densityKgM3: 1000,
  latentJkg: WATER.latentJkg,
  frozenWmK: WATER.iceWmK,
  freezingC: 0,
};

/**
 * Seconds a body at its freezing point takes to freeze through in air at `airC`: t = (ρL/ΔT)(P a/h + R a^2/k). `sizeM` thickness or
 * diameter, `filmWm2K` heat transfer at its surface. Infinity when the air is not colder than the freezing point.
 */
export function plankFreezingS(
  shape: BodyShape,
  sizeM: number,
  filmWm2K: number,
  airC: number,
  matter: FreezingMatter = water,
): number {
  if (!(sizeM > 0 && filmWm2K > 0)) throw new RangeError('size and surface heat transfer must be above 0');
  const drop = matter.freezingC - airC;
  if (!(drop > 0)) return Number.POSITIVE_INFINITY;
  const { film, inside } = plankFactors[shape];
  const { densityKgM3, latentJkg, frozenWmK } = matter;
  return ((densityKgM3 * latentJkg) / drop) * ((film * sizeM) / filmWm2K + (inside * sizeM * sizeM) / frozenWmK);
}

export interface FrontSetup {
  readonly shape: BodyShape;
  /** Surface to the far side (slab) or to the middle (cylinder, sphere), m. */
  readonly depthM: number;
  readonly cells: number;
  readonly startC: number;
  /** Air or surface outside; with `filmWm2K` Infinity the surface itself is held at it. */
  readonly outsideC: number;
  readonly filmWm2K: number;
  readonly densityKgM3: number;
  readonly latentJkg: number;
  readonly ice: { readonly conductivityWmK: number; readonly specificHeatJkgK: number };
  readonly liquid: { readonly conductivityWmK: number; readonly specificHeatJkgK: number };
}

export interface Front {
  /** Thickness frozen from the surface, m, cells partly frozen counted in part. */
  readonly frontM: number;
  /** Share of the whole mass frozen. */
  readonly frozenShare: number;
  readonly tempC: Float64Array;
  /** Heat given away through the surface and lost by the cells, J per m2 of surface (slab), per m (cylinder, over 2π) or over 4π (sphere). */
  readonly surfaceJ: number;
  readonly lostJ: number;
}

/**
 * State after `spanS` of freezing from the surface (explicit enthalpy method on equal cells; the step keeps the grid number of the
 * quicker phase at 0.4). The front is right to one cell. Throws RangeError for sizes not above 0 or fewer than 3 cells.
 */
export function freezeFromSurface(setup: FrontSetup, spanS: number): Front {
  const { shape, depthM, cells, densityKgM3, latentJkg, ice, liquid, outsideC, filmWm2K } = setup;
  if (!(depthM > 0 && spanS >= 0 && densityKgM3 > 0 && filmWm2K > 0))
    throw new RangeError('depth, density and film must be above 0');
  if (!(cells >= 3)) throw new RangeError('the front needs at least 3 cells');
  const power = { slab: 0, cylinder: 1, sphere: 2 }[shape];
  const dx = depthM / cells;
  // Cell 0 lies at the surface; the distance from the middle is depth - x.
  const area = Float64Array.from({ length: cells + 1 }, (_, i) => (depthM - i * dx) ** power);
  const volume = Float64Array.from(
    { length: cells },
    (_, i) => ((depthM - i * dx) ** (power + 1) - (depthM - (i + 1) * dx) ** (power + 1)) / (power + 1),
  );
  // Enthalpy per kg above liquid at 0 °C.
  const enthalpy = new Float64Array(cells).fill(
    setup.startC >= 0 ? setup.startC * liquid.specificHeatJkgK : setup.startC * ice.specificHeatJkgK - latentJkg,
  );
  const tempC = new Float64Array(cells);
  const resistance = new Float64Array(cells);
  const quickest = Math.max(
    ice.conductivityWmK / ice.specificHeatJkgK,
    liquid.conductivityWmK / liquid.specificHeatJkgK,
  );
  const steps = Math.max(1, Math.ceil(spanS / ((0.4 * dx * dx * densityKgM3) / quickest)));
  const dt = spanS / steps;
  let surfaceJ = 0;
  const before = heat(enthalpy, volume, densityKgM3);
  for (let step = 0; step <= steps; step++) {
    for (let i = 0; i < cells; i++) {
      const h = enthalpy[i]!;
      const frozen = h < 0 ? Math.min(-h / latentJkg, 1) : 0;
      tempC[i] = h >= 0 ? h / liquid.specificHeatJkgK : h >= -latentJkg ? 0 : (h + latentJkg) / ice.specificHeatJkgK;
      // Half a cell towards each face, ice and water in it in series.
      resistance[i] = (dx / 2) * (frozen / ice.conductivityWmK + (1 - frozen) / liquid.conductivityWmK);
    }
    if (step === steps) break;
    // The surface cell freezes from its face, so its ice lies whole between face and front.
    const h0 = enthalpy[0]!;
    const crust = h0 < 0 ? Math.min(-h0 / latentJkg, 1) : 0;
    const toSurface = crust > 0 && crust < 1 ? Math.max((crust * dx) / ice.conductivityWmK, dx / 200) : resistance[0]!;
    let inflow = (area[0]! * (outsideC - tempC[0]!)) / (toSurface + 1 / filmWm2K);
    surfaceJ -= inflow * dt;
    for (let i = 0; i < cells; i++) {
      const outflow =
        i + 1 < cells ? (area[i + 1]! * (tempC[i]! - tempC[i + 1]!)) / (resistance[i]! + resistance[i + 1]!) : 0;
      enthalpy[i]! += ((inflow - outflow) * dt) / (densityKgM3 * volume[i]!);
      inflow = outflow;
    }
  }
  let frontM = 0;
  let frozen = 0;
  let whole = 0;
  for (let i = 0; i < cells; i++) {
    const share = Math.min(Math.max(-enthalpy[i]! / latentJkg, 0), 1);
    frontM += share * dx;
    frozen += share * volume[i]!;
    whole += volume[i]!;
  }
  return {
    frontM,
    frozenShare: frozen / whole,
    tempC,
    surfaceJ,
    lostJ: before - heat(enthalpy, volume, densityKgM3),
  };
}

function heat(enthalpy: Float64Array, volume: Float64Array, densityKgM3: number): number {
  let sum = 0;
  for (let i = 0; i < enthalpy.length; i++) sum += enthalpy[i]! * volume[i]! * densityKgM3;
  return sum;
}

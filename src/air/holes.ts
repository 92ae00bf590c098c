import { ZERO_CELSIUS_K } from '../measure/units.ts';
import { AIR_HEAT_CAPACITY, AIR_VISCOSITY, DISCHARGE_COEFFICIENT } from './constants.ts';
import { airDensityKgM3 } from './humid-air.ts';

/** Equal round holes through one wall of the box. */
export interface Holes {
  readonly count: number;
  readonly diameterMm: number;
  /** Thickness of the wall, the way through. */
  readonly depthMm: number;
  /** Ends where the gas gathers from or spreads into open air: 2 as a rule, 1 when a hole opens into a duct of its own width. */
  readonly freeEnds?: 1 | 2;
}

const GRAVITY_MS2 = 9.80665;

/**
 * What one hole lets through by diffusion, m3/s per unit difference of mole fraction: G = D A / (L + pi d / 8 per free end)
 * (Brown and Escombe 1900, Phil. Trans. R. Soc. B 193:223; a hole in a thin sheet passes D d).
 */
function oneHoleM3S(holes: Omit<Holes, 'count'>, diffusionM2S: number): number {
  if (!(holes.diameterMm > 0 && holes.depthMm >= 0))
    throw new RangeError('a hole has a diameter above 0 mm and a depth of 0 mm or more');
  const d = holes.diameterMm / 1000;
  const wayM = holes.depthMm / 1000 + ((holes.freeEnds ?? 2) * Math.PI * d) / 8;
  return (diffusionM2S * Math.PI * d * d) / 4 / wayM;
}

/** All holes of all sets in parallel, m3/s. Holes closer together than about ten diameters pass a little less. */
export function holesConductanceM3S(sets: readonly Holes[], diffusionM2S: number): number {
  let total = 0;
  for (const holes of sets) {
    if (!(holes.count >= 0)) throw new RangeError('the number of holes is 0 or more');
    if (holes.count > 0) total += holes.count * oneHoleM3S(holes, diffusionM2S);
  }
  return total;
}

/** How many equal holes of this kind pass `conductanceM3S`; not rounded. */
export function holesFor(conductanceM3S: number, kind: Omit<Holes, 'count'>, diffusionM2S: number): number {
  return conductanceM3S / oneHoleM3S(kind, diffusionM2S);
}

/** Holes at two heights, air warmer or colder inside than outside. */
export interface Chimney {
  readonly lower: Holes;
  readonly upper: Holes;
  /** Height of the upper holes over the lower ones. */
  readonly riseM: number;
  readonly insideC: number;
  readonly outsideC: number;
}

/**
 * Air that rises through holes at two heights, m3/s: the pressure (density difference) g h is spent on both sets of holes,
 * each taking 1/2 rho (v / 0.61)^2 at its edges and 32 mu L v / d^2 along its length (Poiseuille). With thin holes this is
 * Q = 0.61 A_eff sqrt(2 dp / rho). Diffusion is the floor and this the other end of the range: lids leak, and wind adds.
 */
export function buoyancyFlowM3S(chimney: Chimney): number {
  if (!(chimney.riseM >= 0)) throw new RangeError('the rise from the lower to the upper holes is 0 m or more');
  const meanC = (chimney.insideC + chimney.outsideC) / 2;
  const rho = airDensityKgM3(meanC, 0.8);
  const shareOfDensity = Math.abs(chimney.insideC - chimney.outsideC) / (meanC + ZERO_CELSIUS_K);
  const drivePa = rho * GRAVITY_MS2 * chimney.riseM * shareOfDensity;
  // drive = edge Q^2 + friction Q, both sets in series.
  let edge = 0;
  let friction = 0;
  for (const holes of [chimney.lower, chimney.upper]) {
    const d = holes.diameterMm / 1000;
    const areaM2 = (holes.count * Math.PI * d * d) / 4;
    if (!(areaM2 > 0)) return 0;
    edge += rho / 2 / (DISCHARGE_COEFFICIENT.value * areaM2) ** 2;
    friction += (32 * AIR_VISCOSITY.value * (holes.depthMm / 1000)) / (d * d * areaM2);
  }
  return (-friction + Math.sqrt(friction * friction + 4 * edge * drivePa)) / (2 * edge);
}

/** Heat carried by air that passes the holes, W per kelvin between inside and outside. */
export function heatLossWK(flowM3S: number): number {
  return AIR_HEAT_CAPACITY.value * flowM3S;
}

import { type Films, isSolid, totalResistance, type WallLayer } from './transmittance.ts';

/**
 * Behaviour of a wall under a sine of temperature, by the heat transfer matrix of EN ISO 13786. A matrix takes
 * (temperature, heat flow density) at the inside to the outside; its four complex elements are held as eight numbers:
 * re, im of Z11, Z12, Z21, Z22.
 */
export type TransferMatrix = readonly [number, number, number, number, number, number, number, number];

export const DAY_S = 86_400;

const product = (a: TransferMatrix, b: TransferMatrix): TransferMatrix => {
  const cell = (r: number, c: number): [number, number] => {
    let re = 0;
    let im = 0;
    for (let k = 0; k < 2; k++) {
      const ar = a[4 * r + 2 * k]!;
      const ai = a[4 * r + 2 * k + 1]!;
      const br = b[4 * k + 2 * c]!;
      const bi = b[4 * k + 2 * c + 1]!;
      re += ar * br - ai * bi;
      im += ar * bi + ai * br;
    }
    return [re, im];
  };
  return [...cell(0, 0), ...cell(0, 1), ...cell(1, 0), ...cell(1, 1)];
};

/** Matrix of a resistance without capacity, m²K/W. */
export const resistanceMatrix = (resistance: number): TransferMatrix => [1, 0, -resistance, 0, 0, 0, 1, 0];
/** Matrix of a capacity without resistance, J/(m² K), at `periodS`. */
export const capacityMatrix = (capacity: number, periodS: number): TransferMatrix => [
  1,
  0,
  0,
  0,
  0,
  (-2 * Math.PI * capacity) / periodS,
  1,
  0,
];

/** Periodic penetration depth δ = sqrt(λ T / (π ρ c)), m (EN ISO 13786). */
export function penetrationDepth(
  layer: { readonly conductivityWmK: number; readonly densityKgM3: number; readonly specificHeatJkgK: number },
  periodS = DAY_S,
): number {
  return Math.sqrt((layer.conductivityWmK * periodS) / (Math.PI * layer.densityKgM3 * layer.specificHeatJkgK));
}

/** Exact matrix of one layer (EN ISO 13786). */
function layerMatrix(layer: WallLayer, periodS: number): TransferMatrix {
  if (!isSolid(layer)) return resistanceMatrix(layer.resistanceM2KW);
  const depth = penetrationDepth(layer, periodS);
  const x = layer.thicknessM / depth;
  // Below this the layer is a resistance to 16 digits, and the formula would divide 0 by 0.
  if (!(x > 1e-8)) return resistanceMatrix(layer.thicknessM / layer.conductivityWmK);
  const [sh, ch, s, c] = [Math.sinh(x), Math.cosh(x), Math.sin(x), Math.cos(x)];
  const half = -depth / (2 * layer.conductivityWmK);
  const flow = -layer.conductivityWmK / depth;
  return [
    ch * c,
    sh * s,
    half * (sh * c + ch * s),
    half * (ch * s - sh * c),
    flow * (sh * c - ch * s),
    flow * (sh * c + ch * s),
    ch * c,
    sh * s,
  ];
}

/** Product of matrices listed from the outside to the inside. */
export function chainMatrix(outsideToInside: readonly TransferMatrix[]): TransferMatrix {
  return outsideToInside.reduce(product, resistanceMatrix(0));
}

/** Air-to-air matrix of a wall, layers outside to inside. */
export function wallMatrix(layers: readonly WallLayer[], films: Films, periodS = DAY_S): TransferMatrix {
  return chainMatrix([
    resistanceMatrix(films.outsideM2KW),
    ...layers.map((layer) => layerMatrix(layer, periodS)),
    resistanceMatrix(films.insideM2KW),
  ]);
}

export interface PeriodicBehaviour {
  /** |Y12|, periodic transmittance, W/(m² K). */
  readonly transmittanceWm2K: number;
  /** f = |Y12| / U: 1 for a wall without mass. */
  readonly decrement: number;
  /** Time by which the inside follows the outside, s, 0 to one period. */
  readonly lagS: number;
  /** |Y11| and |Y22|, admittances of the inside and the outside, W/(m² K). */
  readonly insideAdmittanceWm2K: number;
  readonly outsideAdmittanceWm2K: number;
  /** κ1 and κ2, areal heat capacities, J/(m² K). */
  readonly insideCapacityJm2K: number;
  readonly outsideCapacityJm2K: number;
}

/** |Y12| in W/(m² K) and lag in s of a transfer matrix. */
export function throughflow(matrix: TransferMatrix, periodS: number): { transmittanceWm2K: number; lagS: number } {
  const [, , re, im] = matrix;
  // Y12 = -1/Z12: the heat flow lags by the angle of -Z12, folded into one period.
  const angle = Math.atan2(-im, -re);
  return {
    transmittanceWm2K: 1 / Math.hypot(re, im),
    lagS: ((((angle / (2 * Math.PI)) * periodS) % periodS) + periodS) % periodS,
  };
}

/** Dynamic characteristics of a wall (EN ISO 13786); layers outside to inside, `periodS` in seconds, default a day. */
export function periodicBehaviour(layers: readonly WallLayer[], films: Films, periodS = DAY_S): PeriodicBehaviour {
  const matrix = wallMatrix(layers, films, periodS);
  const [z11r, z11i, z12r, z12i, , , z22r, z22i] = matrix;
  const z12 = Math.hypot(z12r, z12i);
  const { transmittanceWm2K, lagS } = throughflow(matrix, periodS);
  const perRadian = periodS / (2 * Math.PI);
  return {
    transmittanceWm2K,
    decrement: transmittanceWm2K * totalResistance(layers, films),
    lagS,
    insideAdmittanceWm2K: Math.hypot(z11r, z11i) / z12,
    outsideAdmittanceWm2K: Math.hypot(z22r, z22i) / z12,
    insideCapacityJm2K: (perRadian * Math.hypot(z11r - 1, z11i)) / z12,
    outsideCapacityJm2K: (perRadian * Math.hypot(z22r - 1, z22i)) / z12,
  };
}

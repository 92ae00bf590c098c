import {
  capacityMatrix,
  chainMatrix,
  DAY_S,
  penetrationDepth,
  resistanceMatrix,
  type TransferMatrix,
  throughflow,
  wallMatrix,
} from './periodic.ts';
import { type Films, isSolid, layerResistance, type WallLayer } from './transmittance.ts';

/** How closely a wall cut into cells must follow the uncut wall under a daily sine. */
export interface CellCriterion {
  /** Largest relative error of |Y12|. */
  readonly transmittance: number;
  /** Largest relative error of the lag, or `lagS` where that is more. */
  readonly lag: number;
  readonly lagS: number;
  readonly periodS: number;
}

/** |Y12| within 1 %, lag within 2 % or half a minute, for a day. */
export const boxCriterion: CellCriterion = { transmittance: 0.01, lag: 0.02, lagS: 30, periodS: DAY_S };

const ladder = (layers: readonly WallLayer[], counts: readonly number[], films: Films, periodS: number) => {
  const parts: TransferMatrix[] = [resistanceMatrix(films.outsideM2KW)];
  layers.forEach((layer, i) => {
    const resistance = layerResistance(layer);
    if (!isSolid(layer)) {
      parts.push(resistanceMatrix(resistance));
      return;
    }
    const n = counts[i]!;
    const half = resistanceMatrix(resistance / (2 * n));
    const store = capacityMatrix((layer.thicknessM * layer.densityKgM3 * layer.specificHeatJkgK) / n, periodS);
    for (let k = 0; k < n; k++) parts.push(half, store, half);
  });
  parts.push(resistanceMatrix(films.insideM2KW));
  return chainMatrix(parts);
};

const meets = (cut: TransferMatrix, exact: TransferMatrix, criterion: CellCriterion): boolean => {
  const { periodS } = criterion;
  const a = throughflow(cut, periodS);
  const b = throughflow(exact, periodS);
  const turn = Math.abs(a.lagS - b.lagS);
  const lagError = Math.min(turn, periodS - turn);
  return (
    Math.abs(a.transmittanceWm2K / b.transmittanceWm2K - 1) <= criterion.transmittance &&
    lagError <= Math.max(criterion.lag * b.lagS, criterion.lagS)
  );
};

/** No wall of a place or box needs more; a layer that would is refused as thicker than heat reaches in a day. */
const MOST_CELLS = 60;

/**
 * How many cells each layer is cut into (0 for a layer without mass) so that the ladder of cells follows the transfer
 * matrix of EN ISO 13786 within the criterion. Cells are added where they are thickest against the layer's penetration
 * depth; the error falls as 1/n². Layers outside to inside.
 */
export function cellCounts(layers: readonly WallLayer[], films: Films, criterion = boxCriterion): number[] {
  const exact = wallMatrix(layers, films, criterion.periodS);
  const depths = layers.map((layer) =>
    isSolid(layer) ? layer.thicknessM / penetrationDepth(layer, criterion.periodS) : 0,
  );
  const counts = depths.map((depth, i) => (isSolid(layers[i]!) ? Math.max(1, Math.ceil(depth / 0.8)) : 0));
  if (counts.every((count) => count === 0)) return counts;
  for (let total = 0; total < MOST_CELLS * layers.length; total++) {
    if (meets(ladder(layers, counts, films, criterion.periodS), exact, criterion)) return counts;
    let coarsest = -1;
    let most = 0;
    for (let i = 0; i < counts.length; i++) {
      const size = counts[i]! > 0 ? depths[i]! / counts[i]! : 0;
      if (size > most) {
        most = size;
        coarsest = i;
      }
    }
    if (coarsest < 0 || counts[coarsest]! >= MOST_CELLS) return counts;
    counts[coarsest]!++;
  }
  return counts;
}

import type { Source } from '../measure/source.ts';
import type { FlowDirection } from './surfaces.ts';

/** A solid layer, crossed by one-dimensional conduction. */
export interface SolidLayer {
  readonly thicknessM: number;
  readonly conductivityWmK: number;
  readonly densityKgM3: number;
  readonly specificHeatJkgK: number;
}

/** A layer known by its resistance alone, m²K/W: an air gap, a thin sheet. */
interface ResistanceLayer {
  readonly resistanceM2KW: number;
}

export type WallLayer = SolidLayer | ResistanceLayer;

export const isSolid = (layer: WallLayer): layer is SolidLayer => 'thicknessM' in layer;

/** R of one layer, m²K/W: d/λ, or the resistance it is known by. */
export function layerResistance(layer: WallLayer): number {
  return isSolid(layer) ? layer.thicknessM / layer.conductivityWmK : layer.resistanceM2KW;
}

/** Surface resistances of the two sides of a wall, m²K/W. */
export interface Films {
  readonly outsideM2KW: number;
  readonly insideM2KW: number;
}

/** R from air to air, m²K/W: the films and every layer in series (EN ISO 6946). */
export function totalResistance(layers: readonly WallLayer[], films: Films): number {
  return layers.reduce((sum, layer) => sum + layerResistance(layer), films.outsideM2KW + films.insideM2KW);
}

/** U, W/(m² K), of layers in series (EN ISO 6946). Throws RangeError when the total resistance is not above zero. */
export function transmittance(layers: readonly WallLayer[], films: Films): number {
  const resistance = totalResistance(layers, films);
  if (!(resistance > 0)) throw new RangeError(`a wall needs a resistance above 0 m²K/W, not ${resistance}`);
  return 1 / resistance;
}

/** A layer made of several materials side by side; the shares of its area add up to 1. */
export type BridgedLayer = readonly { readonly share: number; readonly resistanceM2KW: number }[];

/**
 * Combined method of EN ISO 6946 for layers bridged by battens, mortar or joists: the mean of the upper limit (heat
 * flows straight through every combination of sections) and the lower limit (each plane at one temperature).
 */
export function combinedMethod(
  layers: readonly BridgedLayer[],
  films: Films,
): { upper: number; lower: number; u: number } {
  let paths: { share: number; resistance: number }[] = [{ share: 1, resistance: films.outsideM2KW + films.insideM2KW }];
  let lower = films.outsideM2KW + films.insideM2KW;
  for (const layer of layers) {
    const shares = layer.reduce((sum, section) => sum + section.share, 0);
    if (Math.abs(shares - 1) > 1e-9) throw new RangeError(`shares of a bridged layer add up to ${shares}, not 1`);
    paths = paths.flatMap((path) =>
      layer.map((section) => ({
        share: path.share * section.share,
        resistance: path.resistance + section.resistanceM2KW,
      })),
    );
    lower += 1 / layer.reduce((sum, section) => sum + section.share / section.resistanceM2KW, 0);
  }
  const upper = 1 / paths.reduce((sum, path) => sum + path.share / path.resistance, 0);
  return { upper, lower, u: 2 / (upper + lower) };
}

const airLayers: {
  readonly rows: readonly (readonly [number, Readonly<Record<FlowDirection, number>>])[];
  readonly source: Source;
} = {
  rows: [
    [0, { horizontal: 0, up: 0, down: 0 }],
    [0.005, { horizontal: 0.11, up: 0.11, down: 0.11 }],
    [0.007, { horizontal: 0.13, up: 0.13, down: 0.13 }],
    [0.01, { horizontal: 0.15, up: 0.15, down: 0.15 }],
    [0.015, { horizontal: 0.17, up: 0.16, down: 0.17 }],
    [0.025, { horizontal: 0.18, up: 0.16, down: 0.19 }],
    [0.05, { horizontal: 0.18, up: 0.16, down: 0.21 }],
    [0.1, { horizontal: 0.18, up: 0.16, down: 0.22 }],
    [0.3, { horizontal: 0.18, up: 0.16, down: 0.23 }],
  ],
  source: { cite: 'EN ISO 6946, unventilated air layers', status: 'from-memory' },
};

/** R of an unventilated air layer, m²K/W, `thicknessM` 0 to 0.3 and held beyond; linear between the rows of EN ISO 6946. */
export function airLayerResistance(thicknessM: number, direction: FlowDirection): number {
  const { rows } = airLayers;
  for (let i = 1; i < rows.length; i++) {
    const [thick, high] = rows[i]!;
    if (thicknessM <= thick) {
      const [thin, low] = rows[i - 1]!;
      return low[direction] + ((high[direction] - low[direction]) * (Math.max(thicknessM, 0) - thin)) / (thick - thin);
    }
  }
  return rows[rows.length - 1]![1][direction];
}

import { findModes, sineResponse } from '../../../src/heat/modes.ts';
import { NetworkBuilder } from '../../../src/heat/network.ts';
import { type Films, isSolid, layerResistance, type WallLayer } from '../../../src/heat/transmittance.ts';

/**
 * A wall cut into cells, built here by hand, with the inside air held at 0 by a very large conductance: the heat flow
 * into it for a sine outdoors is the periodic transmittance of the cut wall.
 */
export function cutWall(layers: readonly WallLayer[], counts: readonly number[], films: Films) {
  const builder = new NetworkBuilder();
  const outside = builder.input('outside');
  const inside = builder.input('inside');
  let before = films.outsideM2KW;
  let last = -1;
  layers.forEach((layer, i) => {
    const r = layerResistance(layer);
    if (!isSolid(layer)) {
      before += r;
      return;
    }
    const n = counts[i]!;
    for (let k = 0; k < n; k++) {
      const node = builder.node(`cell ${i}.${k}`, (layer.thicknessM * layer.densityKgM3 * layer.specificHeatJkgK) / n);
      before += r / (2 * n);
      if (last < 0) builder.boundary(outside, node, 1 / before);
      else builder.link(last, node, 1 / before);
      before = r / (2 * n);
      last = node;
    }
  });
  const toInside = 1 / (before + films.insideM2KW);
  builder.boundary(inside, last, toInside);
  const { share, lagS } = sineResponse(findModes(builder.build()), last, outside, 86_400);
  return { transmittanceWm2K: share * toInside, lagS };
}

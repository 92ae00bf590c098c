import { boxCriterion, type CellCriterion, cellCounts } from './cells.ts';
import type { NetworkBuilder } from './network.ts';
import { type Films, isSolid, layerResistance, type WallLayer } from './transmittance.ts';

/** One end of a chain: a node, or a boundary temperature. */
export type ChainEnd = { readonly node: number } | { readonly input: number };

/** A layer with the area it is crossed over, m² (a box's corners make it differ from layer to layer). */
export interface ChainLayer {
  readonly layer: WallLayer;
  readonly areaM2: number;
  /** Capacity of the whole layer where it is known apart from area x thickness, J/K. */
  readonly capacityJK?: number;
}

/** Films at the two ends with the areas they act on; a resistance of 0 joins the end directly. */
export interface ChainFilms {
  readonly outsideM2KW: number;
  readonly outsideAreaM2: number;
  readonly insideM2KW: number;
  readonly insideAreaM2: number;
}

/**
 * Adds a wall between two ends: its layers, outside to inside, cut into cells by `criterion`, half a cell's resistance on
 * each side of each cell's capacity. Returns the nodes of the cells, outside to inside.
 */
export function addChain(
  builder: NetworkBuilder,
  name: string,
  layers: readonly ChainLayer[],
  films: ChainFilms,
  outside: ChainEnd,
  inside: ChainEnd,
  criterion: CellCriterion = boxCriterion,
): number[] {
  const plain: Films = { outsideM2KW: films.outsideM2KW, insideM2KW: films.insideM2KW };
  const counts = cellCounts(
    layers.map((one) => one.layer),
    plain,
    criterion,
  );
  const nodes: number[] = [];
  let end: ChainEnd = outside;
  let resistanceKW = films.outsideM2KW / films.outsideAreaM2;
  const join = (next: ChainEnd) => {
    if (!(resistanceKW > 0)) throw new RangeError(`${name}: nothing resists the heat between two parts`);
    const conductance = 1 / resistanceKW;
    if ('node' in end && 'node' in next) builder.link(end.node, next.node, conductance);
    else if ('node' in next && 'input' in end) builder.boundary(end.input, next.node, conductance);
    else if ('node' in end && 'input' in next) builder.boundary(next.input, end.node, conductance);
    end = next;
    resistanceKW = 0;
  };
  layers.forEach(({ layer, areaM2, capacityJK }, i) => {
    const whole = layerResistance(layer) / areaM2;
    if (!isSolid(layer)) {
      resistanceKW += whole;
      return;
    }
    const n = counts[i]!;
    const capacity = capacityJK ?? layer.thicknessM * areaM2 * layer.densityKgM3 * layer.specificHeatJkgK;
    for (let k = 0; k < n; k++) {
      const node = builder.node(`${name} ${i + 1}.${k + 1}`, capacity / n);
      resistanceKW += whole / (2 * n);
      join({ node });
      resistanceKW = whole / (2 * n);
      nodes.push(node);
    }
  });
  resistanceKW += films.insideM2KW / films.insideAreaM2;
  join(inside);
  return nodes;
}

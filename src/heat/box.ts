import { buoyancyFlowM3S } from '../air/holes.ts';
import {
  animalSize,
  bottleSize,
  boxGeometry,
  conductingAreaM2,
  type Face,
  grown,
  type ShellGeometry,
  type Size,
  solidLayer,
  volumeM3,
} from './box-geometry.ts';
import { cellCounts } from './cells.ts';
import { addChain, type ChainEnd, type ChainLayer } from './chain.ts';
import type { BoxDescription, ShellDescription } from './description.ts';
import { materials } from './materials.ts';
import { type Network, NetworkBuilder, scaleNetwork } from './network.ts';
import { airHeatCapacityJm3K, COLD_BOX_C, insideFilm } from './surfaces.ts';
import { airLayerResistance, type SolidLayer } from './transmittance.ts';

/** A box as a heat network, and which of its nodes and inputs are which. */
export interface BoxModel {
  readonly network: Network;
  readonly inputs: { readonly placeAir: number; readonly floor: number; readonly heat: number };
  readonly nodes: {
    /** The animal, or where it would lie. */
    readonly animal: number;
    readonly probe: number;
    readonly innerAir: number;
    /** One per description of bottles, in its order. */
    readonly ballast: readonly number[];
  };
  readonly shells: readonly ShellGeometry[];
  /** Air the animal breathes from, m³. */
  readonly freeAirM3: number;
}

/** Specific heat of a tortoise, J/(kg K): 2900 to 3100 from its water, fat and bone (derived). */
const ANIMAL_JKGK = 3000;
const WATER_JKGK = 4205;
/** Half the way through a drawn-in tortoise's limbs and shell, and through still water in a bottle, m²K/W (derived: r/4λ). */
const TISSUE_M2KW = 0.02;
const BOTTLE_M2KW = 0.019;
/** A box standing on a floor: an uneven air gap of 3 mm. */
const CONTACT_M2KW = airLayerResistance(0.003, 'down');
/** Air changes per hour of a shell by its lid: EN ISO 13789 classes, sealed and some open joints (from memory). */
const lidAirChanges = { tight: 0.2, loose: 3 } as const;
/** Bottles in a fill touch it over about this much of it, m (estimate). */
const FILL_AROUND_BOTTLE_M = 0.02;

/** Faces of a shell that need a path of their own; the others share that of the sides. */
function facesOf(shell: ShellDescription, k: number, onFloor: boolean): { face: Face; parts: Face[] }[] {
  const sides: Face[] = ['sides'];
  const own: { face: Face; parts: Face[] }[] = [];
  if (shell.lid === undefined) sides.push('lid');
  else if (shell.lid.length > 0) own.push({ face: 'lid', parts: ['lid'] });
  if (shell.base === undefined && !(k === 0 && onFloor)) sides.push('base');
  else own.push({ face: 'base', parts: ['base'] });
  return [{ face: 'sides', parts: sides }, ...own];
}

const areaOf = (space: Size, parts: readonly Face[], thicknessM: number): number =>
  parts.reduce((sum, part) => sum + conductingAreaM2(space, part, thicknessM), 0);

/** Layers of one face with the area each is crossed over, outside to inside. */
function layersWithAreas(layers: readonly SolidLayer[], inside: Size, parts: readonly Face[]): ChainLayer[] {
  const out: ChainLayer[] = [];
  let space = inside;
  for (let i = layers.length - 1; i >= 0; i--) {
    const layer = layers[i]!;
    out.unshift({ layer, areaM2: areaOf(space, parts, layer.thicknessM) });
    space = grown(space, layer.thicknessM);
  }
  return out;
}

/** Heat a shell loses by air through its holes and past its lid, W/K, at 1 K between inside and outside. */
function leakWK(shell: ShellDescription, geometry: ShellGeometry, airM3: number): number {
  const perM3 = airHeatCapacityJm3K(COLD_BOX_C);
  let flow = geometry.hasLid ? (airM3 * lidAirChanges[shell.lidFit ?? 'tight']) / 3600 : 0;
  if (shell.holes && shell.holes.count >= 2) {
    const half = {
      count: shell.holes.count / 2,
      diameterMm: shell.holes.diameterMm,
      depthMm: geometry.wallM * 1000,
    };
    flow += buoyancyFlowM3S({
      lower: half,
      upper: half,
      riseM: geometry.inside.heightM / 2,
      insideC: COLD_BOX_C + 1,
      outsideC: COLD_BOX_C,
    });
  }
  return perM3 * flow;
}

/**
 * Turns a described box into its network: every shell's walls, lid and base cut into cells, the fill between shells, bottles
 * in the shell they stand in, bedding and animal in the innermost, air leaks; any number of shells. Films and air are those
 * of a box near 5 °C. The description is taken as checked (`checkBox`).
 */
export function buildBox(box: BoxDescription): BoxModel {
  const shells = boxGeometry(box);
  const builder = new NetworkBuilder();
  const inputs = {
    placeAir: builder.input('place air'),
    floor: builder.input('floor'),
    heat: builder.input('heat of the animal'),
  };
  const film = insideFilm('horizontal', COLD_BOX_C);
  const airPerM3 = airHeatCapacityJm3K(COLD_BOX_C);
  const onFloor = (box.stands ?? 'floor') === 'floor';
  const bottles = (k: number) => (box.ballast ?? []).filter((one) => (one.shell ?? 0) === k);
  const bottlesM3 = (k: number) => bottles(k).reduce((sum, one) => sum + (one.bottles * one.litresEach) / 1000, 0);

  const last = shells.length - 1;
  const spaces: number[] = [];
  const innerSurfaces = new Map<Face, number>();
  let freeAirM3 = 0;
  let beyond: ChainEnd = { input: inputs.placeAir };
  // What lies between the last space and the outside of the shell now built: half a fill, or a film.
  let before: { fill?: SolidLayer; filmM2KW: number; shareOfFill: number } = { filmM2KW: film, shareOfFill: 0 };

  box.shells.forEach((shell, k) => {
    const geometry = shells[k]!;
    const next = shells[k + 1];
    const fillId = shell.fill ?? 'air';
    const fillRow = next && fillId !== 'air' ? materials[fillId] : undefined;
    const gapM = geometry.gap ? (geometry.gap.sideM * 2 + geometry.gap.verticalM / 2) / 3 : 0;
    const spaceM3 = volumeM3(geometry.inside) - (next ? volumeM3(next.outside) : 0) - bottlesM3(k);
    const isLast = k === last;
    const airM3 = isLast ? innerAirM3(box, geometry, bottlesM3(k)) : fillRow ? 0 : Math.max(spaceM3, 0);
    if (isLast) freeAirM3 = airM3;
    const space = builder.node(isLast ? 'inner air' : `space ${k + 1}`, airM3 * airPerM3);
    spaces.push(space);

    // Half the fill belongs to this shell's chain, half to the next one's; its mass is that of the room it fills.
    const halfFill: SolidLayer | undefined =
      fillRow && gapM > 0
        ? { ...fillRow, thicknessM: gapM / 2, specificHeatJkgK: fillRow.specificHeatJkgK }
        : undefined;
    let shareOfFill = 1;
    if (halfFill && next) {
      const all: Face[] = ['sides', 'lid', 'base'];
      const nominal =
        halfFill.thicknessM *
        (areaOf(grown(next.outside, gapM / 2), all, gapM / 2) + areaOf(next.outside, all, gapM / 2));
      shareOfFill = Math.max(spaceM3, 0) / nominal;
    }
    const insideFilmM2KW = fillRow ? 0 : next ? Math.min(film, airLayerResistance(gapM, 'horizontal') / 2) : 0;

    for (const { face, parts } of facesOf(shell, k, onFloor)) {
      const described = face === 'lid' ? shell.lid! : face === 'base' ? (shell.base ?? shell.walls) : shell.walls;
      const layers = layersWithAreas(described.map(solidLayer), geometry.inside, parts);
      if (halfFill && next) {
        const areaM2 = areaOf(grown(next.outside, gapM / 2), parts, gapM / 2);
        layers.push({
          layer: halfFill,
          areaM2,
          capacityJK: halfFill.thicknessM * areaM2 * halfFill.densityKgM3 * halfFill.specificHeatJkgK * shareOfFill,
        });
      }
      const rests = k === 0 && face === 'base' && onFloor;
      if (before.fill && !rests) {
        const areaM2 = areaOf(geometry.outside, parts, before.fill.thicknessM);
        layers.unshift({
          layer: before.fill,
          areaM2,
          capacityJK:
            before.fill.thicknessM *
            areaM2 *
            before.fill.densityKgM3 *
            before.fill.specificHeatJkgK *
            before.shareOfFill,
        });
      }
      let inside = space;
      if (isLast) {
        inside = builder.node(`inner surface of ${face}`, 0);
        innerSurfaces.set(face, inside);
      }
      const outsideArea = areaOf(geometry.outside, parts, 0);
      addChain(
        builder,
        `shell ${k + 1} ${face}`,
        layers,
        {
          outsideM2KW: rests ? CONTACT_M2KW : before.filmM2KW,
          outsideAreaM2: outsideArea,
          insideM2KW: insideFilmM2KW,
          insideAreaM2: areaOf(geometry.inside, parts, 0),
        },
        rests ? { input: inputs.floor } : beyond,
        { node: inside },
      );
    }
    const open = geometry.hasLid
      ? 0
      : (geometry.inside.lengthM * geometry.inside.widthM) / insideFilm('up', COLD_BOX_C);
    const leak = leakWK(shell, geometry, isLast ? airM3 : spaceM3) + open;
    if ('input' in beyond) builder.boundary(beyond.input, space, leak);
    else builder.link(beyond.node, space, leak);

    beyond = { node: space };
    before = {
      ...(halfFill ? { fill: halfFill } : {}),
      filmM2KW: insideFilmM2KW,
      shareOfFill,
    };
  });

  const ballast = (box.ballast ?? []).map((one, i) => {
    const k = one.shell ?? 0;
    const size = bottleSize(one.litresEach);
    const node = builder.node(`ballast ${i + 1}`, one.bottles * one.litresEach * WATER_JKGK);
    const fillId = k < last ? (box.shells[k]!.fill ?? 'air') : 'air';
    const around = fillId === 'air' ? film : FILL_AROUND_BOTTLE_M / materials[fillId].conductivityWmK;
    builder.link(node, spaces[k]!, (one.bottles * size.areaM2) / (around + BOTTLE_M2KW));
    return node;
  });

  const innermost = fillInnermost(builder, box, shells[last]!, spaces[last]!, innerSurfaces, inputs.heat);
  const probeAt = box.probe?.at ?? 'beside-animal';
  const probe = {
    'beside-animal': innermost.beside,
    'inner-air': spaces[last]!,
    'outer-space': spaces[0]!,
    'on-ballast': ballast[0] ?? spaces[0]!,
    'under-lid': innerSurfaces.get('lid') ?? innerSurfaces.get('sides')!,
  }[probeAt];
  return {
    network: scaleNetwork(builder.build(), box.tuning?.lossFactor ?? 1, box.tuning?.massFactor ?? 1),
    inputs,
    nodes: { animal: innermost.animal, probe, innerAir: spaces[last]!, ballast },
    shells,
    freeAirM3,
  };
}

function innerAirM3(box: BoxDescription, geometry: ShellGeometry, bottlesM3: number): number {
  const { inside } = geometry;
  const bedding = box.bedding ? inside.lengthM * inside.widthM * (box.bedding.depthMm / 1000) : 0;
  const animal = box.animal ? animalSize(box.animal.massG) : undefined;
  const aboveBedding = animal
    ? animal.volumeM3 * (1 - Math.min(1, (box.bedding?.depthMm ?? 0) / 1000 / animal.heightM))
    : 0;
  return Math.max(volumeM3(inside) - bedding - bottlesM3 - aboveBedding, 1e-4);
}

/** Bedding, animal and air of the innermost shell, joined to its inner surfaces. */
function fillInnermost(
  builder: NetworkBuilder,
  box: BoxDescription,
  geometry: ShellGeometry,
  air: number,
  surfaces: ReadonlyMap<Face, number>,
  heat: number,
): { animal: number; beside: number } {
  const { inside } = geometry;
  const sides = surfaces.get('sides')!;
  const base = surfaces.get('base') ?? sides;
  const lid = surfaces.get('lid') ?? (geometry.hasLid ? sides : undefined);
  const film = insideFilm('horizontal', COLD_BOX_C);
  const footprint = inside.lengthM * inside.widthM;
  const around = 2 * (inside.lengthM + inside.widthM);
  const depth = box.bedding ? Math.min(box.bedding.depthMm / 1000, inside.heightM) : 0;

  builder.link(sides, air, (around * Math.max(inside.heightM - depth, 0.005)) / film);
  if (lid !== undefined) builder.link(lid, air, footprint / insideFilm('up', COLD_BOX_C));

  const animal = box.animal ? animalSize(box.animal.massG) : undefined;
  const cells: number[] = [];
  if (box.bedding && depth > 0) {
    const row = materials[box.bedding.material];
    const layer: SolidLayer = { ...row, thicknessM: depth };
    const count = Math.max(2, cellCounts([layer], { outsideM2KW: 0, insideM2KW: film })[0]!);
    const inBedding = animal ? animal.volumeM3 * Math.min(1, depth / animal.heightM) : 0;
    const volume = Math.max(footprint * depth - inBedding, 0.1 * footprint * depth);
    const halfCell = depth / (2 * count) / row.conductivityWmK;
    // Sideways heat goes over a quarter of the shorter side on average.
    const sideways = Math.min(inside.lengthM, inside.widthM) / 4 / row.conductivityWmK;
    for (let i = 0; i < count; i++) {
      const cell = builder.node(`bedding ${i + 1}`, (volume * row.densityKgM3 * row.specificHeatJkgK) / count);
      if (i === 0) builder.link(base, cell, footprint / halfCell);
      else builder.link(cells[i - 1]!, cell, footprint / (2 * halfCell));
      builder.link(sides, cell, (around * (depth / count)) / sideways);
      cells.push(cell);
    }
    builder.link(cells[count - 1]!, air, footprint / (halfCell + insideFilm('up', COLD_BOX_C)));
  } else builder.link(base, air, footprint / insideFilm('up', COLD_BOX_C));

  const beside = cells[Math.floor(cells.length / 2)] ?? air;
  if (!box.animal || !animal) {
    builder.source(heat, beside);
    return { animal: beside, beside };
  }
  const node = builder.node('animal', (box.animal.massG / 1000) * ANIMAL_JKGK);
  builder.source(heat, node);
  const covered = Math.min(1, depth / animal.heightM);
  if (covered > 0) {
    const way = Math.min(0.03, depth / 4) / materials[box.bedding!.material].conductivityWmK + TISSUE_M2KW;
    for (const cell of cells) builder.link(node, cell, (animal.areaM2 * covered) / way / cells.length);
  }
  builder.link(node, air, (animal.areaM2 * (1 - covered)) / (film + TISSUE_M2KW));
  return { animal: node, beside };
}

import type { SurfaceFacing } from '../weather/irradiance.ts';
import { solidLayer } from './box-geometry.ts';
import type { CellCriterion } from './cells.ts';
import { addChain, type ChainEnd } from './chain.ts';
import type { BuildingPlace, LayerDescription } from './description.ts';
import { type Network, NetworkBuilder, scaleNetwork } from './network.ts';
import { DAY_S } from './periodic.ts';
import { type Beyond, glazings, type PlacePreset, placePresets } from './place-presets.ts';
import { airHeatCapacityJm3K, type FlowDirection, insideFilm, outsideFilm, SHELTERED_WIND } from './surfaces.ts';
import type { SolidLayer } from './transmittance.ts';

/** A surface in the sun: its facing, and what it takes in. */
interface SunnySurface {
  readonly facing: SurfaceFacing;
  readonly areaM2: number;
}

/** A place as a single-zone network with the surfaces its weather inputs are made for. */
export interface PlaceModel {
  readonly network: Network;
  readonly inputs: {
    readonly outdoorAir: number;
    readonly wallSolAir: number;
    readonly roofSolAir: number;
    readonly glassSolAir: number;
    readonly sunInside: number;
    readonly ground: number;
    readonly neighbour: number;
  };
  readonly nodes: { readonly air: number; readonly floor: number };
  /** Opaque outside walls and roof; the roof also looks at the sky. */
  readonly walls: readonly SunnySurface[];
  readonly roof: SunnySurface;
  readonly wallAbsorptance: number;
  readonly roofAbsorptance: number;
  readonly outsideFilmM2KW: number;
  /** Glazing by facing with its g value times the place's sun share. */
  readonly glass: readonly (SunnySurface & { readonly gain: number })[];
  /** Share of all glass area that looks at the sky from the roof. */
  readonly glassSkyShare: number;
  /** Depth at which the ground temperature is taken, m. */
  readonly groundDepthM: number;
  readonly neighbourC: number;
  readonly sunShare: number;
  /** Steady loss of the whole place, W/K, air change included. */
  readonly lossWK: number;
  readonly airM3: number;
}

/**
 * A place is known far less closely than a box: its walls may be 3 % off in a day's sine, and what lies in the ground,
 * where hardly a day's sine arrives, 5 % off in a sine of five days.
 */
const placeCriterion: CellCriterion = { transmittance: 0.03, lag: 0.04, lagS: 300, periodS: DAY_S };
const groundCriterion: CellCriterion = { transmittance: 0.05, lag: 0.05, lagS: 1800, periodS: 5 * DAY_S };
/** Soil between the inside of a floor or cellar wall and the ground whose temperature is taken as undisturbed, m. */
const SOIL_M = 0.5;
/** Everyday goods: specific heat J/(kg K), and the surface they offer, m² per kg (boards 2 cm thick; estimate). */
const CONTENTS_JKGK = 1100;
const CONTENTS_M2_PER_KG = 0.05;
/** Where sun through glass lands: floor, goods, and the rest soon in the air (estimate). */
const sunLands = { floor: 0.6, contents: 0.3, air: 0.1 } as const;

/** The description with everything left out taken from its preset. */
export function completedPlace(place: BuildingPlace): PlacePreset & { readonly facingDeg: number } {
  const preset = placePresets[place.preset];
  return {
    ...preset,
    lengthM: place.lengthM ?? preset.lengthM,
    widthM: place.widthM ?? preset.widthM,
    heightM: place.heightM ?? preset.heightM,
    walls: place.walls ?? preset.walls,
    roof: place.roof ?? preset.roof,
    outsideWalls: place.outsideWalls ?? preset.outsideWalls,
    airChangesPerHour: place.airChangesPerHour ?? preset.airChangesPerHour,
    contentsKg: place.contentsKg ?? preset.contentsKg,
    neighbourC: place.neighbourC ?? preset.neighbourC,
    depthM: place.depthM ?? preset.depthM,
    sunShare: place.sunShare ?? preset.sunShare,
    glazing: place.glazing?.kind ?? preset.glazing,
    facingDeg: place.facingDeg ?? 180,
  };
}

interface WallSide {
  readonly facing: SurfaceFacing;
  readonly areaM2: number;
  readonly outdoors: boolean;
}

/** The four walls, front first; as many of them outdoors as said: front, then right, left and back. */
function sidesOf(p: ReturnType<typeof completedPlace>): WallSide[] {
  const long = p.lengthM * p.heightM;
  const short = p.widthM * p.heightM;
  const turn = (by: number): SurfaceFacing => ({ tiltDeg: 90, azimuthDeg: (p.facingDeg + by) % 360 });
  return [
    { facing: turn(0), areaM2: long, outdoors: p.outsideWalls > 0 },
    { facing: turn(90), areaM2: short, outdoors: p.outsideWalls > 1 },
    { facing: turn(270), areaM2: short, outdoors: p.outsideWalls > 2 },
    { facing: turn(180), areaM2: long, outdoors: p.outsideWalls > 3 },
  ];
}

/** Glass on each side and in the roof, m²: the preset's shares, scaled to the area given. */
function glassAreas(
  place: BuildingPlace,
  p: ReturnType<typeof completedPlace>,
  sides: readonly WallSide[],
  roofM2: number,
) {
  const usual = sides.map((side, i) =>
    side.outdoors && p.wallsTo === 'outdoors'
      ? side.areaM2 * (i === 0 ? p.glazedShare.front : p.glazedShare.others)
      : 0,
  );
  const roof = p.roofTo === 'outdoors' ? roofM2 * p.glazedShare.roof : 0;
  const total = usual.reduce((sum, area) => sum + area, roof);
  const wanted = place.glazing?.areaM2;
  if (wanted === undefined) return { sides: usual, roof };
  if (total > 0) {
    const scale = wanted / total;
    return {
      sides: usual.map((area, i) => Math.min(area * scale, sides[i]!.areaM2)),
      roof: Math.min(roof * scale, roofM2),
    };
  }
  return { sides: sides.map((side, i) => (i === 0 && side.outdoors ? Math.min(wanted, side.areaM2) : 0)), roof: 0 };
}

/**
 * The network of a place: walls, roof and floor in cells, glazing, air change with the heat capacity of air at `meanAirC`,
 * goods, ground and a heated neighbour. `meanAirC` is about the winter's mean, °C.
 */
export function buildPlace(place: BuildingPlace, meanAirC: number): PlaceModel {
  const p = completedPlace(place);
  const b = new NetworkBuilder();
  const inputs = {
    outdoorAir: b.input('outdoor air'),
    wallSolAir: b.input('sol-air of walls'),
    roofSolAir: b.input('sol-air of roof'),
    glassSolAir: b.input('sol-air of glass'),
    sunInside: b.input('sun through glass'),
    ground: b.input('ground'),
    neighbour: b.input('neighbour'),
  };
  const airM3 = p.lengthM * p.widthM * p.heightM;
  const perM3 = airHeatCapacityJm3K(meanAirC);
  const air = b.node('air', airM3 * perM3);
  const floor = b.node('floor surface', 0);
  const outside = outsideFilm(SHELTERED_WIND.metresPerSecond, meanAirC);
  let lossWK = 0;

  const wall = (
    name: string,
    described: readonly LayerDescription[],
    areaM2: number,
    to: Beyond,
    solAir: number,
    direction: FlowDirection,
    inside: ChainEnd,
    insideFilmM2KW: number,
  ) => {
    if (!(areaM2 > 0.001) || described.length === 0) return;
    const layers: SolidLayer[] = described.map(solidLayer);
    if (to === 'ground') layers.unshift(solidLayer({ material: 'soil', thicknessMm: SOIL_M * 1000 }));
    const film = to === 'outdoors' ? outside : to === 'neighbour' ? insideFilm(direction, 15) : 0;
    addChain(
      b,
      name,
      layers.map((layer) => ({ layer, areaM2 })),
      { outsideM2KW: film, outsideAreaM2: areaM2, insideM2KW: insideFilmM2KW, insideAreaM2: areaM2 },
      { input: to === 'outdoors' ? solAir : to === 'ground' ? inputs.ground : inputs.neighbour },
      inside,
      to === 'ground' ? groundCriterion : placeCriterion,
    );
    if (to !== 'neighbour')
      lossWK +=
        areaM2 /
        (film + insideFilmM2KW + layers.reduce((sum, layer) => sum + layer.thicknessM / layer.conductivityWmK, 0));
  };

  const sides = sidesOf(p);
  const footprint = p.lengthM * p.widthM;
  const roofM2 = p.roofTo === 'outdoors' ? footprint / Math.cos((p.roofTiltDeg * Math.PI) / 180) : footprint;
  const glass = glassAreas(place, p, sides, roofM2);
  const film = insideFilm('horizontal', meanAirC);
  const outerM2 = sides.reduce((sum, side, i) => sum + (side.outdoors ? side.areaM2 - glass.sides[i]! : 0), 0);
  const innerM2 = sides.reduce((sum, side) => sum + (side.outdoors ? 0 : side.areaM2), 0);
  wall('walls', p.walls, outerM2, p.wallsTo, inputs.wallSolAir, 'horizontal', { node: air }, film);
  wall('inner walls', p.innerWalls, innerM2, 'neighbour', inputs.neighbour, 'horizontal', { node: air }, film);
  const up = insideFilm('up', meanAirC);
  wall('roof', p.roof, roofM2 - glass.roof, p.roofTo, inputs.roofSolAir, 'up', { node: air }, up);
  wall('floor', p.floor, footprint, p.floorTo, inputs.ground, 'down', { node: floor }, 0);
  b.link(floor, air, footprint / insideFilm('horizontal', meanAirC));

  const glassM2 = glass.sides.reduce((sum, area) => sum + area, glass.roof);
  const pane = glazings[p.glazing];
  b.boundary(inputs.glassSolAir, air, glassM2 * pane.uWm2K);
  const changes = p.airChangesPerHour * (place.tuning?.airChangeFactor ?? 1);
  const airLoss = (changes * airM3 * perM3) / 3600;
  b.boundary(inputs.outdoorAir, air, airLoss);
  lossWK += glassM2 * pane.uWm2K + airLoss;

  let goods = air;
  if (p.contentsKg > 0) {
    goods = b.node('contents', p.contentsKg * CONTENTS_JKGK);
    b.link(goods, air, (p.contentsKg * CONTENTS_M2_PER_KG) / film);
  }
  b.source(inputs.sunInside, floor, sunLands.floor);
  b.source(inputs.sunInside, goods, sunLands.contents);
  b.source(inputs.sunInside, air, sunLands.air);

  const sunFactor = place.tuning?.sunFactor ?? 1;
  const roofFacing: SurfaceFacing = { tiltDeg: p.roofTiltDeg, azimuthDeg: p.facingDeg };
  const gain = pane.sunShare * p.sunShare * sunFactor;
  return {
    network: scaleNetwork(b.build(), place.tuning?.lossFactor ?? 1, place.tuning?.massFactor ?? 1),
    inputs,
    nodes: { air, floor },
    walls: sides.flatMap((side, i) =>
      side.outdoors && p.wallsTo === 'outdoors' && side.areaM2 > glass.sides[i]!
        ? [{ facing: side.facing, areaM2: side.areaM2 - glass.sides[i]! }]
        : [],
    ),
    roof: { facing: roofFacing, areaM2: p.roofTo === 'outdoors' ? roofM2 - glass.roof : 0 },
    wallAbsorptance: p.wallAbsorptance,
    roofAbsorptance: p.roofAbsorptance,
    outsideFilmM2KW: outside,
    glass: [
      ...sides.map((side, i) => ({ facing: side.facing, areaM2: glass.sides[i]!, gain })),
      { facing: roofFacing, areaM2: glass.roof, gain },
    ].filter((one) => one.areaM2 > 0),
    glassSkyShare: glassM2 > 0 ? glass.roof / glassM2 : 0,
    groundDepthM: p.wallsTo === 'ground' ? p.depthM / 2 + SOIL_M : p.depthM + SOIL_M,
    neighbourC: p.neighbourC,
    sunShare: p.sunShare * sunFactor,
    lossWK: lossWK * (place.tuning?.lossFactor ?? 1),
    airM3,
  };
}

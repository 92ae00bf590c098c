import type { BuildingPlace, LayerDescription } from '../../heat/description.ts';
import type { MaterialId } from '../../heat/materials.ts';
import { completedPlace } from '../../heat/place.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { wallMaterials } from './build.ts';
import { number, words } from './movables.ts';
import type { Movable } from './moved-value.tsx';
import { appliesTo, glassM2, glazingKinds, linings, stuffs, toldLayers, withLining, withMain } from './place-build.ts';
import { useTheirUnits } from './their-units.ts';
import { sized, wordFor } from './words.ts';

/** As the builder's sentence calls it, where that has a shorter word. */
const material = (id: MaterialId): string => {
  const short = wallMaterials.find((one) => one === id);
  return short ? wordFor.material(short) : say(`heat.material.${id}`);
};

/** The values of a building that move beside its kind and where it looks. One that is not said begins at what its kind usually has. */
export function useBuildingMovables(
  place: BuildingPlace | undefined,
  onChange: (part: Partial<BuildingPlace>) => void,
): Readonly<Record<string, Movable>> {
  const { temperature, temperatureUnit } = useFigures();
  const theirs = useTheirUnits();
  if (!place) return {};
  const whole = completedPlace(place);
  const applies = appliesTo(place);
  const walls = toldLayers(whole.walls);
  const main = whole.walls[walls.main] as LayerDescription;
  const lining = toldLayers(whole.roof).lining;
  const fahrenheit = temperatureUnit === '°F';
  const degrees = fahrenheit ? Math.round((whole.neighbourC * 9) / 5 + 32) : whole.neighbourC;
  const metres = (id: 'lengthM' | 'widthM' | 'heightM' | 'depthM', low: number, high: number): Movable =>
    theirs.metres({
      id,
      label: say(`web.place.${id}`),
      at: whole[id],
      low,
      high,
      step: 0.1,
      set: (to) => onChange({ [id]: to }),
    });
  const lined = (id: 'walls' | 'roof', label: string, layers: readonly LayerDescription[]): Movable => {
    const now = toldLayers(layers).lining;
    return theirs.mm({
      id: `${id}Lining`,
      label,
      at: now?.thicknessMm ?? 0,
      low: 0,
      high: 300,
      step: 10,
      text: now ? say('web.place.lined', { thickness: sized(now.thicknessMm) }) : say('web.place.notLined'),
      set: (mm) => onChange({ [id]: withLining(layers, mm) }),
    });
  };
  const liningStuff = (id: 'walls' | 'roof', label: string, layers: readonly LayerDescription[]): Movable => {
    const now = toldLayers(layers).lining;
    return words(
      `${id}LiningStuff`,
      label,
      linings,
      (now?.material ?? 'polystyrene') as (typeof linings)[number],
      material,
      (to) => onChange({ [id]: withLining(layers, now?.thicknessMm ?? 0, to) }),
    );
  };
  const known = stuffs.some((one) => one === main.material);
  const wallStuffs: readonly MaterialId[] = known ? stuffs : [main.material, ...stuffs];
  const area = glassM2(place);
  return {
    lengthM: metres('lengthM', 0.4, 60),
    widthM: metres('widthM', 0.4, 60),
    heightM: metres('heightM', 0.2, 15),
    wallMm: theirs.mm({
      id: 'placeWallMm',
      label: say('web.place.wallMm'),
      at: main.thicknessMm,
      low: 1,
      high: 1000,
      step: 5,
      set: (thicknessMm) => onChange({ walls: withMain(whole.walls, { thicknessMm }) }),
    }),
    wallStuff: words('placeWallStuff', say('web.place.wallStuff'), wallStuffs, main.material, material, (to) =>
      onChange({ walls: withMain(whole.walls, { material: to }) }),
    ),
    wallsLining: lined('walls', say('web.place.wallsLining'), whole.walls),
    ...(walls.lining ? { wallsLiningStuff: liningStuff('walls', say('web.place.wallsLiningStuff'), whole.walls) } : {}),
    ...(applies.outsideWalls
      ? {
          outside: number({
            id: 'outsideWalls',
            label: say('web.place.outside'),
            at: whole.outsideWalls,
            low: 0,
            high: 4,
            step: 1,
            unit: '',
            text: String(whole.outsideWalls),
            set: (outsideWalls) => onChange({ outsideWalls }),
          }),
        }
      : {}),
    ...(applies.roof ? { roofLining: lined('roof', say('web.place.roofLining'), whole.roof) } : {}),
    ...(applies.roof && lining
      ? { roofLiningStuff: liningStuff('roof', say('web.place.roofLiningStuff'), whole.roof) }
      : {}),
    glass: theirs.squareMetres({
      id: 'glass',
      label: say('web.place.glass'),
      ...(area < 0.005 ? { text: say('web.place.noGlass') } : {}),
      at: area,
      low: 0,
      high: 60,
      step: 0.1,
      set: (areaM2) => onChange({ glazing: { kind: whole.glazing, areaM2 } }),
    }),
    ...(area < 0.005
      ? {}
      : {
          glazing: words(
            'glazing',
            say('web.place.glazing'),
            glazingKinds,
            whole.glazing,
            (kind) => say(`heat.glazing.${kind}`),
            (kind) => onChange({ glazing: { kind, areaM2: Math.round(area * 100) / 100 } }),
          ),
        }),
    air: {
      id: 'airChanges',
      label: say('web.place.air'),
      text: say('web.place.airText', { count: whole.airChangesPerHour, times: sized(whole.airChangesPerHour, 1) }),
      at: whole.airChangesPerHour,
      low: 0,
      high: 20,
      step: 0.1,
      pageStep: 1,
      move: (to) => onChange({ airChangesPerHour: Math.round(to * 10) / 10 }),
    },
    contents: number({
      id: 'contentsKg',
      label: say('web.place.contents'),
      at: whole.contentsKg,
      low: 0,
      high: 5000,
      step: 50,
      unit: 'kg',
      set: (contentsKg) => onChange({ contentsKg }),
    }),
    sun: number({
      id: 'sunShare',
      label: say('web.place.sun'),
      at: Math.round(whole.sunShare * 100),
      low: 0,
      high: 100,
      step: 5,
      unit: '%',
      set: (to) => onChange({ sunShare: to / 100 }),
    }),
    ...(applies.neighbour
      ? {
          neighbour: {
            id: 'neighbourC',
            label: say('web.place.neighbour'),
            text: temperature(whole.neighbourC, 0),
            at: degrees,
            low: fahrenheit ? 32 : 0,
            high: fahrenheit ? 86 : 30,
            step: 1,
            pageStep: 5,
            unit: temperatureUnit,
            move: (to: number) => onChange({ neighbourC: fahrenheit ? ((to - 32) * 5) / 9 : to }),
          },
        }
      : {}),
    ...(applies.depth ? { depthM: metres('depthM', 0, 10) } : {}),
  };
}

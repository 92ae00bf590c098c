import type { BoxDescription, LayerDescription, ShellDescription } from './description.ts';
import { materials } from './materials.ts';
import type { SolidLayer } from './transmittance.ts';

/** Sizes of a rectangular space, m. */
export interface Size {
  readonly lengthM: number;
  readonly widthM: number;
  readonly heightM: number;
}

/** One shell of the nest with its thicknesses, m. */
export interface ShellGeometry {
  readonly inside: Size;
  readonly outside: Size;
  readonly wallM: number;
  readonly lidM: number;
  readonly baseM: number;
  readonly hasLid: boolean;
  /** Room between it and the next shell inside: at each side, and above and below together; absent in the innermost. */
  readonly gap?: { readonly sideM: number; readonly verticalM: number };
}

/** A described layer with the values of the table, or the exact ones given with it. */
export function solidLayer({ material, thicknessMm, exact }: LayerDescription): SolidLayer {
  const row = materials[material];
  return {
    thicknessM: thicknessMm / 1000,
    conductivityWmK: exact?.conductivityWmK ?? row.conductivityWmK,
    densityKgM3: exact?.densityKgM3 ?? row.densityKgM3,
    specificHeatJkgK: exact?.specificHeatJkgK ?? row.specificHeatJkgK,
  };
}

const thickness = (layers: readonly LayerDescription[]) => layers.reduce((sum, one) => sum + one.thicknessMm / 1000, 0);
export const volumeM3 = (size: Size): number => size.lengthM * size.widthM * size.heightM;
/** The same space with `m` more on every side. */
export const grown = (size: Size, m: number): Size => ({
  lengthM: size.lengthM + 2 * m,
  widthM: size.widthM + 2 * m,
  heightM: size.heightM + 2 * m,
});

function shellGeometry(shell: ShellDescription): ShellGeometry {
  const inside = {
    lengthM: shell.insideLengthMm / 1000,
    widthM: shell.insideWidthMm / 1000,
    heightM: shell.insideHeightMm / 1000,
  };
  const wallM = thickness(shell.walls);
  const lidM = thickness(shell.lid ?? shell.walls);
  const baseM = thickness(shell.base ?? shell.walls);
  return {
    inside,
    outside: {
      lengthM: inside.lengthM + 2 * wallM,
      widthM: inside.widthM + 2 * wallM,
      heightM: inside.heightM + lidM + baseM,
    },
    wallM,
    lidM,
    baseM,
    hasLid: shell.lid === undefined || shell.lid.length > 0,
  };
}

/** Sizes of every shell, outermost first: what the section drawing and the network are made from. */
export function boxGeometry(box: BoxDescription): ShellGeometry[] {
  const shells = box.shells.map(shellGeometry);
  return shells.map((shell, k) => {
    const next = shells[k + 1];
    if (!next) return shell;
    const sideM = (shell.inside.lengthM - next.outside.lengthM + (shell.inside.widthM - next.outside.widthM)) / 4;
    return { ...shell, gap: { sideM, verticalM: shell.inside.heightM - next.outside.heightM } };
  });
}

export type Face = 'sides' | 'lid' | 'base';

/**
 * Area a layer of thickness `thicknessM` around a space conducts over, m²: the inner face, half of each edge (shape
 * factor 0.54 per metre of edge) and a share of the corners (0.15 of the thickness each); Langmuir, Adams and Meikle 1913, as
 * given by Incropera and DeWitt (from memory).
 */
export function conductingAreaM2(space: Size, face: Face, thicknessM: number): number {
  const { lengthM: l, widthM: w, heightM: h } = space;
  const edge = 0.27 * thicknessM;
  const corner = 0.2 * thicknessM * thicknessM;
  if (face === 'sides') return 2 * (l + w) * h + edge * 4 * (l + w + 2 * h) + 4 * corner;
  return l * w + edge * 2 * (l + w) + corner;
}

/** Height and skin area of a tortoise lying drawn in, from its mass in g: sizes as mass^(1/3), area 0.1 m² kg^(-2/3) (Meeh's form; estimate). */
export function animalSize(massG: number): { heightM: number; areaM2: number; volumeM3: number } {
  const kg = massG / 1000;
  return { heightM: 0.09 * Math.cbrt(kg), areaM2: 0.1 * kg ** (2 / 3), volumeM3: kg / 1000 };
}

/** A water bottle three times as tall as wide: diameter, height, surface from its litres. */
export function bottleSize(litres: number): { diameterM: number; heightM: number; areaM2: number } {
  const diameterM = Math.cbrt((4 * litres) / 1000 / (3 * Math.PI));
  return { diameterM, heightM: 3 * diameterM, areaM2: 3.5 * Math.PI * diameterM ** 2 };
}

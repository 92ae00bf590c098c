import { figure } from '../measure/figures.ts';
import { type Message, type MessageKey, message, say } from '../wording/say.ts';
import { animalSize, boxGeometry, volumeM3 } from './box-geometry.ts';
import type {
  BoxDescription,
  BuildingPlace,
  LayerDescription,
  PlaceDescription,
  RefrigeratorPlace,
} from './description.ts';
import { type MaterialId, materials } from './materials.ts';
import { completedPlace } from './place.ts';
import { refrigeratorPresets } from './refrigerator-data.ts';

/** One thing about a description that cannot be, or that must be asked before it is believed. */
export interface DescriptionFault {
  readonly path: readonly (string | number)[];
  readonly message: Message;
}

type Add = (path: readonly (string | number)[], key: MessageKey, values?: Record<string, string | number>) => void;

/** Exact values further than this factor from the range of a material belong to some other stuff. */
const DOUBTFUL_FACTOR = 2;
const mm = (value: number) => figure(value, 0);
const name = (material: MaterialId) => say(`heat.material.${material}` as MessageKey);

function checkLayers(
  layers: readonly LayerDescription[],
  path: readonly (string | number)[],
  mostMm: number,
  add: Add,
): void {
  layers.forEach((layer, i) => {
    const at = [...path, i];
    if (!(layer.thicknessMm > 0))
      add([...at, 'thicknessMm'], 'heat.check.thickness', { value: figure(layer.thicknessMm, 1) });
    else if (layer.thicknessMm > mostMm)
      add([...at, 'thicknessMm'], 'heat.check.tooThick', { value: mm(layer.thicknessMm), most: mm(mostMm) });
    const row = materials[layer.material];
    const exact = layer.exact;
    if (!row || !exact) return;
    const values: Record<string, string> = { material: name(layer.material) };
    if (exact.conductivityWmK !== undefined) {
      const [low, high] = row.conductivityRangeWmK;
      if (exact.conductivityWmK < low / DOUBTFUL_FACTOR || exact.conductivityWmK > high * DOUBTFUL_FACTOR)
        add([...at, 'exact', 'conductivityWmK'], 'heat.check.conductivity', {
          ...values,
          value: String(exact.conductivityWmK),
          low: String(low),
          high: String(high),
        });
    }
    if (exact.densityKgM3 !== undefined) {
      const share = exact.densityKgM3 / row.densityKgM3;
      if (share < 1 / 4 || share > 4)
        add([...at, 'exact', 'densityKgM3'], 'heat.check.density', {
          ...values,
          value: String(exact.densityKgM3),
          usual: String(row.densityKgM3),
        });
    }
  });
}

/** Everything wrong with a box, with where it stands. Empty when it can be run. */
export function checkBox(box: BoxDescription): DescriptionFault[] {
  const faults: DescriptionFault[] = [];
  const add: Add = (path, key, values) => faults.push({ path, message: message(key, values) });
  if (box.shells.length === 0) add(['shells'], 'heat.check.noShell');
  box.shells.forEach((shell, k) => {
    for (const side of ['insideLengthMm', 'insideWidthMm', 'insideHeightMm'] as const)
      if (!(shell[side] > 0)) add(['shells', k, side], 'heat.check.size', { value: figure(shell[side], 0) });
    if (shell.walls.length === 0) add(['shells', k, 'walls'], 'heat.check.noWall');
    checkLayers(shell.walls, ['shells', k, 'walls'], 500, add);
    checkLayers(shell.lid ?? [], ['shells', k, 'lid'], 500, add);
    checkLayers(shell.base ?? [], ['shells', k, 'base'], 500, add);
    if (shell.base && shell.base.length === 0) add(['shells', k, 'base'], 'heat.check.noWall');
  });
  if (faults.length > 0) return faults;

  const shells = boxGeometry(box);
  shells.forEach((shell, k) => {
    const next = shells[k + 1];
    if (!next) return;
    const short = Math.max(
      next.outside.lengthM - shell.inside.lengthM,
      next.outside.widthM - shell.inside.widthM,
      next.outside.heightM - shell.inside.heightM,
    );
    if (short > 1e-9)
      add(['shells', k + 1], 'heat.check.doesNotFit', { inner: k + 2, outer: k + 1, short: figure(short * 1000, 0) });
  });
  (box.ballast ?? []).forEach((one, i) => {
    if ((one.shell ?? 0) >= box.shells.length)
      add(['ballast', i, 'shell'], 'heat.check.noSuchShell', { count: box.shells.length });
    if (!(one.bottles > 0 && one.litresEach > 0)) add(['ballast', i], 'heat.check.bottle');
  });
  if (faults.length > 0) return faults;

  const inner = shells[shells.length - 1]!;
  const depth = (box.bedding?.depthMm ?? 0) / 1000;
  if (box.bedding && !(depth > 0))
    add(['bedding', 'depthMm'], 'heat.check.thickness', { value: mm(box.bedding.depthMm) });
  if (depth > inner.inside.heightM)
    add(['bedding', 'depthMm'], 'heat.check.beddingDeep', {
      value: mm(depth * 1000),
      most: mm(inner.inside.heightM * 1000),
    });
  if (box.animal) {
    const size = animalSize(box.animal.massG);
    if (!(box.animal.massG > 0)) add(['animal', 'massG'], 'heat.check.mass');
    else if (
      size.heightM > inner.inside.heightM ||
      Math.cbrt(size.volumeM3) * 1.6 > Math.max(inner.inside.lengthM, inner.inside.widthM)
    )
      add(['animal'], 'heat.check.animalDoesNotFit', { mass: mm(box.animal.massG) });
  }
  shells.forEach((shell, k) => {
    const next = shells[k + 1];
    const room =
      volumeM3(shell.inside) - (next ? volumeM3(next.outside) : depth * shell.inside.lengthM * shell.inside.widthM);
    const bottles = (box.ballast ?? []).reduce(
      (sum, one) => sum + ((one.shell ?? 0) === k ? (one.bottles * one.litresEach) / 1000 : 0),
      0,
    );
    // Round bottles fill at most about four fifths of a room.
    if (bottles > 0.8 * room)
      add(['ballast'], 'heat.check.bottlesDoNotFit', {
        litres: figure(bottles * 1000, 1),
        room: figure(Math.max(0.8 * room, 0) * 1000, 1),
      });
  });
  return faults;
}

/** Everything wrong with a place. */
export function checkPlace(place: PlaceDescription): DescriptionFault[] {
  const faults: DescriptionFault[] = [];
  if (place.kind !== 'building') return faults;
  const add: Add = (path, key, values) => faults.push({ path, message: message(key, values) });
  for (const side of ['lengthM', 'widthM', 'heightM'] as const) {
    const value = place[side];
    if (value !== undefined && !(value > 0)) add([side], 'heat.check.size', { value: figure(value, 1) });
  }
  checkLayers(place.walls ?? [], ['walls'], 1500, add);
  checkLayers(place.roof ?? [], ['roof'], 1500, add);
  if (place.walls && place.walls.length === 0) add(['walls'], 'heat.check.noWall');
  if (place.roof && place.roof.length === 0) add(['roof'], 'heat.check.noWall');
  if (faults.length > 0) return faults;
  checkGlass(place, add);
  return faults;
}

function checkGlass(place: BuildingPlace, add: Add): void {
  if (!place.glazing) return;
  const p = completedPlace(place);
  const most =
    2 * (p.lengthM + p.widthM) * p.heightM + (p.lengthM * p.widthM) / Math.cos((p.roofTiltDeg * Math.PI) / 180);
  if (place.glazing.areaM2 > most)
    add(['glazing', 'areaM2'], 'heat.check.glassTooLarge', {
      value: figure(place.glazing.areaM2, 1),
      most: figure(most, 1),
    });
}

/** A box that would not go into its place. */
export function checkBoxInPlace(box: BoxDescription, place: PlaceDescription): DescriptionFault[] {
  if (place.kind === 'readings' || box.shells.length === 0) return [];
  const { outside } = boxGeometry(box)[0]!;
  const p = place.kind === 'refrigerator' ? insideOf(place) : completedPlace(place);
  const [long, short] = [Math.max(outside.lengthM, outside.widthM), Math.min(outside.lengthM, outside.widthM)];
  const fits =
    long <= Math.max(p.lengthM, p.widthM) && short <= Math.min(p.lengthM, p.widthM) && outside.heightM <= p.heightM;
  if (fits) return [];
  return [
    {
      path: ['shells', 0],
      message: message('heat.check.largerThanPlace', {
        length: mm(outside.lengthM * 1000),
        width: mm(outside.widthM * 1000),
        height: mm(outside.heightM * 1000),
      }),
    },
  ];
}

/** A cabinet about one and a half times as high as wide, its shelf in half of it. */
function insideOf({ refrigerator }: RefrigeratorPlace): { lengthM: number; widthM: number; heightM: number } {
  const volumeM3 = (refrigerator.volumeL ?? refrigeratorPresets[refrigerator.preset].volumeL) / 1000;
  const widthM = Math.cbrt(volumeM3 / 1.5);
  return { lengthM: widthM, widthM, heightM: 0.75 * widthM };
}

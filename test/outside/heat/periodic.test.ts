import { describe, expect, it } from 'vitest';
import { boxCriterion, cellCounts } from '../../../src/heat/cells.ts';
import { periodicBehaviour, wallMatrix } from '../../../src/heat/periodic.ts';
import { type Films, transmittance, type WallLayer } from '../../../src/heat/transmittance.ts';
import { cutWall } from './cut-wall.ts';
import { layer } from './layers.ts';

const outdoors: Films = { outsideM2KW: 0.04, insideM2KW: 0.13 };
const indoors: Films = { outsideM2KW: 0.13, insideM2KW: 0.13 };
/** Published examples list layers from the inside; the code takes them from the outside. */
const fromInside = (...layers: WallLayer[]) => layers.reverse();
const close = (got: number, want: number, relative = 0.001) =>
  expect(Math.abs(got / want - 1), `${got} for ${want}`).toBeLessThan(relative);

const eps = (mm: number) => layer(mm, 0.035, 20, 1450);
const softwood = (mm: number) => layer(mm, 0.13, 500, 1600);
const brick = (mm: number) => layer(mm, 0.77, 1750, 1000);
const paper = layer(100, 0.042, 45, 1600);
const d1 = [
  layer(15, 0.21, 1150, 1100),
  softwood(96),
  layer(130, 0.043, 190, 2100),
  layer(15, 0.9, 1800, 1000),
] as const;

describe('periodic behaviour (EN ISO 13786) of published walls', () => {
  it('timber wall: |Y12| 0.043974 (open repository of sononicola, Static and Dynamic thermal characterics of buildings components)', () => {
    const b = periodicBehaviour(fromInside(...d1), outdoors);
    close(b.transmittanceWm2K, 0.043974);
    // The rest is our own arithmetic on the same layers.
    close(b.decrement, 0.17677);
    close(b.lagS / 3600, 13.776);
    close(b.insideAdmittanceWm2K, 2.613);
    close(b.outsideAdmittanceWm2K, 2.73);
    close(b.insideCapacityJm2K, 36_210);
    close(b.outsideCapacityJm2K, 37_510);
  });
  it('timber wall with two layers exchanged', () => {
    const b = periodicBehaviour(fromInside(d1[0], d1[2], d1[1], d1[3]), outdoors);
    close(b.transmittanceWm2K, 0.051668);
    close(b.decrement, 0.2077);
    close(b.lagS / 3600, 13.557);
    close(b.insideCapacityJm2K, 26_540);
    close(b.outsideCapacityJm2K, 54_930);
  });
  it('concrete wall insulated in its core (open repository of S. Aragno, tests of building components)', () => {
    const b = periodicBehaviour(
      fromInside(
        layer(300, 1.8, 2400, 1000),
        layer(100, 0.034, 70, 700),
        layer(80, 0.35, 750, 840),
        layer(120, 0.8, 1800, 840),
        layer(20, 0.9, 1400, 840),
      ),
      outdoors,
    );
    close(b.decrement, 0.03239);
    close(b.lagS / 3600, 17.854);
    close(b.transmittanceWm2K, 0.008804);
    close(b.insideAdmittanceWm2K, 5.7303);
    close(b.outsideAdmittanceWm2K, 7.7158);
    close(b.insideCapacityJm2K, 78_776);
    close(b.outsideCapacityJm2K, 106_035);
  });
  it('wall with an air layer (open repository of S. Aragno, same)', () => {
    const b = periodicBehaviour(
      fromInside(
        layer(100, 1.8, 2400, 1000),
        { resistanceM2KW: 0.18 },
        layer(80, 0.35, 750, 840),
        layer(120, 0.8, 1800, 840),
        layer(50, 0.035, 175, 840),
        layer(20, 0.9, 1400, 840),
      ),
      outdoors,
    );
    close(b.decrement, 0.06014);
    close(b.lagS / 3600, 13.376);
    close(b.transmittanceWm2K, 0.026908);
    close(b.insideAdmittanceWm2K, 6.0131);
    close(b.outsideAdmittanceWm2K, 1.9639);
    close(b.insideCapacityJm2K, 82_966);
    close(b.outsideCapacityJm2K, 27_034);
  });
  it('concrete of the standard, bare and insulated (layers from memory of EN ISO 13786:2007 annex D, results derived)', () => {
    const concrete = layer(200, 1.8, 2400, 1000);
    const bare = periodicBehaviour([concrete], outdoors);
    close(bare.transmittanceWm2K, 1.8271);
    close(bare.decrement, 0.5136);
    close(bare.lagS / 3600, 5.676);
    close(bare.insideAdmittanceWm2K, 5.704);
    close(bare.outsideAdmittanceWm2K, 11.592);
    const warm = periodicBehaviour(fromInside(concrete, layer(100, 0.04, 30, 1400), layer(5, 1, 1200, 1500)), outdoors);
    close(warm.transmittanceWm2K, 0.060558);
    close(warm.decrement, 0.16872);
    close(warm.lagS / 3600, 8.109);
    close(warm.outsideCapacityJm2K, 12_480);
  });
  const none: Films = { outsideM2KW: 0, insideM2KW: 0 };
  it.each<[string, WallLayer[], Films, number, number, number, number]>([
    ['polystyrene 30 mm', [eps(30)], indoors, 0.89514, 0.8951, 0.99996, 3.25],
    ['polystyrene 50 mm', [eps(50)], indoors, 0.59222, 0.59207, 0.99976, 7.77],
    ['polystyrene 100 mm', [eps(100)], indoors, 0.32081, 0.3199, 0.99716, 27.09],
    ['wood, paper, wood', fromInside(softwood(12), paper, softwood(18)), indoors, 0.34822, 0.33202, 0.95347, 135.6],
    [
      'wood, leaves, wood',
      fromInside(softwood(12), layer(100, 0.06, 40, 1700), softwood(18)),
      indoors,
      0.46351,
      0.44605,
      0.96232,
      116.8,
    ],
    ['planks 16 mm', [softwood(16)], outdoors, 3.4121, 3.4087, 0.999, 13.2],
    ['brick 102.5 mm', [brick(102.5)], outdoors, 3.2991, 2.7739, 0.8408, 176.4],
    ['brick 215 mm', [brick(215)], outdoors, 2.2261, 1.0168, 0.4568, 419.34],
    ['moist soil 500 mm', [layer(500, 1.5, 1800, 1600)], none, 3, 0.5435, 0.1812, 777.48],
  ])('%s (derived from the standard)', (_name, layers, films, u, y12, decrement, lagMin) => {
    const b = periodicBehaviour(layers, films);
    close(transmittance(layers, films), u, 1e-4);
    close(b.transmittanceWm2K, y12);
    close(b.decrement, decrement);
    expect(Math.abs(b.lagS / 60 - lagMin)).toBeLessThan(Math.max(0.001 * lagMin, 0.05));
  });
});

describe('identities of the transfer matrix', () => {
  const layers = fromInside(...d1);
  it('has a determinant of 1', () => {
    const [ar, ai, br, bi, cr, ci, dr, di] = wallMatrix(layers, outdoors);
    expect(ar * dr - ai * di - (br * cr - bi * ci)).toBeCloseTo(1, 9);
    expect(ar * di + ai * dr - (br * ci + bi * cr)).toBeCloseTo(0, 9);
  });
  it('is the steady transmittance without mass, or for a very long period', () => {
    const massless = layers.map((l) => ({ ...l, densityKgM3: 1e-9 }) as WallLayer);
    const u = transmittance(layers, outdoors);
    close(periodicBehaviour(massless, outdoors).transmittanceWm2K, u, 1e-6);
    close(periodicBehaviour(layers, outdoors, 1e9).decrement, 1, 1e-6);
  });
  it('swaps its sides when the wall is reversed and leaves the transmittance', () => {
    const a = periodicBehaviour(layers, outdoors);
    const b = periodicBehaviour([...layers].reverse(), { outsideM2KW: 0.13, insideM2KW: 0.04 });
    close(a.transmittanceWm2K, b.transmittanceWm2K, 1e-9);
    close(a.insideAdmittanceWm2K, b.outsideAdmittanceWm2K, 1e-9);
    close(a.insideCapacityJm2K, b.outsideCapacityJm2K, 1e-9);
  });
  it('does not notice that a layer is split', () => {
    const split = [layer(40, 0.77, 1750, 1000), layer(62.5, 0.77, 1750, 1000)];
    const a = periodicBehaviour([brick(102.5)], outdoors);
    const b = periodicBehaviour(split, outdoors);
    close(a.transmittanceWm2K, b.transmittanceWm2K, 1e-10);
    close(a.lagS, b.lagS, 1e-10);
  });
});

describe('walls cut into cells', () => {
  const walls: [string, WallLayer[], Films][] = [
    ['30 mm polystyrene', [eps(30)], indoors],
    ['100 mm polystyrene', [eps(100)], indoors],
    ['wood, paper, wood', fromInside(softwood(12), paper, softwood(18)), indoors],
    ['half brick', [brick(102.5)], outdoors],
    ['whole brick', [brick(215)], outdoors],
    ['concrete', [layer(200, 1.8, 2400, 1000)], outdoors],
    ['five layers', fromInside(d1[0], d1[1], { resistanceM2KW: 0.18 }, d1[2], d1[3]), outdoors],
  ];
  it.each(walls)('the cells of %s follow a day within the criterion', (_n, layers, films) => {
    const counts = cellCounts(layers, films);
    const cut = cutWall(layers, counts, films);
    const exact = periodicBehaviour(layers, films);
    expect(Math.abs(cut.transmittanceWm2K / exact.transmittanceWm2K - 1)).toBeLessThan(boxCriterion.transmittance);
    expect(Math.abs(cut.lagS - exact.lagS)).toBeLessThan(Math.max(0.02 * exact.lagS, 30));
    expect(counts.reduce((a, b) => a + b, 0)).toBeLessThan(30);
  });
});

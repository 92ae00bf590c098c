import { describe, expect, it } from 'vitest';
import { insideFilm, outsideFilm, tabulatedFilms } from '../../../src/heat/surfaces.ts';
import {
  airLayerResistance,
  combinedMethod,
  type Films,
  totalResistance,
  transmittance,
} from '../../../src/heat/transmittance.ts';
import { layer } from './layers.ts';

const outdoors: Films = { outsideM2KW: 0.04, insideM2KW: 0.13 };
const indoors: Films = { outsideM2KW: 0.13, insideM2KW: 0.13 };

describe('surface resistances (EN ISO 6946)', () => {
  it('reproduces the tabulated inside resistances at 20 °C within 0.002', () => {
    for (const [direction, value] of Object.entries(tabulatedFilms.inside))
      expect(Math.abs(insideFilm(direction as 'up', 20) - value)).toBeLessThan(0.002);
  });
  it('gives a cold box 0.145 across, 0.106 up, 0.196 down at 5 °C', () => {
    expect(insideFilm('horizontal', 5)).toBeCloseTo(0.145, 3);
    expect(insideFilm('up', 5)).toBeCloseTo(0.106, 3);
    expect(insideFilm('down', 5)).toBeCloseTo(0.196, 3);
  });
  it('gives 0.041 outside at 4 m/s, 0 to 10 °C', () => {
    expect(outsideFilm(4, 0)).toBeCloseTo(0.041, 3);
    expect(outsideFilm(4, 10)).toBeCloseTo(0.041, 3);
  });
});

describe('transmittance of layers in series', () => {
  it('brick cavity wall with render and plaster: R 0.5434, U 1.840 (conserveandsave.co.uk, Wall U-values)', () => {
    const layers = [layer(18, 0.5), layer(102, 0.77), layer(102, 0.56), layer(13, 0.57)];
    expect(totalResistance(layers, outdoors)).toBeCloseTo(0.5434, 3);
    expect(Math.abs(transmittance(layers, outdoors) - 1.84)).toBeLessThan(0.001);
  });
  it('35 mm timber between two rooms: R 0.529, U 1.890 (RdSAP 10 construction library)', () => {
    expect(Math.abs(totalResistance([layer(35, 0.13)], indoors) - 0.529)).toBeLessThan(0.001);
    expect(Math.abs(transmittance([layer(35, 0.13)], indoors) - 1.89)).toBeLessThan(0.001);
  });
  it.each([
    [200, 7, 0.1429],
    [150, 5.571, 0.1795],
  ])('softwood wall with %i mm wool: R %f, U %f (lambdacalculator.eu)', (wool, r, u) => {
    const layers = [layer(15, 0.7), layer(140, 0.13), layer(wool, 0.035), layer(15, 0.87)];
    expect(Math.abs(totalResistance(layers, outdoors) - r)).toBeLessThan(0.001);
    expect(Math.abs(transmittance(layers, outdoors) - u)).toBeLessThan(0.0001);
  });
  it.each([
    ['wall', [layer(12, 0.16), layer(66, 0.04), layer(9, 0.14)], 0.559, 0.514],
    ['roof', [layer(10, 0.16), layer(111.8, 0.04), layer(19, 0.14)], 0.334, 0.318],
  ] as const)('light %s of ANSI/ASHRAE 140', (_name, layers, surfaces, air) => {
    expect(Math.abs(transmittance(layers, { outsideM2KW: 0, insideM2KW: 0 }) - surfaces)).toBeLessThan(0.001);
    const films = { outsideM2KW: 1 / 29.3, insideM2KW: 1 / 8.29 };
    expect(Math.abs(transmittance(layers, films) - air)).toBeLessThan(0.001);
  });
  it('30 mm polystyrene: 0.8951 between heated-room films, 0.872 between cold-box films', () => {
    expect(Math.abs(transmittance([layer(30, 0.035)], indoors) - 0.8951)).toBeLessThan(0.0001);
    expect(transmittance([layer(30, 0.036)], indoors)).toBeCloseTo(0.9146, 4);
    expect(transmittance([layer(30, 0.038)], indoors)).toBeCloseTo(0.9529, 4);
    const film = insideFilm('horizontal', 5);
    expect(transmittance([layer(30, 0.035)], { outsideM2KW: film, insideM2KW: film })).toBeCloseTo(0.872, 3);
  });
  it('refuses a wall without resistance', () => {
    expect(() => transmittance([], { outsideM2KW: 0, insideM2KW: 0 })).toThrow(RangeError);
  });
});

describe('combined method for bridged layers', () => {
  it('brick, cavity, blocks with mortar, wool with timber, board: upper 3.390, lower 2.973, U 0.314 (Approved Document L, Appendix B)', () => {
    const plain = (r: number) => [{ share: 1, resistanceM2KW: r }];
    const result = combinedMethod(
      [
        plain(0.102 / 0.77),
        plain(0.18),
        [
          { share: 0.933, resistanceM2KW: 0.1 / 0.11 },
          { share: 0.067, resistanceM2KW: 0.1 / 0.88 },
        ],
        [
          { share: 0.882, resistanceM2KW: 0.089 / 0.038 },
          { share: 0.118, resistanceM2KW: 0.089 / 0.13 },
        ],
        plain(0.0125 / 0.25),
      ],
      outdoors,
    );
    expect(Math.abs(result.upper - 3.39)).toBeLessThan(0.001);
    expect(Math.abs(result.lower - 2.973)).toBeLessThan(0.001);
    expect(Math.abs(result.u - 0.314)).toBeLessThan(0.001);
  });
  it('refuses shares that do not add up to 1', () => {
    expect(() => combinedMethod([[{ share: 0.5, resistanceM2KW: 1 }]], outdoors)).toThrow(/0.5/);
  });
});

describe('unventilated air layers (EN ISO 6946)', () => {
  it.each([
    [0.1, 'horizontal', 0.18],
    [0.19, 'up', 0.16],
    [0.05, 'down', 0.21],
    [0.007, 'horizontal', 0.13],
  ] as const)('%f m, heat flow %s: %f', (thickness, direction, r) => {
    expect(airLayerResistance(thickness, direction)).toBeCloseTo(r, 10);
  });
});

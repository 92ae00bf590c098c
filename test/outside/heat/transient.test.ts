import { describe, expect, it } from 'vitest';
import { heatedBody } from './ladder.ts';

// Unit slab: λ 1, ρc 1, thickness 1, so that time is the Fourier number.
const unit = (filmWm2K: number, cells = 150) =>
  heatedBody({ shape: 'slab', sizeM: 1, conductivityWmK: 1, heatJm3K: 1, filmWm2K, cells });

describe('slab with both faces stepped (Carslaw and Jaeger 1959, chapter 3)', () => {
  const slab = unit(Number.POSITIVE_INFINITY);
  it.each([
    [0.05, 0.99687, 0.74769],
    [0.1, 0.94931, 0.64318],
    [0.2, 0.77231, 0.49591],
    [0.3, 0.6068, 0.38676],
    [0.5, 0.37078, 0.23605],
    [1, 0.10798, 0.06874],
  ])('Fo %f: centre and mean within 0.05 %% of the step', (fo, centre, mean) => {
    expect(Math.abs(slab.centre(fo) - centre)).toBeLessThan(5e-4);
    expect(Math.abs(slab.mean(fo) - mean)).toBeLessThan(5e-4);
  });
});

describe('slab with a film (full series)', () => {
  it.each([
    [1, 0.2, 0.95064, 0.64339],
    [1, 0.5, 0.77253, 0.50452],
    [1, 1, 0.53386, 0.34818],
    [10, 0.2, 0.82925, 0.12248],
    [10, 0.5, 0.45464, 0.06433],
    [0.1, 1, 0.92239, 0.87813],
  ])('Bi %f, Fo %f: centre and surface', (bi, fo, centre, surface) => {
    const slab = unit(bi);
    expect(Math.abs(slab.centre(fo) - centre)).toBeLessThan(5e-4);
    expect(Math.abs(slab.surface(fo) - surface)).toBeLessThan(5e-4);
  });
  it.each([
    [0.1, 0.3111],
    [0.5, 0.6533],
    [1, 0.8603],
    [10, 1.4289],
    [100, 1.5552],
  ])('Bi %f: first root ζ1 %f (Incropera and DeWitt, table 5.1; from memory)', (bi, root) => {
    expect(1 / Math.sqrt(unit(bi).slowestS)).toBeCloseTo(root, 3);
  });
  it.each([
    [0.1, 0.5423],
    [1, 1.5708],
    [10, 2.8363],
  ])('sphere, Bi %f: first root ζ1 %f (same)', (bi, root) => {
    const sphere = heatedBody({ shape: 'sphere', sizeM: 1, conductivityWmK: 1, heatJm3K: 1, filmWm2K: bi });
    expect(1 / Math.sqrt(sphere.slowestS)).toBeCloseTo(root, 2);
  });
});

describe('textbook examples (from memory)', () => {
  it('an egg of 5 cm from 5 to 70 °C in boiling water: 862 s (Çengel)', () => {
    const k = 0.627;
    const egg = heatedBody({
      shape: 'sphere',
      sizeM: 0.025,
      conductivityWmK: k,
      heatJm3K: k / 0.151e-6,
      filmWm2K: 1200,
    });
    const at = (s: number) => 95 - 90 * egg.centre(s);
    expect(at(861.5 * 0.99)).toBeLessThan(70);
    expect(at(861.5 * 1.01)).toBeGreaterThan(70);
  });
  it('a brass plate of 4 cm, 20 °C into 500 °C for 7 min: surface 279.6 °C (Çengel)', () => {
    const plate = heatedBody({
      shape: 'slab',
      sizeM: 0.02,
      conductivityWmK: 110,
      heatJm3K: 110 / 33.9e-6,
      filmWm2K: 120,
      cells: 40,
    });
    expect(Math.abs(500 - 480 * plate.surface(420) - 279.6)).toBeLessThan(2.8);
  });
  it('a pipe wall of 40 mm, oil at 60 °C, from -20 °C: 42.9 to 43.0 °C and 45.2 to 45.4 °C after 8 min (Incropera and DeWitt 5.4)', () => {
    const wall = heatedBody({
      shape: 'slab',
      sizeM: 0.04,
      conductivityWmK: 63.9,
      heatJm3K: 7832 * 434,
      filmWm2K: 500,
      cells: 60,
    });
    const far = 60 - 80 * wall.centre(480);
    const wet = 60 - 80 * wall.surface(480);
    expect(far).toBeGreaterThan(42.8);
    expect(far).toBeLessThan(43.1);
    expect(wet).toBeGreaterThan(45.1);
    expect(wet).toBeLessThan(45.5);
    const flux = 500 * (wet - 60);
    expect(flux).toBeGreaterThan(-7450);
    expect(flux).toBeLessThan(-7250);
  });
  it('a thermocouple bead follows to 99 % in 9.94 s (Çengel), a junction of 1 s to 199 °C in 5.2 s (Incropera and DeWitt 5.1)', () => {
    const bead = heatedBody({
      shape: 'sphere',
      sizeM: 0.0005,
      conductivityWmK: 35,
      heatJm3K: 8500 * 320,
      filmWm2K: 210,
      cells: 20,
    });
    expect(bead.mean(9.94)).toBeCloseTo(0.01, 3);
    const junction = heatedBody({
      shape: 'sphere',
      sizeM: 0.000353,
      conductivityWmK: 20,
      heatJm3K: 8500 * 400,
      filmWm2K: 400,
      cells: 20,
    });
    expect(Math.abs(200 - 175 * junction.mean(5.16) - 199)).toBeLessThan(0.05);
  });
  it('frost comes down to 0.68 m in 60 days (Incropera and DeWitt) and 0.80 m in 90 days (Çengel)', () => {
    const ground = (k: number, heatJm3K: number) =>
      heatedBody({
        shape: 'slab',
        sizeM: 6,
        conductivityWmK: k,
        heatJm3K,
        filmWm2K: Number.POSITIVE_INFINITY,
        cells: 240,
      });
    const main = ground(0.52, 2050 * 1840);
    expect(Math.abs(-15 + 35 * main.atDepth(0.6766, 60 * 86_400))).toBeLessThan(0.1);
    const pipe = ground(0.4, 0.4 / 0.15e-6);
    expect(Math.abs(-10 + 25 * pipe.atDepth(0.8009, 90 * 86_400))).toBeLessThan(0.1);
  });
});

describe('half space with a film, 24 h (Carslaw and Jaeger; derived)', () => {
  it('has 0.84616 of the step at the surface and 0.60189 at 0.1 m', () => {
    const soil = heatedBody({
      shape: 'slab',
      sizeM: 1.6,
      conductivityWmK: 1.5,
      heatJm3K: 1.5 / 5.2083e-7,
      filmWm2K: 25,
      cells: 200,
    });
    expect(1 - soil.surface(86_400)).toBeCloseTo(0.84616, 3);
    expect(1 - soil.atDepth(0.1, 86_400)).toBeCloseTo(0.60189, 3);
  });
});

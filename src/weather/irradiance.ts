import type { SolarPosition } from './sun.ts';

const RAD = Math.PI / 180;

/**
 * Sun on a horizontal surface under a clear sky, W/m2: 1098 sin h exp(-0.059 / sin h), 0 below the horizon.
 * Haurwitz 1945, J. Meteorol. 2:154-166; exponent as in open solar libraries (0.057 is also printed: up to 2 % more at 5°).
 */
export function clearSkyWm2(elevationDeg: number): number {
  return clearSkyBySine(Math.sin(elevationDeg * RAD));
}

const clearSkyBySine = (sine: number): number => (sine <= 0 ? 0 : 1098 * sine * Math.exp(-0.059 / sine));

/** Share of the light that ground throws back: grass and earth. */
const GROUND_REFLECTANCE = 0.2;

/**
 * Share of the clear-sky sun that comes through cloud covering `cloudShare` (0 to 1) of the sky: 1 - 0.75 N^3.4.
 * Kasten and Czeplak 1980, Solar Energy 24:177-189.
 */
export function cloudTransmission(cloudShare: number): number {
  return 1 - 0.75 * cloudShare ** 3.4;
}

/** Diffuse share of the sun on a horizontal surface, 0.3 clear to 1 overcast: 0.3 + 0.7 N^2. Kasten and Czeplak 1980 (from memory). */
export function diffuseShare(cloudShare: number): number {
  return 0.3 + 0.7 * cloudShare * cloudShare;
}

/** How a surface stands: tilt from horizontal (0 roof lying flat, 90 wall) and the bearing it faces, from north over east. */
export interface SurfaceFacing {
  readonly tiltDeg: number;
  readonly azimuthDeg: number;
}

/**
 * Sun on a surface, W/m2: beam by the angle of incidence, sky light and light from the ground spread evenly (Liu and Jordan 1963,
 * Solar Energy 7:53-74; from memory). `cloudShare` 0 to 1; ground reflectance 0.2 is the usual value for grass and earth.
 */
export function surfaceSunWm2(
  sun: SolarPosition,
  cloudShare: number,
  surface: SurfaceFacing,
  groundReflectance = GROUND_REFLECTANCE,
): number {
  const global = clearSkyWm2(sun.elevationDeg) * cloudTransmission(cloudShare);
  if (global <= 0) return 0;
  const diffuse = global * diffuseShare(cloudShare);
  const sineElevation = Math.sin(sun.elevationDeg * RAD);
  const cosTilt = Math.cos(surface.tiltDeg * RAD);
  const incidence =
    sineElevation * cosTilt +
    Math.cos(sun.elevationDeg * RAD) *
      Math.sin(surface.tiltDeg * RAD) *
      Math.cos((sun.azimuthDeg - surface.azimuthDeg) * RAD);
  const beam = ((global - diffuse) / sineElevation) * Math.max(0, incidence);
  return beam + (diffuse * (1 + cosTilt)) / 2 + (global * groundReflectance * (1 - cosTilt)) / 2;
}

/** The sun's path over a set of instants as a vector of length 1 towards it; all 0 while it is below the horizon. */
export interface SunVectors {
  readonly up: Float64Array;
  readonly north: Float64Array;
  readonly east: Float64Array;
}

/** Light at the same instants under a sky, W/m2: on a surface that faces the sun, and from the sky and of all kinds on a horizontal one. */
export interface SkyLight {
  readonly beamWm2: Float64Array;
  readonly diffuseWm2: Float64Array;
  readonly globalWm2: Float64Array;
}

/** Light through the cloud `cloudShareAt` tells of at each instant of a sun's path: the part of `surfaceSunWm2` that no surface changes. */
export function skyLight(sun: SunVectors, cloudShareAt: (i: number) => number): SkyLight {
  const n = sun.up.length;
  const beamWm2 = new Float64Array(n);
  const diffuseWm2 = new Float64Array(n);
  const globalWm2 = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const sine = sun.up[i]!;
    if (sine <= 0) continue;
    const cloud = cloudShareAt(i);
    const global = clearSkyBySine(sine) * cloudTransmission(cloud);
    const diffuse = global * diffuseShare(cloud);
    globalWm2[i] = global;
    diffuseWm2[i] = diffuse;
    beamWm2[i] = (global - diffuse) / sine;
  }
  return { beamWm2, diffuseWm2, globalWm2 };
}

/** A surface, and how much of the sun on it counts. */
export interface WeighedSurface {
  readonly facing: SurfaceFacing;
  readonly weight: number;
}

/**
 * Several surfaces as one: `beam` of the beam at each instant, and shares of the sky's and of all light, so that the weighed sum of
 * `surfaceSunWm2` over them is beam x beamWm2 + ofDiffuse x diffuseWm2 + ofGlobal x globalWm2, whatever the clouds.
 */
export interface Exposure {
  readonly beam: Float64Array;
  readonly ofDiffuse: number;
  readonly ofGlobal: number;
}

/** The exposure of surfaces along a sun's path; none of them gives an exposure of 0. */
export function exposureOf(sun: SunVectors, surfaces: readonly WeighedSurface[]): Exposure {
  const n = sun.up.length;
  const { up, north, east } = sun;
  const beam = new Float64Array(n);
  let ofDiffuse = 0;
  let ofGlobal = 0;
  for (const { facing, weight } of surfaces) {
    const cosTilt = Math.cos(facing.tiltDeg * RAD);
    const sinTilt = Math.sin(facing.tiltDeg * RAD);
    const toNorth = sinTilt * Math.cos(facing.azimuthDeg * RAD);
    const toEast = sinTilt * Math.sin(facing.azimuthDeg * RAD);
    for (let i = 0; i < n; i++) {
      const incidence = up[i]! * cosTilt + north[i]! * toNorth + east[i]! * toEast;
      if (incidence > 0) beam[i] = beam[i]! + weight * incidence;
    }
    ofDiffuse += (weight * (1 + cosTilt)) / 2;
    ofGlobal += (weight * GROUND_REFLECTANCE * (1 - cosTilt)) / 2;
  }
  return { beam, ofDiffuse, ofGlobal };
}

/** Adds the sun on an exposure under a sky, W/m2 (times its weights), to `into`. */
export function addSun(into: Float64Array, exposure: Exposure, light: SkyLight): void {
  const { beam, ofDiffuse, ofGlobal } = exposure;
  const { beamWm2, diffuseWm2, globalWm2 } = light;
  for (let i = 0; i < into.length; i++)
    into[i] = into[i]! + (beam[i]! * beamWm2[i]! + (ofDiffuse * diffuseWm2[i]! + ofGlobal * globalWm2[i]!));
}

/**
 * Sol-air temperature, °C: the air temperature that would pass the same heat into a surface as sun and long-wave loss together do,
 * T + αI/h - εΔR/h. ASHRAE Handbook of Fundamentals (from memory).
 *
 * `absorptance` α and `emissivity` ε 0 to 1, `sunWm2` I on the surface, `coefficientWm2K` h of the outside film (about 25, 0.04 m2K/W),
 * `longWaveLossWm2` ΔR from a black surface at air temperature to the sky and surroundings (about 63 for a flat roof, 0 for a wall).
 */
export function solAirTempC(
  airTempC: number,
  sunWm2: number,
  surface: { readonly absorptance: number; readonly emissivity: number; readonly coefficientWm2K: number },
  longWaveLossWm2 = 0,
): number {
  return airTempC + (surface.absorptance * sunWm2 - surface.emissivity * longWaveLossWm2) / surface.coefficientWm2K;
}

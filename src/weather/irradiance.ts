import type { SolarPosition } from './sun.ts';

const RAD = Math.PI / 180;

/**
 * Sun on a horizontal surface under a clear sky, W/m2: 1098 sin h exp(-0.059 / sin h), 0 below the horizon.
 * Haurwitz 1945, J. Meteorol. 2:154-166; exponent as in open solar libraries (0.057 is also printed: up to 2 % more at 5°).
 */
export function clearSkyWm2(elevationDeg: number): number {
  const sine = Math.sin(elevationDeg * RAD);
  return sine <= 0 ? 0 : 1098 * sine * Math.exp(-0.059 / sine);
}

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
  groundReflectance = 0.2,
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

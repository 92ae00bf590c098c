import { ZERO_CELSIUS_K } from '../measure/units.ts';
import { SKY_MODELS, type SkyModel } from './sky-models.ts';

/** Stefan-Boltzmann constant, W/(m2 K4) (CODATA 2018). */
const STEFAN_BOLTZMANN = 5.670374419e-8;

/**
 * How much clouds raise the clear sky's radiation: 1 + 0.0224 N - 0.0035 N2 + 0.00028 N3, N in tenths.
 * Walton 1983, as quoted with Clark and Allen 1978. `cloudShare` 0 to 1.
 */
export function cloudLongWaveFactor(cloudShare: number): number {
  const n = cloudShare * 10;
  return 1 + (0.0224 - (0.0035 - 0.00028 * n) * n) * n;
}

/** Long-wave radiation coming down from the sky on a horizontal surface, W/m2. Never more than a black body at air temperature gives. */
export function skyLongWaveWm2(
  airTempC: number,
  dewPointC: number,
  cloudShare: number,
  model: SkyModel = SKY_MODELS[0]!,
): number {
  const emissivity = model.emissivity(airTempC, dewPointC) * cloudLongWaveFactor(cloudShare);
  return Math.min(1, emissivity) * STEFAN_BOLTZMANN * (airTempC + ZERO_CELSIUS_K) ** 4;
}

/** What a black horizontal surface at air temperature loses to the sky, W/m2: the ΔR of the sol-air temperature. */
export function skyLongWaveLossWm2(
  airTempC: number,
  dewPointC: number,
  cloudShare: number,
  model: SkyModel = SKY_MODELS[0]!,
): number {
  return STEFAN_BOLTZMANN * (airTempC + ZERO_CELSIUS_K) ** 4 - skyLongWaveWm2(airTempC, dewPointC, cloudShare, model);
}

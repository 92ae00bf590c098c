import { ZERO_CELSIUS_K } from '../measure/units.ts';
import { DIFFUSION_IN_AIR, type Gas, STANDARD_PRESSURE_PA } from './constants.ts';

/**
 * Diffusion coefficient of a gas in air, m2/s: D0 (T / 273.15)^n (101,325 Pa / p), each gas with its own row and source.
 *
 * @param tempC air temperature, -40 to 100 °C
 * @param pressurePa air pressure, sea level when not given
 */
export function diffusionM2S(gas: Gas, tempC: number, pressurePa: number = STANDARD_PRESSURE_PA): number {
  const row = DIFFUSION_IN_AIR[gas];
  return row.at0C * ((tempC + ZERO_CELSIUS_K) / ZERO_CELSIUS_K) ** row.exponent * (STANDARD_PRESSURE_PA / pressurePa);
}

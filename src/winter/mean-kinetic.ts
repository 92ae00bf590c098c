import { ZERO_CELSIUS_K } from '../measure/units.ts';

/** Activation energy over the gas constant, K: 83.144 kJ/mol over 8.3144 J/(mol K), the convention for stored goods (from memory). */
const ACTIVATION_K = 10_000;

/**
 * Mean kinetic temperature, °C: T_mk = (dH/R) / -ln(mean of exp(-dH/(R T_i))), T in kelvin, each value weighted by its duration
 * (form of USP <1079>). One number for how warm a stretch was; never below the plain mean. An index, no claim about the animal.
 *
 * @param weights durations in any one unit; left out: equal
 */
export function meanKineticTemperatureC(tempsC: ArrayLike<number>, weights?: ArrayLike<number>): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < tempsC.length; i++) {
    const weight = weights ? weights[i]! : 1;
    sum += weight * Math.exp(-ACTIVATION_K / (tempsC[i]! + ZERO_CELSIUS_K));
    total += weight;
  }
  if (!(total > 0)) throw new RangeError('A mean needs at least one value of some duration');
  return ACTIVATION_K / -Math.log(sum / total) - ZERO_CELSIUS_K;
}

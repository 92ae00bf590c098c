import type { Spread } from '../measure/spread.ts';
import {
  HUGHES_OXYGEN,
  OXYGEN_AT_5C,
  OXYGEN_MASS_EXPONENT,
  OXYGEN_Q10_COLD,
  OXYGEN_Q10_WARM,
  Q10_LEG_C,
} from './constants.ts';

/** How many times the rate at 5 °C is reached at `tempC`, with one Q10 up to 15 °C and another above. */
export function rateRatioFrom5C(tempC: number, q10Cold: number, q10Warm: number): number {
  const cold = q10Cold ** ((Math.min(tempC, Q10_LEG_C) - 5) / 10);
  return tempC <= Q10_LEG_C ? cold : cold * q10Warm ** ((tempC - Q10_LEG_C) / 10);
}

/**
 * Oxygen use of a resting or sleeping animal, ml/h at 0 °C and 101,325 Pa dry: 1.5 W^0.82 ml/h at 5 °C (nine in ten between
 * 0.5 and 5), changed by Q10. The range of the Q10 widens the range away from 5 °C.
 *
 * @param massKg above 0
 * @param tempC body temperature, -1 to 25 °C; the warm leg is not known above
 */
export function oxygenUseMlH(massKg: number, tempC: number): Spread {
  if (!(massKg > 0)) throw new RangeError(`mass must be above 0 kg, not ${massKg}`);
  const size = massKg ** OXYGEN_MASS_EXPONENT.value;
  const cold = OXYGEN_Q10_COLD.value;
  const warm = OXYGEN_Q10_WARM.value;
  const rate = OXYGEN_AT_5C.value;
  // Below 5 °C a high Q10 slows the animal, so the ends change places.
  const [low, high] = tempC >= 5 ? [cold.low, cold.high] : [cold.high, cold.low];
  return {
    low: rate.low * size * rateRatioFrom5C(tempC, low, warm.low),
    mid: rate.mid * size * rateRatioFrom5C(tempC, cold.mid, warm.mid),
    high: rate.high * size * rateRatioFrom5C(tempC, high, warm.high),
  };
}

/**
 * The line of Hughes et al. 1971 for inactive giant tortoises at 25.5 °C, ml/h: 45.47 W^0.82. For comparison only: carried
 * down to 20 °C it is 3 to 4 times what a small land turtle was measured to use at rest (Gatten 1974).
 */
export function hughesOxygenMlH(massKg: number): number {
  return HUGHES_OXYGEN.value * massKg ** OXYGEN_MASS_EXPONENT.value;
}

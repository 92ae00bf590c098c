import { ZERO_CELSIUS_K } from '../measure/units.ts';
import {
  DRY_AIR_GAS_CONSTANT,
  STANDARD_PRESSURE_PA,
  VAPOUR_GAS_CONSTANT,
  WATER_TO_AIR_MOLAR_RATIO,
} from './constants.ts';

/**
 * Humid air by the formulas of the ASHRAE Handbook of Fundamentals 2017, chapter 1. Relative humidity is a share, 0 to 1,
 * and below 0 °C it is counted against ice, as a hygrometer in a frosted box would after some time.
 */

const COLDEST_C = -100;
const HOTTEST_C = 200;
// Above the triple point water, below it ice: at 0.01 °C both formulas give 611.66 Pa.
const TRIPLE_POINT_C = 0.01;

/**
 * Saturation pressure of water vapour, Pa, over ice below 0.01 °C and over liquid water above (Hyland and Wexler 1983, as
 * ASHRAE 2017 chapter 1, equations 5 and 6).
 *
 * @param tempC -100 to 200 °C; RangeError outside
 */
export function saturationPressurePa(tempC: number): number {
  if (!(tempC >= COLDEST_C && tempC <= HOTTEST_C))
    throw new RangeError(`saturation pressure is known from ${COLDEST_C} to ${HOTTEST_C} °C, not at ${tempC} °C`);
  const t = tempC + ZERO_CELSIUS_K;
  if (tempC <= TRIPLE_POINT_C) {
    return Math.exp(
      -5.6745359e3 / t +
        6.3925247 +
        t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 + t * -9.484024e-13))) +
        4.1635019 * Math.log(t),
    );
  }
  return Math.exp(
    -5.8002206e3 / t +
      1.3914993 +
      t * (-4.8640239e-2 + t * (4.1764768e-5 + t * -1.4452093e-8)) +
      6.5459673 * Math.log(t),
  );
}

/** Vapour pressure, Pa, of air at `tempC` and `relativeHumidity` (0 to 1). */
export function vapourPressurePa(tempC: number, relativeHumidity: number): number {
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1))
    throw new RangeError(`relative humidity is a share from 0 to 1, not ${relativeHumidity}`);
  return relativeHumidity * saturationPressurePa(tempC);
}

/** Water vapour in the air, kg/m3: e / (R_v T). Saturated at 5 °C: 0.0068. */
export function vapourDensityKgM3(tempC: number, relativeHumidity: number): number {
  return vapourPressurePa(tempC, relativeHumidity) / (VAPOUR_GAS_CONSTANT.value * (tempC + ZERO_CELSIUS_K));
}

/** Relative humidity, 0 to 1, of air at `tempC` that holds `densityKgM3` of vapour; 1 when it would be more. */
export function relativeHumidityOf(densityKgM3: number, tempC: number): number {
  return Math.min(1, Math.max(0, densityKgM3 / vapourDensityKgM3(tempC, 1)));
}

/**
 * Dew point (frost point below 0 °C), °C: the temperature at which air of this vapour pressure is saturated.
 *
 * @param pressurePa vapour pressure, above 0.0015 Pa (the saturation pressure at -100 °C)
 */
export function dewPointC(pressurePa: number): number {
  if (!(pressurePa > saturationPressurePa(COLDEST_C) && pressurePa < saturationPressurePa(HOTTEST_C)))
    throw new RangeError(`no dew point from ${COLDEST_C} to ${HOTTEST_C} °C has a vapour pressure of ${pressurePa} Pa`);
  // The saturation pressure rises steadily, so halving the interval finds the one place, to 1e-7 K.
  let low = COLDEST_C;
  let high = HOTTEST_C;
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (saturationPressurePa(middle) < pressurePa) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Humidity ratio, kg of vapour per kg of dry air, without the enhancement factor (0.5 % low against the tables). */
export function humidityRatio(vapourPa: number, pressurePa: number = STANDARD_PRESSURE_PA): number {
  return (WATER_TO_AIR_MOLAR_RATIO.value * vapourPa) / (pressurePa - vapourPa);
}

/** Density of the moist air itself, kg/m3. Moist air is lighter than dry air at the same temperature. */
export function airDensityKgM3(
  tempC: number,
  relativeHumidity: number,
  pressurePa: number = STANDARD_PRESSURE_PA,
): number {
  const vapourPa = vapourPressurePa(tempC, relativeHumidity);
  const dryKgM3 = (pressurePa - vapourPa) / (DRY_AIR_GAS_CONSTANT.value * (tempC + ZERO_CELSIUS_K));
  return dryKgM3 * (1 + humidityRatio(vapourPa, pressurePa));
}

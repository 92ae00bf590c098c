import { vapourDensityKgM3 } from '../air/humid-air.ts';
import { AREA_M2_PER_KG23, DAYS_PER_MONTH, USUAL_LOSS } from './constants.ts';

const DAY_S = 86_400;

/** Outer area, m2: 0.10 M^(2/3) with limbs out (M in kg). Every k in this room belongs to this area. */
export function bodyAreaM2(massKg: number): number {
  return AREA_M2_PER_KG23.value * massKg ** (2 / 3);
}

/**
 * How much drier the air is than the animal's skin, kg/m3: saturated at body temperature less what the air holds.
 * Negative when the animal is colder than the dew point of its air.
 *
 * @param relativeHumidity share 0 to 1
 * @param bodyTempC the air's temperature when not given; an animal 1 K warmer than its air loses a third more
 */
export function vapourDeficitKgM3(airTempC: number, relativeHumidity: number, bodyTempC: number = airTempC): number {
  return vapourDensityKgM3(bodyTempC, 1) - vapourDensityKgM3(airTempC, relativeHumidity);
}

/** The k, m/s, that makes a 1 kg animal lose 1 % a month at 5 °C and 80 % relative humidity: 2.80e-5. */
export const USUAL_K_MS: number =
  (USUAL_LOSS.massKg * USUAL_LOSS.sharePerMonth) /
  (DAYS_PER_MONTH * DAY_S) /
  (bodyAreaM2(USUAL_LOSS.massKg) * vapourDeficitKgM3(USUAL_LOSS.tempC, USUAL_LOSS.relativeHumidity));

/** k A, m3/s: how much air the animal would fill with its own saturated vapour in a second. */
export function evaporationM3S(massKg: number, kMS: number = USUAL_K_MS): number {
  return kMS * bodyAreaM2(massKg);
}

/**
 * Water lost by evaporation, g per day: k A (rho_sat(T_body) - rho_air). That loss follows the vapour deficit and not the
 * size of the animal was found in Apalone spinifera (Physiol. Zool. 1982); a mass exponent near 2/3 in Chelonia mydas.
 */
export function waterLossGPerDay(massKg: number, deficitKgM3: number, kMS: number = USUAL_K_MS): number {
  return evaporationM3S(massKg, kMS) * deficitKgM3 * DAY_S * 1000;
}

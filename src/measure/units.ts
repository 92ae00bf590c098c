/** Conversions between what a keeper reads and what the code computes in. All are exact definitions (NIST SP 811). */

export const GRAMS_PER_OUNCE = 28.349523125;
export const MM_PER_INCH = 25.4;
export const ZERO_CELSIUS_K = 273.15;

export const fahrenheitToCelsius = (tempF: number): number => ((tempF - 32) * 5) / 9;
export const celsiusToFahrenheit = (tempC: number): number => (tempC * 9) / 5 + 32;
export const kelvinToCelsius = (tempK: number): number => tempK - ZERO_CELSIUS_K;
export const ouncesToGrams = (massOz: number): number => massOz * GRAMS_PER_OUNCE;
export const gramsToOunces = (massG: number): number => massG / GRAMS_PER_OUNCE;
export const inchesToMm = (lengthIn: number): number => lengthIn * MM_PER_INCH;
export const mmToInches = (lengthMm: number): number => lengthMm / MM_PER_INCH;

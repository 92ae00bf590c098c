import { celsiusToFahrenheit, gramsToOunces, mmToInches } from './units.ts';

/** Numbers as a keeper reads them: sensible digits, a real minus sign, grouping by comma, unit behind a no-break space. */

export type TemperatureUnit = 'C' | 'F';
export type MassUnit = 'g' | 'oz';
export type LengthUnit = 'mm' | 'in';

const NBSP = '\u00a0';
const MINUS = '\u2212';

/** `value` with `digits` decimals; -0 never appears; thousands grouped. NaN and infinities give an en dash. */
export function figure(value: number, digits = 0): string {
  if (!Number.isFinite(value)) return '\u2013';
  const rounded = Number(value.toFixed(digits));
  const text = Math.abs(rounded).toFixed(digits);
  const [whole = '0', fraction] = text.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, ',');
  return `${rounded < 0 ? MINUS : ''}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

export function temperature(tempC: number, unit: TemperatureUnit = 'C', digits = 1): string {
  return unit === 'C' ? `${figure(tempC, digits)}${NBSP}°C` : `${figure(celsiusToFahrenheit(tempC), digits)}${NBSP}°F`;
}

/** A difference of temperatures: kelvins, or Fahrenheit degrees. */
export function temperatureDifference(differenceK: number, unit: TemperatureUnit = 'C', digits = 1): string {
  return unit === 'C' ? `${figure(differenceK, digits)}${NBSP}K` : `${figure((differenceK * 9) / 5, digits)}${NBSP}°F`;
}

export function mass(massG: number, unit: MassUnit = 'g'): string {
  if (unit === 'oz') return `${figure(gramsToOunces(massG), massG < 300 ? 2 : 1)}${NBSP}oz`;
  return `${figure(massG, massG < 100 ? 1 : 0)}${NBSP}g`;
}

export function length(lengthMm: number, unit: LengthUnit = 'mm'): string {
  return unit === 'mm' ? `${figure(lengthMm)}${NBSP}mm` : `${figure(mmToInches(lengthMm), 2)}${NBSP}in`;
}

/** A share 0 to 1 as per cent. */
export function percent(share: number, digits = 0): string {
  return `${figure(share * 100, digits)}${NBSP}%`;
}

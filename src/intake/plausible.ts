/** Coldest and warmest that a thermometer in a garden, shed, house or refrigerator is believed, °C. */
const COLDEST_C = -55;
const WARMEST_C = 60;
/** What a common digital thermometer says before it has measured, °C. */
const POWER_ON_C = 85;

/**
 * Why a temperature in °C cannot be taken as it is, for files and for senders alike: `impossible` is refused; `power-on-value` is kept and
 * drawn but not trusted; `undefined` when nothing speaks against it. NaN is impossible.
 */
export function doubt(tempC: number): 'impossible' | 'power-on-value' | undefined {
  if (Math.abs(tempC - POWER_ON_C) < 1e-6) return 'power-on-value';
  return tempC >= COLDEST_C && tempC <= WARMEST_C ? undefined : 'impossible';
}

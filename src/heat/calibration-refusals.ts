/** Why readings are refused before any fit, and why a factor could not be told after one. */
import { figure, temperatureDifference } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import { calibrationFactors, type FactorId, thermometer } from './calibration-data.ts';
import { type CalibratedHouse, type CalibrationReadings, grids, interpolate } from './calibration-readings.ts';

/** Checks that need no fit. */
export function unusable(house: CalibratedHouse, { points, spans }: CalibrationReadings): Message | undefined {
  const count = points.reduce((sum, one) => sum + one.atS.length, 0);
  if (count < thermometer.leastReadings && spans.length < thermometer.leastSpans)
    return message('heat.calibration.too-few', {
      count: figure(count),
      least: figure(thermometer.leastReadings),
      spans: figure(thermometer.leastSpans),
    });
  const starts = [...points.map((one) => one.atS[0] ?? Number.POSITIVE_INFINITY), ...spans.map((one) => one.fromS)];
  const ends = [...points.map((one) => one.atS.at(-1) ?? Number.NEGATIVE_INFINITY), ...spans.map((one) => one.toS)];
  const from = Math.min(...starts);
  const to = Math.max(...ends);
  if (to - from < thermometer.leastSpanS)
    return message('heat.calibration.too-short', {
      hours: figure((to - from) / 3600),
      least: figure(thermometer.leastSpanS / 3600),
    });
  const gridTo = house.fromS + (house.samples - 1) * house.stepS;
  if (from < house.fromS - 1 || to > gridTo + 1) return message('heat.calibration.no-weather');
  for (const { maxC, minC, fromS, toS } of spans)
    if (maxC < minC || !(toS > fromS)) return message('heat.calibration.max-under-min');
  for (const { atS } of points)
    for (let i = 1; i < atS.length; i++) if (!(atS[i]! > atS[i - 1]!)) return message('heat.calibration.order');
  return contradiction(house, { points, spans });
}

/**
 * Readings warmer (or colder) through their second half than the least loss, the most sun and a start as read could make them.
 */
function contradiction(house: CalibratedHouse, { points }: CalibrationReadings): Message | undefined {
  const predicted = grids(house);
  for (const side of [1, -1] as const)
    for (const { probe, atS, tempC } of points) {
      const half = Math.floor(atS.length / 2);
      if (half < 2) continue;
      const extreme = Float64Array.from({ length: house.factors.length + house.offsets.length }, (_, p) => {
        const id = house.factors[p];
        return id ? calibrationFactors[id].extreme[side > 0 ? 'warmest' : 'coldest'] : 0;
      });
      house.predict(extreme, predicted);
      const ahead = tempC[0]! - interpolate(house, predicted[probe]!, atS[0]!);
      if (side * ahead > 0) extreme.fill(ahead, house.factors.length);
      house.predict(extreme, predicted);
      let over = 0;
      for (let i = half; i < atS.length; i++) over += tempC[i]! - interpolate(house, predicted[probe]!, atS[i]!);
      over = (side * over) / (atS.length - half);
      if (over > thermometer.contradictionK)
        return message(side > 0 ? 'heat.calibration.too-warm' : 'heat.calibration.too-cold', {
          over: temperatureDifference(over),
        });
    }
  return undefined;
}

export const meanOf = (values: Float64Array, from: number) =>
  values.subarray(from).reduce((a, b) => a + b, 0) / (values.length - from);

/** Why the readings cannot tell these factors. */
export function whyNot(house: CalibratedHouse, readings: CalibrationReadings, ids: readonly FactorId[]): Message {
  const names = ids.map((id) => calibrationFactors[id].name);
  if (ids.includes('sun') && !(house.sunWm2 ?? new Float64Array(0)).some((value) => value > 1))
    return message('heat.calibration.no-sun');
  if (rangeDuring(house, readings) < thermometer.leastOutsideRangeK)
    return message('heat.calibration.outside-constant');
  if (ids.includes('airChange') && ids.includes('loss')) return message('heat.calibration.loss-and-air');
  return ids.length > 1
    ? message('heat.calibration.cannot-tell-apart', { first: names[0]!, second: names[1]! })
    : message('heat.calibration.cannot-tell', { name: names[0]! });
}

export function rangeDuring(house: CalibratedHouse, { points, spans }: CalibrationReadings): number {
  const from = Math.min(...points.map((one) => one.atS[0] ?? Infinity), ...spans.map((one) => one.fromS));
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < house.samples; i++) {
    if (house.fromS + i * house.stepS < from - 86_400) continue;
    low = Math.min(low, house.outsideC[i]!);
    high = Math.max(high, house.outsideC[i]!);
  }
  return high - low;
}

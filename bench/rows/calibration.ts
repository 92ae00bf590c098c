import { calibrate } from '../../src/heat/calibration.ts';
import { houseOf } from '../../src/heat/calibration-house.ts';
import { fiveMinuteReadings, simulatedHouse, stretchOf } from '../../test/heat/simulated-houses.ts';
import { bestMs, type MakeRows } from '../row.ts';

/** A dry run of 14 days, a reading every 5 minutes in the place and in the box: 8,064 readings, hold-out included. */
export const rows: MakeRows = () => {
  const simulated = simulatedHouse(3, 20);
  const warm = 4 * 24;
  const readings = fiveMinuteReadings(simulated, warm, 14 * 24);
  const weather = stretchOf(simulated, 0, warm + 14 * 24);
  let outcome = '';
  const work = () => {
    const house = houseOf({ place: simulated.place, box: simulated.box, weather, probes: ['place-air', 'box'] });
    outcome = calibrate(house, readings).outcome;
  };
  const ms = bestMs(work, 2, 5);
  const count = readings.points.reduce((sum, one) => sum + one.atS.length, 0);
  return [{ name: 'calibration', value: ms, unit: 'ms', peer: '', ratio: null, note: `${count} readings, ${outcome}` }];
};

import { buildBox } from '../../src/heat/box.ts';
import { calibrate } from '../../src/heat/calibration.ts';
import { calibrationFactors } from '../../src/heat/calibration-data.ts';
import { houseOf } from '../../src/heat/calibration-house.ts';
import {
  type CalibratedHouse,
  type CalibrationReadings,
  grids,
  interpolate,
} from '../../src/heat/calibration-readings.ts';
import type { BuildingPlace } from '../../src/heat/description.ts';
import { leastSquares } from '../../src/heat/least-squares.ts';
import { networkMatrices } from '../../src/heat/modes.ts';
import type { Network } from '../../src/heat/network.ts';
import { buildPlace } from '../../src/heat/place.ts';
import { placeInputs } from '../../src/heat/place-weather.ts';
import {
  fiveMinuteReadings,
  type SimulatedHouse,
  simulatedHouse,
  stretchOf,
} from '../../test/heat/simulated-houses.ts';
import { outsidePeer, skippedPeer } from '../peers/outside-peer.ts';
import { bestMs, type MakeRows, type Row } from '../row.ts';

/** Weight of a reading in the one fit that is set beside the peer: half a kelvin, and ten readings that follow one another as one. */
const WEIGHT = 1 / (0.5 * Math.sqrt(10));
const TOLERANCE = 1e-6;

/** A dry run of 14 days, a reading every 5 minutes in the place and in the box: 8,064 readings, hold-out included. */
export const rows: MakeRows = () => {
  const simulated = simulatedHouse(3, 20);
  const warm = 4 * 24;
  const readings = fiveMinuteReadings(simulated, warm, 14 * 24);
  const weather = stretchOf(simulated, 0, warm + 14 * 24);
  const house = () => houseOf({ place: simulated.place, box: simulated.box, weather, probes: ['place-air', 'box'] });
  let outcome = '';
  const ms = bestMs(
    () => {
      outcome = calibrate(house(), readings).outcome;
    },
    2,
    5,
  );
  const count = readings.points.reduce((sum, one) => sum + one.atS.length, 0);
  return [
    { name: 'calibration', value: ms, unit: 'ms', peer: '', ratio: null, note: `${count} readings, ${outcome}` },
    besidePeer(simulated, weather, house, readings),
  ];
};

/** One weighted fit of all factors and offsets within their bounds, by us and by the peer: the same residuals from the same start. */
function besidePeer(
  simulated: SimulatedHouse,
  weather: SimulatedHouse['weather'],
  house: () => CalibratedHouse,
  readings: CalibrationReadings,
): Row {
  const { factors, offsets } = house();
  const low = [...factors.map((id) => Math.log(calibrationFactors[id].low)), ...offsets.map(() => -30)];
  const high = [...factors.map((id) => Math.log(calibrationFactors[id].high)), ...offsets.map(() => 30)];
  const priorSds = [...factors.map((id) => calibrationFactors[id].priorLogSd), ...offsets.map((one) => one.sdK)];
  let found: Float64Array = new Float64Array();
  const ours = bestMs(
    () => {
      const one = house();
      const predicted = grids(one);
      found = leastSquares({
        start: new Float64Array(low.length),
        low,
        high,
        residuals: readings.points.reduce((sum, { atS }) => sum + atS.length, low.length),
        evaluate: (parameters, out) => {
          one.predict(
            parameters.map((value, p) => (p < factors.length ? Math.exp(value) : value)),
            predicted,
          );
          let row = 0;
          for (const { probe, atS, tempC } of readings.points)
            for (let i = 0; i < atS.length; i++)
              out[row++] = (interpolate(one, predicted[probe]!, atS[i]!) - tempC[i]!) * WEIGHT;
          parameters.forEach((value, p) => {
            out[row++] = value / priorSds[p]!;
          });
        },
        stepOf: () => 1e-3,
        tolerance: TOLERANCE,
      }).parameters;
    },
    2,
    5,
  );
  const { place, box } = simulated;
  const placed = buildPlace(place, weather.meanAirC);
  const boxed = buildBox(box);
  const still = (airChangeFactor: number) =>
    buildPlace({ ...place, tuning: { airChangeFactor } }, weather.meanAirC).network;
  const inputs = (sunFactor: number) => inputsOf(place, weather, sunFactor).map((column) => Array.from(column));
  const peer = 'scipy.optimize.least_squares over scipy.signal.lsim, one fit';
  const answer = outsidePeer(
    'python3',
    'fit.py',
    JSON.stringify({
      place: partOf(still(0), still(1)),
      box: partOf(boxed.network, boxed.network),
      placeNodes: [placed.nodes.air, placed.nodes.floor],
      boxNode: boxed.nodes.probe,
      shaded: inputs(0),
      sunny: inputs(1),
      stepS: weather.winters[0]!.series.stepS,
      readings: readings.points.map(({ atS, tempC }) => ({
        atS: Array.from(atS),
        tempC: Array.from(tempC),
        weight: WEIGHT,
      })),
      low,
      high,
      priorSds,
      tolerance: TOLERANCE,
    }),
  );
  if (!answer) return { name: 'calibration', value: null, unit: 'ms', peer, ratio: null, note: skippedPeer('python3') };
  const [theirs, ...theirFound] = answer as [number, ...number[]];
  const apart = (from: number, to: number) =>
    Math.max(...theirFound.slice(from, to).map((value, i) => Math.abs(value - found[from + i]!)));
  const most = (100 * Math.expm1(apart(0, factors.length))).toPrecision(1);
  const offsetK = apart(factors.length, low.length).toExponential(0);
  return {
    name: 'calibration',
    value: theirs,
    unit: 'ms',
    peer,
    ratio: theirs / ours,
    note: `one fit here ${ours.toFixed(1)} ms; the same readings and ${low.length} free values: factors differ by at most ${most} %, offsets by ${offsetK} K`,
  };
}

/** Inputs of the place over the stretch, each as long as it. */
function inputsOf(place: BuildingPlace, weather: SimulatedHouse['weather'], sunFactor: number): Float64Array[] {
  const [winter] = weather.winters;
  const model = buildPlace({ ...place, tuning: { sunFactor } }, weather.meanAirC);
  return placeInputs(
    model,
    weather.ground,
  )(winter!).map((column) => (column.length > 1 ? column : new Float64Array(winter!.airC.length).fill(column[0]!)));
}

/** A network for the peer: what an air change of `changing` adds to `fixed` apart, temperatures and sources apart. */
function partOf(fixed: Network, changing: Network) {
  const only = (network: Network, kind: 'temperature' | 'source'): Network => ({
    ...network,
    drives: network.drives.filter((drive) => drive.kind === kind),
  });
  const without = networkMatrices(only(fixed, 'temperature'));
  const withAir = networkMatrices(only(changing, 'temperature'));
  return {
    capacity: Array.from(without.capacity),
    conductance: without.conductance.to2DArray(),
    conductanceByAir: withAir.conductance.clone().sub(without.conductance).to2DArray(),
    temperatureDrive: without.drive.to2DArray(),
    temperatureDriveByAir: withAir.drive.clone().sub(without.drive).to2DArray(),
    sourceDrive: networkMatrices(only(fixed, 'source')).drive.to2DArray(),
  };
}

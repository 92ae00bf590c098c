import { buildBox } from '../../src/heat/box.ts';
import { findModes, networkMatrices } from '../../src/heat/modes.ts';
import type { Network } from '../../src/heat/network.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';
import { byOdex } from '../../test/outside/heat/odex.ts';
import { fishBox } from '../heat-cases.ts';
import { outsidePeer, skippedPeer } from '../peers/outside-peer.ts';
import { bestMs, type MakeRows, type Row } from '../row.ts';

const HOURS = 3624;

/** A chain of `n` equal cells, for the scaling with modes. */
function chain(n: number): Network {
  return {
    nodes: Array.from({ length: n }, (_, i) => ({ name: `cell ${i}`, capacityJK: 4000 })),
    links: Array.from({ length: n - 1 }, (_, i) => ({ a: i, b: i + 1, conductanceWK: 0.8 })),
    inputs: ['outside'],
    drives: [{ input: 0, node: 0, kind: 'temperature', gain: 1 }],
  };
}

const outdoors = (hours: number) =>
  Float64Array.from({ length: hours }, (_, k) => 5 + 3 * Math.sin((2 * Math.PI * k) / 24) + 4 * Math.sin(k / 90));

/** The row of a peer that prints its shortest time in ms and its last temperature. */
function peerRow(name: string, command: string, file: string, input: string, ours: number, check: number): Row {
  const found = outsidePeer(command, file, input);
  const base = { name: 'winter-run', unit: 'ms', peer: name };
  if (!found) return { ...base, value: null, ratio: null, note: skippedPeer(command) };
  const [ms, last] = found as [number, number];
  return {
    ...base,
    value: ms,
    ratio: ms / ours,
    note: `differs by ${Math.abs(last - check).toExponential(1)} K at the end`,
  };
}

/** One winter, hourly, a fish box whose place's air drives it; the floor follows the air. */
export const rows: MakeRows = () => {
  const model = buildBox({ ...fishBox(40, 4), stands: 'raised' });
  const modes = findModes(model.network);
  const air = outdoors(HOURS);
  const inputs = [air, Float64Array.of(5), Float64Array.of(0.01)];
  const out = new Float64Array(HOURS);
  const kept = makeRecursion(modes, model.nodes.animal, 3600, { accuracyK: 0.01 });
  const every = makeRecursion(modes, model.nodes.animal, 3600, { accuracyK: 0 });
  const start = new Float64Array(modes.nodeCount).fill(5);
  const ours = bestMs(() => run(kept, inputs, out, start), 300);
  const fast = out.slice();
  const all = bestMs(() => run(every, inputs, out, start), 300);
  let worst = 0;
  for (let k = 24; k < HOURS; k++) worst = Math.max(worst, Math.abs(fast[k]! - out[k]!));
  const result: Row[] = [
    {
      name: 'winter-run',
      value: ours,
      unit: 'ms',
      peer: '',
      ratio: null,
      note: `${HOURS} h, ${modes.rates.length} modes, ${kept.poles.length} kept, within ${worst.toFixed(4)} K`,
    },
    { name: 'winter-run', value: all, unit: 'ms', peer: 'ourselves, every mode', ratio: all / ours },
  ];
  const from = performance.now();
  const odex = byOdex(model.network, inputs, 3600, model.nodes.animal, 5, { samples: HOURS, tolerance: 1e-4 });
  const odexMs = performance.now() - from;
  let apart = 0;
  for (let k = 0; k < HOURS; k++) apart = Math.max(apart, Math.abs(odex[k]! - out[k]!));
  result.push({
    name: 'winter-run',
    value: odexMs,
    unit: 'ms',
    peer: 'odex (adaptive ODE solver)',
    ratio: odexMs / ours,
    note: `agrees within ${apart.toExponential(1)} K`,
  });

  const chained = chain(10);
  const ten = findModes(chained);
  const single = makeRecursion(ten, 9, 3600, { accuracyK: 0 });
  const zero = new Float64Array(10);
  const tenMs = bestMs(() => run(single, [air], out, zero), 300);
  result.push({
    name: 'winter-run',
    value: tenMs,
    unit: 'ms',
    peer: 'ourselves, 10 equal cells, every mode',
    ratio: tenMs / ours,
  });
  const { conductance, drive, capacity } = networkMatrices(chained);
  const drives = drive.to2DArray().map((row) => row[0]!);
  const problem = JSON.stringify({
    conductance: conductance.to2DArray(),
    drive: drives,
    capacity: Array.from(capacity),
    stepS: 3600,
    outside: Array.from(air),
  });
  const numbers = [10, 3600, HOURS, ...capacity, ...drives, ...conductance.to1DArray(), ...air].join(' ');
  result.push(
    peerRow('scipy.signal.lsim, 10 equal cells', 'python3', 'lsim.py', problem, tenMs, out[HOURS - 1]!),
    peerRow('R deSolve::lsoda, 10 equal cells', 'Rscript', 'lsoda.R', numbers, tenMs, out[HOURS - 1]!),
  );

  // Cost by length and by modes, and both together: linear in hours, and in modes, says one figure throughout.
  for (const hours of [HOURS, 4 * HOURS, 16 * HOURS]) {
    const long = outdoors(hours);
    const space = new Float64Array(hours);
    for (const n of [5, 10, 20, 40, 80]) {
      const recursion = makeRecursion(findModes(chain(n)), n - 1, 3600, { accuracyK: 0 });
      const begin = new Float64Array(n);
      const ms = bestMs(() => run(recursion, [long], space, begin), Math.ceil(3e6 / (hours * n)), 9);
      result.push({
        name: 'winter-run-scaling',
        value: (ms * 1e6) / hours / n,
        unit: 'ns per hour and mode',
        peer: '',
        ratio: null,
        note: `${hours} h, ${n} modes`,
      });
    }
  }
  return result;
};

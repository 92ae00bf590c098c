/**
 * A heat network kept cold by a compressor that a thermostat with hysteresis switches, with door openings and power cuts.
 * Between events the network is linear, so each stretch is solved exactly and each event is found to a microsecond (`segment.ts`).
 */
import { findModes } from './modes.ts';
import type { Network } from './network.ts';
import { firstCrossing, Segment } from './segment.ts';

/** A temperature given at even steps, a straight line between samples, held after the last. */
export interface SampledTemperature {
  readonly stepS: number;
  readonly tempC: ArrayLike<number>;
}

export interface ThermostatSetup {
  /** Every temperature input of it is the room's; nodes are named by their number in it. */
  readonly network: Network;
  /** Input (by number) through which the compressor takes heat out. */
  readonly compressorInput: number;
  /** Heat taken out while the compressor runs, W, above 0. */
  readonly coolingW: number;
  readonly sensorNode: number;
  readonly onAtC: number;
  readonly offAtC: number;
  readonly room: SampledTemperature;
  /** Steady sources by input number, W (an animal's own heat); left out: 0. */
  readonly heatW?: Readonly<Record<number, number>>;
}

export interface ThermostatTimes {
  readonly spanS: number;
  /** One temperature for all nodes, or one for each. */
  readonly startC: number | Float64Array;
  readonly running?: boolean;
  /** Openings: `share` (0 to 1) of the air in `airNodes` is exchanged for air of the room at once. */
  readonly doors?: readonly { readonly atS: number; readonly share: number; readonly airNodes: readonly number[] }[];
  readonly powerCuts?: readonly { readonly fromS: number; readonly toS: number }[];
  /** Limits whose first crossing is wanted, upwards (1) or downwards (-1). */
  readonly watches?: readonly { readonly node: number; readonly limitC: number; readonly direction: 1 | -1 }[];
  /** Step of the temperatures returned, s. */
  readonly sampleS: number;
}

export interface ThermostatEvent {
  readonly atS: number;
  readonly kind: 'on' | 'off' | 'door' | 'power-off' | 'power-on';
}

export interface ThermostatRun {
  readonly events: readonly ThermostatEvent[];
  /** First crossing of each watch, s from the start; undefined when it never came. */
  readonly crossedAtS: readonly (number | undefined)[];
  /** By node of the network : temperatures at 0, sampleS, 2 sampleS ... */
  readonly sampledC: readonly Float64Array[];
  readonly meanC: Float64Array;
  readonly lowestC: Float64Array;
  readonly highestC: Float64Array;
  readonly endC: Float64Array;
  /** Share of the time the compressor ran. */
  readonly duty: number;
  /** Heat let in through the walls, with the air at the door and by sources; taken out; gained by the nodes. J. */
  readonly energyJ: {
    readonly walls: number;
    readonly doors: number;
    readonly sources: number;
    readonly removed: number;
    readonly stored: number;
  };
}

/** More events than this in one run is a thermostat set to chatter, not a refrigerator. */
const MOST_EVENTS = 500_000;

/**
 * Runs the refrigerator for `spanS` seconds. Throws RangeError for a thermostat without hysteresis, a span, share or
 * capacity out of range, or more than half a million events.
 */
export function runThermostat(setup: ThermostatSetup, times: ThermostatTimes): ThermostatRun {
  if (!(setup.onAtC > setup.offAtC)) throw new RangeError('the thermostat must switch on warmer than it switches off');
  if (!(setup.coolingW > 0)) throw new RangeError('the compressor must take out more than 0 W');
  if (!(times.spanS > 0 && times.sampleS > 0)) throw new RangeError('span and sample step must be above 0 s');
  const { network } = setup;
  const n = network.nodes.length;
  const segment = new Segment(findModes(network));
  const isTemperature = new Uint8Array(network.inputs.length);
  const shares = new Float64Array(network.inputs.length);
  const roomWK = new Float64Array(n);
  for (const drive of network.drives) {
    if (drive.kind === 'temperature') {
      isTemperature[drive.input] = 1;
      roomWK[drive.node]! += drive.gain;
    } else shares[drive.input]! += drive.gain;
  }
  const state = new Float64Array(n);
  if (typeof times.startC === 'number') state.fill(times.startC);
  else state.set(times.startC);
  const start = state.slice();

  const events: ThermostatEvent[] = [];
  const crossedAtS: (number | undefined)[] = (times.watches ?? []).map(() => undefined);
  const samples = Math.floor(times.spanS / times.sampleS + 1e-9) + 1;
  const sampledC = Array.from({ length: n }, () => new Float64Array(samples));
  const integralC = new Float64Array(n);
  const lowestC = state.slice();
  const highestC = state.slice();
  const inputs = new Float64Array(network.inputs.length);
  const slopes = new Float64Array(network.inputs.length);
  const scratch = new Float64Array(n);
  const energy = { walls: 0, doors: 0, sources: 0, removed: 0 };
  let running = times.running ?? false;
  let power = true;
  let ranS = 0;
  let nextSample = 0;
  let at = 0;

  const unit = (node: number) => Float64Array.from({ length: n }, (_, i) => (i === node ? 1 : 0));
  const sourceW = (input: number) =>
    input === setup.compressorInput ? (running ? -setup.coolingW : 0) : (setup.heatW?.[input] ?? 0);
  const sensor = unit(setup.sensorNode);
  const watchWeights = (times.watches ?? []).map((watch) => unit(watch.node));
  const marks = breakpoints(setup.room, times);
  const note = () => {
    for (let i = 0; i < n; i++) {
      lowestC[i] = Math.min(lowestC[i]!, state[i]!);
      highestC[i] = Math.max(highestC[i]!, state[i]!);
    }
  };

  for (const mark of marks) {
    while (at < mark.atS) {
      const stretch = mark.atS - at;
      const roomC = temperatureAt(setup.room, at);
      const roomSlope = (temperatureAt(setup.room, mark.atS) - roomC) / stretch;
      for (let u = 0; u < inputs.length; u++) {
        inputs[u] = isTemperature[u] ? roomC : sourceW(u);
        slopes[u] = isTemperature[u] ? roomSlope : 0;
      }
      segment.begin(state, inputs, slopes);

      let until = stretch;
      let cause = -1; // -1 the mark itself, 0 the thermostat, 1 and up a watch
      if (power || running) {
        const limit = running ? setup.offAtC : setup.onAtC;
        const crossing = power ? firstCrossing(segment.curve(sensor, limit), running ? -1 : 1, until) : 0;
        if (crossing <= until) {
          until = crossing;
          cause = 0;
        }
      }
      for (let w = 0; w < crossedAtS.length; w++) {
        const watch = times.watches![w]!;
        if (crossedAtS[w] !== undefined) continue;
        const crossing = firstCrossing(segment.curve(watchWeights[w]!, watch.limitC), watch.direction, until);
        if (crossing < until || (crossing === until && cause < 0)) {
          until = crossing;
          cause = w + 1;
        }
      }

      while (nextSample < samples && nextSample * times.sampleS < at + until) {
        segment.temperatures(nextSample * times.sampleS - at, scratch);
        for (let i = 0; i < n; i++) sampledC[i]![nextSample] = scratch[i]!;
        nextSample += 1;
        for (let i = 0; i < n; i++) {
          lowestC[i] = Math.min(lowestC[i]!, scratch[i]!);
          highestC[i] = Math.max(highestC[i]!, scratch[i]!);
        }
      }
      if (until > 0) {
        segment.means(until, scratch);
        const roomMean = roomC + (roomSlope * until) / 2;
        for (let i = 0; i < n; i++) {
          integralC[i]! += scratch[i]! * until;
          energy.walls += roomWK[i]! * (roomMean - scratch[i]!) * until;
        }
        for (let u = 0; u < inputs.length; u++) {
          if (isTemperature[u]) continue;
          if (u === setup.compressorInput) energy.removed -= shares[u]! * inputs[u]! * until;
          else energy.sources += shares[u]! * inputs[u]! * until;
        }
        if (running) ranS += until;
        segment.temperatures(until, scratch);
        state.set(scratch);
        at = cause === -1 ? mark.atS : at + until;
        note();
      }
      if (cause === 0) {
        running = power && !running;
        events.push({ atS: at, kind: running ? 'on' : 'off' });
      } else if (cause > 0) crossedAtS[cause - 1] = at;
      if (events.length > MOST_EVENTS)
        throw new RangeError(
          'the thermostat switches more than half a million times: its two temperatures are too close',
        );
    }
    if (mark.kind === 'door') {
      const roomC = temperatureAt(setup.room, mark.atS);
      for (const node of mark.airNodes!) {
        const rise = mark.share! * (roomC - state[node]!);
        state[node]! += rise;
        energy.doors += rise * network.nodes[node]!.capacityJK;
      }
      note();
      events.push({ atS: mark.atS, kind: 'door' });
    } else if (mark.kind) {
      power = mark.kind === 'power-on';
      events.push({ atS: mark.atS, kind: mark.kind });
    }
  }
  for (; nextSample < samples; nextSample++) for (let i = 0; i < n; i++) sampledC[i]![nextSample] = state[i]!;

  let stored = 0;
  for (let i = 0; i < n; i++) stored += network.nodes[i]!.capacityJK * (state[i]! - start[i]!);
  return {
    events,
    crossedAtS,
    sampledC,
    meanC: integralC.map((sum) => sum / times.spanS),
    lowestC,
    highestC,
    endC: state,
    duty: ranS / times.spanS,
    energyJ: { ...energy, stored },
  };
}

interface Mark {
  readonly atS: number;
  readonly kind?: 'door' | 'power-off' | 'power-on';
  readonly share?: number;
  readonly airNodes?: readonly number[];
}

/** Moments at which an input bends or something is done from outside, in order, the end last. */
function breakpoints(room: SampledTemperature, times: ThermostatTimes): readonly Mark[] {
  const marks: Mark[] = [];
  for (let i = 1; i < room.tempC.length && i * room.stepS < times.spanS; i++) marks.push({ atS: i * room.stepS });
  for (const door of times.doors ?? []) {
    if (!(door.share >= 0 && door.share <= 1)) throw new RangeError('a door exchanges a share of the air from 0 to 1');
    if (door.atS >= 0 && door.atS < times.spanS) marks.push({ ...door, kind: 'door' });
  }
  for (const cut of times.powerCuts ?? []) {
    if (!(cut.toS > cut.fromS)) throw new RangeError('a power cut must end after it begins');
    if (cut.fromS < times.spanS) marks.push({ atS: Math.max(0, cut.fromS), kind: 'power-off' });
    if (cut.toS < times.spanS) marks.push({ atS: cut.toS, kind: 'power-on' });
  }
  marks.sort((a, b) => a.atS - b.atS);
  marks.push({ atS: times.spanS });
  return marks;
}

function temperatureAt(series: SampledTemperature, atS: number): number {
  const { tempC, stepS } = series;
  const last = tempC.length - 1;
  const position = Math.min(Math.max(atS / stepS, 0), last);
  const index = Math.min(Math.floor(position), Math.max(last - 1, 0));
  const from = tempC[index]!;
  return from + (position - index) * ((tempC[Math.min(index + 1, last)] ?? from) - from);
}

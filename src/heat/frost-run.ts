/**
 * The quick run of a network whose water freezes: the enthalpy method of `freezing.ts` on the exact hourly recursion of `run.ts`.
 * While every lump of water stays in its phase the network is linear and a step costs one pass over its modes. A step in which
 * a lump begins or ends to freeze is cut at that moment (straight between its ends; what is left over is carried as heat), and run
 * piece by piece.
 */
import { FEW_MODES, runFewModes } from './few-modes.ts';
import { frozenNetwork, type Phase, WATER } from './freezing.ts';
import { COLUMNS, type FrostSetup, makePhaseRun, type PhaseRun } from './frost-phase.ts';
import { findModes, type Modes } from './modes.ts';
import { linearHold } from './run.ts';

/** Cuts of one step before what is left of it is run as it stands. */
const MOST_CUTS = 24;

export class FrostRun {
  readonly #setup: FrostSetup;
  readonly #phases = new Map<string, PhaseRun>();
  readonly #phase: Phase[];
  /** Heat above melted water at 0 °C, J: 0 to -latent while mixed. */
  readonly #heldJ: Float64Array;
  #states: Float64Array;
  #before: Float64Array;
  readonly #from = Float64Array.of(0, 0, 1);
  readonly #to = Float64Array.of(0, 0, 1);
  readonly #nodesC: Float64Array;
  /** By lump, at both ends of a step: its temperature, or its heat while mixed. */
  readonly #lumpFrom: Float64Array;
  readonly #lumpTo: Float64Array;
  /** By lump, at both ends of a step: what the modes have yet to give it, J. */
  readonly #owedFrom: Float64Array;
  readonly #owedTo: Float64Array;

  /** `modes` are those of the network with all its water melted. */
  constructor(setup: FrostSetup, modes: Modes) {
    const { network, lumps } = setup;
    this.#setup = setup;
    this.#phase = lumps.map(() => 'water');
    this.#heldJ = new Float64Array(lumps.length);
    this.#states = new Float64Array(modes.rates.length);
    this.#before = new Float64Array(modes.rates.length);
    this.#nodesC = new Float64Array(network.nodes.length);
    this.#lumpFrom = new Float64Array(lumps.length);
    this.#lumpTo = new Float64Array(lumps.length);
    this.#owedFrom = new Float64Array(lumps.length);
    this.#owedTo = new Float64Array(lumps.length);
    this.#phases.set(this.#phase.join(), makePhaseRun(setup, this.#phase, network, modes));
  }

  /**
   * Runs samples `from` to `to` of the two series, at rest under the first of them, into the same samples of `outputs`, one array for
   * each wanted node. True when some of the water froze.
   */
  run(first: Float64Array, second: Float64Array, from: number, to: number, outputs: readonly Float64Array[]): boolean {
    this.#takeInputs(first, second, from, this.#from);
    let now = this.#settle();
    let froze = this.#phase.some((phase) => phase !== 'water');
    this.#read(now, outputs, from);
    for (let k = from; k < to; ) {
      k =
        outputs.length === 1 && this.#setup.lumps.length === 1 && now.poles.length <= FEW_MODES
          ? runFewModes(now, { states: this.#states, heldJ: this.#heldJ }, first, second, k, to, outputs[0]!)
          : this.#runInPhase(now, first, second, k, to, outputs);
      if (k >= to) break;
      froze = true;
      this.#takeInputs(first, second, k, this.#from);
      this.#takeInputs(first, second, k + 1, this.#to);
      now = this.#cutStep(now);
      k++;
      this.#from.set(this.#to);
      this.#read(now, outputs, k);
    }
    return froze;
  }

  #takeInputs(first: Float64Array, second: Float64Array, k: number, into: Float64Array): void {
    into[0] = first[k]!;
    into[1] = second[k]!;
  }

  /**
   * Steps from sample `begin` on as long as every lump stays in its phase; gives the sample before the step in which one does not,
   * or `end`. The hot loop: nothing is allocated per step.
   */
  #runInPhase(
    now: PhaseRun,
    a: Float64Array,
    b: Float64Array,
    begin: number,
    end: number,
    outputs: readonly Float64Array[],
  ): number {
    const { poles, gains, readout, straight, passing, mixed, lower, upper } = now;
    const m = poles.length;
    const wanted = this.#setup.wanted.length;
    const lumps = this.#setup.lumps.length;
    const first = outputs[0]!;
    const held = this.#heldJ;
    const after = this.#lumpTo;
    const owed = this.#owedFrom;
    const owedAfter = this.#owedTo;
    let x = this.#states;
    let y = this.#before;
    for (let f = 0; f < lumps; f++) {
      const row = wanted + f;
      let sum = straight[3 * row]! * a[begin]! + straight[3 * row + 1]! * b[begin]! + straight[3 * row + 2]!;
      for (let i = 0; i < m; i++) sum += readout[row * m + i]! * x[i]!;
      owed[f] = sum;
    }
    let k = begin;
    for (; k < end; k++) {
      const u = a[k]!;
      const v = b[k]!;
      const u1 = a[k + 1]!;
      const v1 = b[k + 1]!;
      // The first node wanted and the first lump are read while the modes step: mostly there are no others.
      let wants = straight[0]! * u1 + straight[1]! * v1 + straight[2]!;
      let lump = straight[3 * wanted]! * u1 + straight[3 * wanted + 1]! * v1 + straight[3 * wanted + 2]!;
      for (let i = 0; i < m; i++) {
        const next = poles[i]! * x[i]! + (gains[3 * i]! * u + gains[3 * i + 1]! * v + gains[3 * i + 2]!);
        y[i] = next;
        wants += readout[i]! * next;
        lump += readout[wanted * m + i]! * next;
      }
      let stays = true;
      for (let f = 0; f < lumps; f++) {
        const row = wanted + f;
        let value = f === 0 ? lump : straight[3 * row]! * u1 + straight[3 * row + 1]! * v1 + straight[3 * row + 2]!;
        if (f > 0) for (let i = 0; i < m; i++) value += readout[row * m + i]! * y[i]!;
        if (mixed[f]) {
          // What the modes gave away since the step began reached the lump, beside what passed through no mode.
          const passed = passing[3 * f]! * (u + u1) + passing[3 * f + 1]! * (v + v1) + 2 * passing[3 * f + 2]!;
          owedAfter[f] = value;
          value = held[f]! + (owed[f]! - value) + passed;
        }
        after[f] = value;
        if (!(value >= lower[f]! && value <= upper[f]!)) stays = false;
      }
      if (!stays) break;
      for (let f = 0; f < lumps; f++)
        if (mixed[f]) {
          held[f] = after[f]!;
          owed[f] = owedAfter[f]!;
        }
      first[k + 1] = wants;
      for (let o = 1; o < wanted; o++) {
        let tempC = straight[3 * o]! * u1 + straight[3 * o + 1]! * v1 + straight[3 * o + 2]!;
        for (let i = 0; i < m; i++) tempC += readout[o * m + i]! * y[i]!;
        outputs[o]![k + 1] = tempC;
      }
      const spare = x;
      x = y;
      y = spare;
    }
    this.#states = x;
    this.#before = y;
    return k;
  }

  #read(now: PhaseRun, outputs: readonly Float64Array[], k: number): void {
    const m = now.poles.length;
    for (let o = 0; o < outputs.length; o++) {
      let tempC = 0;
      for (let i = 0; i < m; i++) tempC += now.readout[o * m + i]! * this.#states[i]!;
      for (let j = 0; j < COLUMNS; j++) tempC += now.straight[o * COLUMNS + j]! * this.#from[j]!;
      outputs[o]![k] = tempC;
    }
  }

  /** At rest under the first inputs; a lump that rests below 0 °C is ice. */
  #settle(): PhaseRun {
    const { lumps } = this.#setup;
    this.#phase.fill('water');
    const water = this.#current();
    const { rates, drives } = water;
    for (let i = 0; i < rates.length; i++) {
      let push = 0;
      for (let j = 0; j < COLUMNS; j++) push += drives[i * COLUMNS + j]! * this.#from[j]!;
      this.#states[i] = push / rates[i]!;
    }
    this.#nodesFromModes(water, this.#from);
    for (let f = 0; f < lumps.length; f++) {
      const ice = this.#nodesC[lumps[f]!.node]! < 0;
      this.#phase[f] = ice ? 'ice' : 'water';
      this.#heldJ[f] = ice ? -this.#latentJ(f) : 0;
    }
    const now = this.#current();
    if (now !== water) this.#modesFromNodes(now);
    this.#shift(now, this.#from, -1);
    return now;
  }

  /** Turns states into modes (`sign` 1) or modes into states (-1) under `inputs`. */
  #shift({ lead, rates }: PhaseRun, inputs: Float64Array, sign: 1 | -1): void {
    for (let i = 0; i < rates.length; i++)
      for (let j = 0; j < COLUMNS; j++) this.#states[i]! += sign * lead[i * COLUMNS + j]! * inputs[j]!;
  }

  #latentJ(f: number): number {
    return this.#setup.lumps[f]!.waterKg * WATER.latentJkg;
  }

  /** Runs the step again in pieces, each until the first lump leaves its phase. */
  #cutStep(begun: PhaseRun): PhaseRun {
    let now = begun;
    const lumps = this.#setup.lumps.length;
    const at = this.#from.slice();
    const until = this.#to;
    // From here on `states` hold the modes themselves.
    this.#shift(now, at, 1);
    let leftS = this.#setup.stepS;
    for (let cut = 0; leftS > 0; cut++) {
      for (let f = 0; f < lumps; f++) this.#lumpFrom[f] = now.mixed[f] ? this.#heldJ[f]! : this.#lumpC(now, f, at);
      this.#before.set(this.#states);
      this.#advance(now, at, until, leftS);
      let share = 1;
      let changing = -1;
      for (let f = 0; f < lumps; f++) {
        if (this.#lumpTo[f]! >= now.lower[f]! && this.#lumpTo[f]! <= now.upper[f]!) continue;
        const a = this.#lumpFrom[f]!;
        const b = this.#lumpTo[f]!;
        const limit = now.mixed[f] && b < 0 ? -this.#latentJ(f) : 0;
        const crossing = a === b ? 1 : Math.min(Math.max((limit - a) / (b - a), 0), 1);
        if (crossing < share || changing < 0) {
          share = crossing;
          changing = f;
        }
      }
      if (changing >= 0 && share < 1) {
        this.#states.set(this.#before);
        const middle = this.#to.slice();
        for (let j = 0; j < COLUMNS; j++) middle[j] = at[j]! + share * (until[j]! - at[j]!);
        this.#advance(now, at, middle, share * leftS);
        at.set(middle);
      } else at.set(until);
      for (let f = 0; f < lumps; f++) if (now.mixed[f]) this.#heldJ[f] = this.#lumpTo[f]!;
      leftS = changing >= 0 && cut < MOST_CUTS ? leftS * (1 - share) : 0;
      if (changing < 0) break;
      if (leftS === 0) at.set(until);
      now = this.#change(now, changing, at);
    }
    this.#shift(now, until, -1);
    return now;
  }

  /** Modes, and the lumps' readings, after `spanS` in which the inputs run straight. */
  #advance(now: PhaseRun, from: Float64Array, to: Float64Array, spanS: number): void {
    const { rates, drives, readout, still, passing } = now;
    const m = rates.length;
    const wanted = this.#setup.wanted.length;
    for (let f = 0; f < this.#setup.lumps.length; f++) {
      if (this.#phase[f] !== 'mixed') continue;
      let held = this.#heldJ[f]!;
      for (let i = 0; i < m; i++) held += readout[(wanted + f) * m + i]! * this.#states[i]!;
      for (let j = 0; j < COLUMNS; j++)
        held += passing[f * COLUMNS + j]! * (from[j]! + to[j]!) * (spanS / this.#setup.stepS);
      this.#lumpTo[f] = held;
    }
    for (let i = 0; i < m; i++) {
      const { pole, early, late } = linearHold(rates[i]!, spanS);
      let z = pole * this.#states[i]!;
      for (let j = 0; j < COLUMNS; j++) z += drives[i * COLUMNS + j]! * (early * from[j]! + late * to[j]!);
      this.#states[i] = z;
    }
    for (let f = 0; f < this.#setup.lumps.length; f++) {
      const row = wanted + f;
      let reads = 0;
      for (let i = 0; i < m; i++) reads += readout[row * m + i]! * this.#states[i]!;
      if (now.mixed[f]) this.#lumpTo[f]! -= reads;
      else {
        for (let j = 0; j < COLUMNS; j++) reads += still[row * COLUMNS + j]! * to[j]!;
        this.#lumpTo[f] = reads;
      }
    }
  }

  #lumpC(now: PhaseRun, f: number, inputs: Float64Array): number {
    const m = now.rates.length;
    const row = this.#setup.wanted.length + f;
    let tempC = 0;
    for (let i = 0; i < m; i++) tempC += now.readout[row * m + i]! * this.#states[i]!;
    for (let j = 0; j < COLUMNS; j++) tempC += now.still[row * COLUMNS + j]! * inputs[j]!;
    return tempC;
  }

  /** The network after lump `f` has changed phase under `inputs`; its heat goes over to the joule. `states` are modes. */
  #change(now: PhaseRun, f: number, inputs: Float64Array): PhaseRun {
    const { node } = this.#setup.lumps[f]!;
    this.#nodesFromModes(now, inputs);
    const heldJ = this.#heldJ[f]!;
    if (now.mixed[f]) {
      const through = heldJ < -this.#latentJ(f) / 2;
      this.#phase[f] = through ? 'ice' : 'water';
      this.#heldJ[f] = through ? -this.#latentJ(f) : 0;
    } else {
      this.#phase[f] = 'mixed';
      this.#heldJ[f] = heldJ + now.capacityJK[f]! * this.#nodesC[node]!;
    }
    const next = this.#current();
    this.#nodesC[node] = now.mixed[f] ? (heldJ - this.#heldJ[f]!) / next.capacityJK[f]! : 0;
    this.#modesFromNodes(next);
    return next;
  }

  #nodesFromModes({ nodeShapes, nodeStill, rates }: PhaseRun, inputs: Float64Array): void {
    const m = rates.length;
    for (let node = 0; node < this.#nodesC.length; node++) {
      let tempC = 0;
      for (let i = 0; i < m; i++) tempC += nodeShapes[node * m + i]! * this.#states[i]!;
      for (let j = 0; j < COLUMNS; j++) tempC += nodeStill[node * COLUMNS + j]! * inputs[j]!;
      this.#nodesC[node] = tempC;
    }
  }

  #modesFromNodes({ projection, rates }: PhaseRun): void {
    const n = this.#nodesC.length;
    for (let i = 0; i < rates.length; i++) {
      let z = 0;
      for (let node = 0; node < n; node++) z += projection[i * n + node]! * this.#nodesC[node]!;
      this.#states[i] = z;
    }
  }

  #current(): PhaseRun {
    const key = this.#phase.join();
    let known = this.#phases.get(key);
    if (!known) {
      const frozen = frozenNetwork(this.#setup.network, this.#setup.lumps, this.#phase);
      known = makePhaseRun(this.#setup, this.#phase, frozen, findModes(frozen));
      this.#phases.set(key, known);
    }
    return known;
  }
}

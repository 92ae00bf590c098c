/** Ice in a box: finds the winters in which its bottles reach 0 °C, and runs those with their freezing counted. */
import type { BoxModel } from './box.ts';
import { type FreezingNode, WATER } from './freezing.ts';
import type { FrostInput } from './frost-phase.ts';
import { FrostRun } from './frost-run.ts';
import type { Modes } from './modes.ts';
import { makeRecursion, type Recursion, run } from './run.ts';

/** A box has forgotten how a run began after this many of its slowest times, to a third of a thousandth. */
const FORGET = 8;

/** Bottles of a box as freezing nodes: their nodes hold nothing but water. */
function bottlesOf(model: BoxModel): FreezingNode[] {
  return model.nodes.ballast.flatMap((node) => {
    const waterKg = model.network.nodes[node]!.capacityJK / WATER.liquidJkgK;
    return waterKg > 0.01 ? [{ node, waterKg }] : [];
  });
}

/** The frosts of one box, over any number of winters. What it needs is made when a bottle first freezes. */
export class BoxFrost {
  readonly #model: BoxModel;
  readonly #modes: Modes;
  readonly #wanted: readonly number[];
  readonly #accuracyK: number;
  readonly #bottles: readonly FreezingNode[];
  /** By step. */
  readonly #recursions = new Map<number, Recursion[]>();
  readonly #runs = new Map<number, FrostRun>();
  readonly #heatW: number;
  #scratch = new Float64Array(0);

  /** `wanted`: the nodes whose temperatures are asked for; `heatW`: the animal's. Errors stay under `accuracyK`. */
  constructor(model: BoxModel, modes: Modes, heatW: number, wanted: readonly number[], accuracyK = 0.002) {
    this.#model = model;
    this.#heatW = heatW;
    this.#modes = modes;
    this.#wanted = wanted;
    this.#accuracyK = accuracyK;
    this.#bottles = bottlesOf(model);
  }

  /**
   * Writes samples `from` to `to` of the wanted temperatures into the same samples of `outputs` (and leaves some before them changed)
   * when a bottle freezes before `to`. Gives false, having written nothing, when none does, for then the linear run is right as it
   * is. Air and floor as series from the winter's first sample on.
   */
  run(
    airC: Float64Array,
    floorC: Float64Array,
    stepS: number,
    from: number,
    to: number,
    outputs: readonly Float64Array[],
  ): boolean {
    if (this.#bottles.length === 0 || !(everBelow(airC, to) || everBelow(floorC, to))) return false;
    const frost = this.#firstFrost(airC, floorC, stepS, to);
    if (frost === undefined) return false;
    let frostRun = this.#runs.get(stepS);
    if (!frostRun) {
      const { network, inputs } = this.#model;
      const given = network.inputs.map((_, j): FrostInput => {
        if (j === inputs.placeAir) return 'first';
        return j === inputs.floor ? 'second' : this.#heatW;
      });
      const setup = { network, inputs: given, lumps: this.#bottles, wanted: this.#wanted, stepS };
      frostRun = new FrostRun({ ...setup, accuracyK: this.#accuracyK }, this.#modes);
      this.#runs.set(stepS, frostRun);
    }
    const memory = Math.ceil(FORGET / (this.#modes.rates[0]! * stepS));
    frostRun.run(airC, floorC, Math.max(0, Math.min(frost, from) - memory), to, outputs);
    return true;
  }

  /** The first sample up to `to` at which a linear run has a bottle at 0 °C, near enough. */
  #firstFrost(airC: Float64Array, floorC: Float64Array, stepS: number, to: number): number | undefined {
    let recursions = this.#recursions.get(stepS);
    if (!recursions) {
      const accuracy = { accuracyK: this.#accuracyK };
      recursions = this.#bottles.map(({ node }) => makeRecursion(this.#modes, node, stepS, accuracy));
      this.#recursions.set(stepS, recursions);
    }
    if (this.#scratch.length <= to) this.#scratch = new Float64Array(to + 1);
    const course = this.#scratch.subarray(0, to + 1);
    const inputs = [airC.subarray(0, to + 1), floorC.subarray(0, to + 1), Float64Array.of(this.#heatW)];
    let first: number | undefined;
    for (const recursion of recursions) {
      run(recursion, inputs, course, 'settled');
      for (let k = 0; k < (first ?? course.length); k++) if (course[k]! <= this.#accuracyK) first = k;
    }
    return first;
  }
}

/** A box whose surroundings never fall below 0 °C has no ice: every temperature in it lies between theirs, or above by the animal's heat. */
function everBelow(values: Float64Array, to: number): boolean {
  for (let k = 0; k <= to; k++) if (values[k]! < 0) return true;
  return false;
}

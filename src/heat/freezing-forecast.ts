/** Ice in a box: finds the winters in which its bottles reach 0 °C, and runs those with their freezing counted. */
import type { BoxModel } from './box.ts';
import { type FreezingNode, WATER } from './freezing.ts';
import type { FrostInput } from './frost-phase.ts';
import { FrostRun } from './frost-run.ts';
import type { Modes } from './modes.ts';

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
  readonly #runs = new Map<number, FrostRun>();
  readonly #heatW: number;
  #scratch: Float64Array[] = [];

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
   * Writes samples `from` to `to` of the wanted temperatures into the same samples of `outputs` when a bottle freezes before `to`. Gives
   * false, having written nothing, when none does, for then the linear run is right as it is. Air and floor as series from the
   * winter's first sample on.
   */
  run(
    airC: Float64Array,
    floorC: Float64Array,
    stepS: number,
    from: number,
    to: number,
    outputs: readonly Float64Array[],
  ): boolean {
    const found = this.courses(airC, floorC, stepS, from, to);
    if (!found?.icy) return false;
    found.tempC.forEach((course, o) => {
      outputs[o]!.set(course.subarray(from, to + 1), from);
    });
    return true;
  }

  /**
   * The wanted temperatures, samples `from` to `to`, with what ice there is counted, in arrays that the next call uses again. Undefined
   * when no bottle can freeze before `to`: a box whose surroundings never fall below 0 °C has no ice, for every temperature in it lies
   * between theirs, or above by the animal's heat.
   */
  courses(
    airC: Float64Array,
    floorC: Float64Array,
    stepS: number,
    from: number,
    to: number,
  ): { readonly icy: boolean; readonly tempC: readonly Float64Array[] } | undefined {
    if (this.#bottles.length === 0) return undefined;
    const frost = firstBelow(airC, floorC, to);
    if (frost === undefined) return undefined;
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
    if ((this.#scratch[0]?.length ?? 0) <= to) this.#scratch = this.#wanted.map(() => new Float64Array(to + 1));
    const icy = frostRun.run(airC, floorC, Math.max(0, Math.min(frost, from) - memory), to, this.#scratch);
    return { icy, tempC: this.#scratch };
  }
}

/** The first sample up to `to` at which air or floor is below 0 °C. */
function firstBelow(airC: Float64Array, floorC: Float64Array, to: number): number | undefined {
  for (let k = 0; k <= to; k++) if (airC[k]! < 0 || floorC[k]! < 0) return k;
  return undefined;
}

/**
 * Continues a box's fast linear run where its bottles reach 0 °C: from there until they have thawed, and are clear of 0 °C, the
 * enthalpy-aware run takes over, then the linear run again from the state it left.
 */
import type { BoxModel } from './box.ts';
import { type FreezingNode, type FreezingRegimes, runWithFreezing, WATER } from './freezing.ts';
import type { Modes } from './modes.ts';
import { makeRecursion, type Recursion, type RunStart, run } from './run.ts';

/** The linear run takes over again when all bottles are this far above freezing, K. */
const CLEAR_K = 0.05;
/** Hours handed to the enthalpy-aware run at a time. */
const CHUNK_STEPS = 24;

/** Bottles of a box as freezing nodes: their nodes hold nothing but water. */
function bottlesOf(model: BoxModel): FreezingNode[] {
  return model.nodes.ballast.flatMap((node) => {
    const waterKg = model.network.nodes[node]!.capacityJK / WATER.liquidJkgK;
    return waterKg > 0.01 ? [{ node, waterKg }] : [];
  });
}

/** What the winters of one box share. */
export interface FrostRunner {
  readonly model: BoxModel;
  readonly modes: Modes;
  readonly bottles: readonly FreezingNode[];
  readonly regimes: FreezingRegimes;
  /** By step and node. */
  readonly recursions: Map<string, Recursion>;
}

export const frostRunner = (model: BoxModel, modes: Modes): FrostRunner => ({
  model,
  modes,
  bottles: bottlesOf(model),
  regimes: new Map(),
  recursions: new Map(),
});

/**
 * Temperatures of `wanted` nodes of a box, the freezing of its bottles counted: one array as long as the inputs for each. Inputs as for
 * `run`. Undefined when no bottle reaches 0 °C, for then the linear run is right as it is.
 */
export function boxWithFreezing(
  runner: FrostRunner,
  inputs: readonly Float64Array[],
  stepS: number,
  wanted: readonly number[],
): Float64Array[] | undefined {
  const { model, modes, bottles, regimes, recursions } = runner;
  const samples = inputs.reduce((most, input) => Math.max(most, input.length), 1);
  if (bottles.length === 0 || !inputs.some((input) => input.length === samples && input.some((value) => value < 0)))
    return undefined;
  const part = (from: number, to: number) =>
    inputs.map((input) => (input.length === 1 ? input : input.subarray(from, to)));
  const linear = (node: number, from: number, to: number, start: RunStart) => {
    const key = `${stepS}/${node}`;
    let recursion = recursions.get(key);
    if (!recursion) {
      recursion = makeRecursion(modes, node, stepS, { accuracyK: 0.002 });
      recursions.set(key, recursion);
    }
    const out = new Float64Array(to - from);
    run(recursion, part(from, to), out, start);
    return out;
  };

  let out: Float64Array[] | undefined;
  let at = 0;
  let state: RunStart = 'settled';
  while (at < samples) {
    let frost = samples;
    for (const { node } of bottles) {
      const reached = linear(node, at, samples, state).findIndex((value) => value <= 0);
      if (reached >= 0) frost = Math.min(frost, at + reached);
    }
    if (frost === samples && !out) return undefined;
    out ??= wanted.map(() => new Float64Array(samples));
    // The sample before the first at 0 °C begins the frost.
    const begins = frost === samples ? samples : Math.max(frost - 1, at);
    for (let w = 0; w < wanted.length && begins > at; w++) out[w]!.set(linear(wanted[w]!, at, begins, state), at);
    if (begins === samples) break;
    let now = everyNode(modes, linear, at, begins, state);
    let ice: Float64Array | undefined;
    let k = begins;
    while (k < samples) {
      const to = Math.min(k + CHUNK_STEPS, samples - 1);
      const { sampledC, endC, endIceShare } = runWithFreezing(
        model.network,
        bottles,
        part(k, to + 1),
        stepS,
        now,
        ice,
        regimes,
      );
      for (let w = 0; w < wanted.length; w++) out[w]!.set(sampledC[wanted[w]!]!, k);
      now = endC;
      ice = endIceShare;
      k = to === samples - 1 ? samples : to;
      if (bottles.every(({ node }, b) => ice![b]! <= 0 && now[node]! > CLEAR_K)) break;
    }
    at = k;
    state = now;
  }
  return out;
}

/** Temperatures of all nodes at sample `until` of a linear run from `at`; only the last days before it matter to a start at rest. */
function everyNode(
  modes: Modes,
  linear: (node: number, from: number, to: number, start: RunStart) => Float64Array,
  at: number,
  until: number,
  state: RunStart,
): Float64Array {
  return Float64Array.from({ length: modes.nodeCount }, (_, node) => linear(node, at, until + 1, state)[until - at]!);
}

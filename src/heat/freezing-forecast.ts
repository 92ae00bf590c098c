/**
 * Continues a box's fast linear run where its bottles reach 0 °C: from there until they have thawed, and are clear of 0 °C, the
 * enthalpy-aware run takes over, then the linear run again from the state it left.
 */
import type { BoxModel } from './box.ts';
import { type FreezingNode, type FreezingRegimes, runWithFreezing, WATER } from './freezing.ts';
import type { Modes } from './modes.ts';
import { linearHold, makeRecursion, type Recursion, type RunStart, run } from './run.ts';

/** The linear run takes over again when all bottles are this far above freezing, K. */
const CLEAR_K = 0.05;
/** Hours handed to the enthalpy-aware run at a time. */
const CHUNK_STEPS = 48;

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
  // Overwritten by the next linear run.
  let scratch = new Float64Array(0);
  const part = (from: number, to: number) =>
    inputs.map((input) => (input.length === 1 ? input : input.subarray(from, to)));
  const linear = (node: number, from: number, to: number, start: RunStart) => {
    const key = `${stepS}/${node}`;
    let recursion = recursions.get(key);
    if (!recursion) {
      recursion = makeRecursion(modes, node, stepS, { accuracyK: 0.002 });
      recursions.set(key, recursion);
    }
    if (scratch.length < to - from) scratch = new Float64Array(samples);
    const course = scratch.subarray(0, to - from);
    run(recursion, part(from, to), course, start);
    return course;
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
    let now = everyNode(modes, inputs, stepS, at, begins, state);
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

/**
 * Temperatures of all nodes at sample `until` of a linear run from `at`, by one pass over the modes. What lies more than ten of the
 * slowest times back is forgotten.
 */
function everyNode(
  modes: Modes,
  inputs: readonly Float64Array[],
  stepS: number,
  at: number,
  until: number,
  state: RunStart,
): Float64Array {
  const { rates, drives, projection, nodeCount, inputCount } = modes;
  const m = rates.length;
  const value = (u: number, k: number) => (inputs[u]!.length === 1 ? inputs[u]![0]! : inputs[u]![k]!);
  const memory = Math.ceil(10 / (rates[0]! * stepS));
  const from = Math.max(at, until - memory);
  const known = state !== 'settled' && from === at;
  const z = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    let x = 0;
    if (known) for (let node = 0; node < nodeCount; node++) x += projection[i * nodeCount + node]! * state[node]!;
    else for (let u = 0; u < inputCount; u++) x += (drives[i * inputCount + u]! * value(u, from)) / rates[i]!;
    const { pole, early, late } = linearHold(rates[i]!, stepS);
    for (let k = from; k < until; k++) {
      let push = 0;
      for (let u = 0; u < inputCount; u++)
        push += drives[i * inputCount + u]! * (early * value(u, k) + late * value(u, k + 1));
      x = pole * x + push;
    }
    z[i] = x;
  }
  return Float64Array.from({ length: nodeCount }, (_, node) => {
    let tempC = 0;
    for (let i = 0; i < m; i++) tempC += modes.shapes[node * m + i]! * z[i]!;
    for (let u = 0; u < inputCount; u++) tempC += modes.direct[node * inputCount + u]! * value(u, until);
    return tempC;
  });
}

/**
 * The plain way through a frost, for comparison: every moment at which a lump changes phase is found to a microsecond on the exact
 * solution, step by step. What `src/heat/frost-run.ts` does quickly is held to this.
 */
import { type FreezingNode, frozenNetwork, type Phase, WATER } from '../../src/heat/freezing.ts';
import { findModes } from '../../src/heat/modes.ts';
import type { Network } from '../../src/heat/network.ts';
import { type Curve, firstCrossing, integral, Segment, valueAt } from '../../src/heat/segment.ts';

interface FreezingRun {
  /** By node, temperatures at each sample. */
  readonly sampledC: readonly Float64Array[];
  /** By freezing node, share of its water that is ice at each sample. */
  readonly iceShare: readonly Float64Array[];
  readonly endC: Float64Array;
  readonly endIceShare: Float64Array;
  /** Heat taken in by all nodes together, and heat that came over the boundaries and from sources, J: they agree to rounding. */
  readonly storedJ: number;
  readonly suppliedJ: number;
  readonly events: readonly { readonly atS: number; readonly node: number; readonly kind: FreezingEvent }[];
}

type FreezingEvent = 'begins-to-freeze' | 'frozen-through' | 'begins-to-thaw' | 'thawed';

/** The network solved for one combination of phases. */
interface Regime {
  readonly segment: Segment;
  readonly capacityJK: Float64Array;
}

/** What several runs of the same network and the same freezing nodes may share: the solutions for their phases. */
type FreezingRegimes = Map<string, Regime>;

/**
 * Runs `network` with nodes that freeze. Inputs are sampled every `stepS`, straight between samples (one value: constant);
 * each freezing node's capacity in the network must be that of its liquid water (plus bottle). `startIceShare` tells how much of a node
 * that starts at 0 °C is ice already. Throws RangeError when inputs are missing or a node cannot hold its water.
 */
export function runWithFreezing(
  network: Network,
  freezing: readonly FreezingNode[],
  inputs: readonly ArrayLike<number>[],
  stepS: number,
  startC: Float64Array,
  startIceShare?: ArrayLike<number>,
  regimes: FreezingRegimes = new Map(),
): FreezingRun {
  if (inputs.length !== network.inputs.length)
    throw new RangeError(`the network has ${network.inputs.length} inputs, not ${inputs.length}`);
  for (const { node, waterKg } of freezing)
    if (!(waterKg > 0) || !(network.nodes[node]!.capacityJK >= waterKg * WATER.liquidJkgK * (1 - 1e-9)))
      throw new RangeError(`node ${network.nodes[node]!.name} has too small a capacity to hold ${waterKg} kg of water`);
  const samples = inputs.reduce((most, input) => Math.max(most, input.length), 1);
  const n = network.nodes.length;
  const state = startC.slice();
  const phase: Phase[] = [];
  // Heat still to be taken from fully melted water, J below water at 0 °C: 0 to -latent while mixed.
  const frozenJ = new Float64Array(freezing.length);
  freezing.forEach(({ node, waterKg }, f) => {
    const share = Math.min(Math.max(startIceShare?.[f] ?? 0, 0), 1);
    const tempC = state[node]!;
    phase.push(tempC > 0 ? 'water' : tempC < 0 ? 'ice' : 'mixed');
    frozenJ[f] = tempC > 0 ? 0 : -waterKg * WATER.latentJkg * (tempC < 0 ? 1 : share);
  });

  const regime = (): Regime => {
    const key = phase.join();
    const known = regimes.get(key);
    if (known) return known;
    const changed = frozenNetwork(network, freezing, phase);
    const made = {
      segment: new Segment(findModes(changed)),
      capacityJK: Float64Array.from(changed.nodes, (one) => one.capacityJK),
    };
    regimes.set(key, made);
    return made;
  };

  const sampledC = Array.from({ length: n }, () => new Float64Array(samples));
  const iceShare = freezing.map(() => new Float64Array(samples));
  const events: { atS: number; node: number; kind: FreezingEvent }[] = [];
  const now = new Float64Array(network.inputs.length + 1);
  const slopes = new Float64Array(network.inputs.length + 1);
  const means = new Float64Array(n);
  const next = new Float64Array(n);
  const heatInto = inflow(network);
  const flowWeights = freezing.map((lump) => heatInto.weights(lump.node));
  const ownWeights = freezing.map((lump) => unit(n, lump.node));
  const pinnedBy = new Int32Array(n).fill(-1);
  freezing.forEach((lump, f) => {
    pinnedBy[lump.node] = f;
  });
  let storedJ = 0;
  let suppliedJ = 0;
  const record = (k: number) => {
    for (let i = 0; i < n; i++) sampledC[i]![k] = state[i]!;
    freezing.forEach(({ waterKg }, f) => {
      iceShare[f]![k] = -frozenJ[f]! / (waterKg * WATER.latentJkg);
    });
  };
  record(0);

  for (let k = 0; k + 1 < samples; k++) {
    let at = 0;
    // Two lumps may change phase together; more changes than this within one step cannot follow from straight inputs.
    for (let guard = 0; at < stepS; guard++) {
      if (guard > 1000) throw new RangeError('ballast changes between ice and water without end within one step');
      const current = regime();
      inputs.forEach((input, u) => {
        const from = input.length === 1 ? input[0]! : input[k]!;
        const to = input.length === 1 ? input[0]! : (input[k + 1] ?? from);
        slopes[u] = (to - from) / stepS;
        now[u] = from + slopes[u]! * at;
      });
      current.segment.begin(state, now, slopes);
      let until = stepS - at;
      let changing = -1;
      let kind = 'thawed' as FreezingEvent;
      const flows: (Curve | undefined)[] = freezing.map((lump, f) => {
        if (phase[f] !== 'mixed') return undefined;
        const flow = current.segment.curve(flowWeights[f]!, 0);
        heatInto.boundary(lump.node, flow, now, slopes);
        return integral(flow, frozenJ[f]!);
      });
      freezing.forEach((lump, f) => {
        const consider = (crossing: number, what: FreezingEvent) => {
          if (crossing < until) {
            until = crossing;
            changing = f;
            kind = what;
          }
        };
        const held = flows[f];
        if (held) {
          const latent = lump.waterKg * WATER.latentJkg;
          const tolerance = BEYOND_K * current.capacityJK[lump.node]!;
          consider(beyond({ ...held, a: held.a + latent }, -1, tolerance, until), 'frozen-through');
          consider(beyond(held, 1, tolerance, until), 'thawed');
        } else {
          const temperature = current.segment.curve(ownWeights[f]!, 0);
          if (phase[f] === 'water') consider(beyond(temperature, -1, BEYOND_K, until), 'begins-to-freeze');
          else consider(beyond(temperature, 1, BEYOND_K, until), 'begins-to-thaw');
        }
      });
      current.segment.means(until, means);
      suppliedJ += heatInto.over(means, now, slopes, until);
      current.segment.temperatures(until, next);
      for (let i = 0; i < n; i++) {
        const pinned = pinnedBy[i]!;
        if (pinned >= 0 && phase[pinned] === 'mixed') {
          const after = valueAt(flows[pinned]!, until);
          storedJ += after - frozenJ[pinned]!;
          frozenJ[pinned] = after;
          state[i] = 0;
        } else {
          storedJ += current.capacityJK[i]! * (next[i]! - state[i]!);
          state[i] = next[i]!;
        }
      }
      at = changing < 0 ? stepS : at + until;
      if (changing >= 0) {
        const lump = freezing[changing]!;
        const latent = lump.waterKg * WATER.latentJkg;
        const before = current.capacityJK[lump.node]! * state[lump.node]!;
        phase[changing] = kind === 'frozen-through' ? 'ice' : kind === 'thawed' ? 'water' : 'mixed';
        const capacityJK = regime().capacityJK[lump.node]!;
        if (kind === 'thawed') {
          state[lump.node] = frozenJ[changing]! / capacityJK;
          frozenJ[changing] = 0;
        } else if (kind === 'frozen-through') {
          state[lump.node] = (frozenJ[changing]! + latent) / capacityJK;
          frozenJ[changing] = -latent;
        } else {
          state[lump.node] = 0;
          frozenJ[changing]! += before;
        }
        events.push({ atS: k * stepS + at, node: lump.node, kind });
      }
    }
    record(k + 1);
  }
  return {
    sampledC,
    iceShare,
    endC: state,
    endIceShare: Float64Array.from(freezing, ({ waterKg }, f) => -frozenJ[f]! / (waterKg * WATER.latentJkg)),
    storedJ,
    suppliedJ,
    events,
  };
}

/** A lump changes phase this far beyond its limit, so that one standing on it does not flicker; the overshoot is carried over. */
const BEYOND_K = 1e-9;

const beyond = (curve: Curve, direction: 1 | -1, tolerance: number, spanS: number) =>
  firstCrossing({ ...curve, a: curve.a - direction * tolerance }, direction, spanS);

const unit = (n: number, node: number) => Float64Array.from({ length: n }, (_, i) => (i === node ? 1 : 0));

/** Heat into a node: from its neighbours as weights on temperatures, and from boundaries and sources as a line in time. */
function inflow(network: Network) {
  const n = network.nodes.length;
  return {
    weights(node: number): Float64Array {
      const weights = new Float64Array(n);
      for (const { a, b, conductanceWK } of network.links) {
        if (a !== node && b !== node) continue;
        weights[a === node ? b : a]! += conductanceWK;
        weights[node]! -= conductanceWK;
      }
      for (const drive of network.drives)
        if (drive.node === node && drive.kind === 'temperature') weights[node]! -= drive.gain;
      return weights;
    },
    boundary(node: number, curve: Curve, now: Float64Array, slopes: Float64Array): void {
      for (const drive of network.drives) {
        if (drive.node !== node) continue;
        curve.a += drive.gain * now[drive.input]!;
        curve.b += drive.gain * slopes[drive.input]!;
      }
    },
    /** Joules over all boundaries in `spanS`, the nodes at mean temperatures `meansC`. */
    over(meansC: Float64Array, now: Float64Array, slopes: Float64Array, spanS: number): number {
      let joules = 0;
      for (const drive of network.drives) {
        const mean = now[drive.input]! + (slopes[drive.input]! * spanS) / 2;
        joules += drive.gain * (drive.kind === 'temperature' ? mean - meansC[drive.node]! : mean) * spanS;
      }
      return joules;
    },
  };
}

/**
 * Freezing and thawing by the enthalpy method (Voller and Cross 1981, Int. J. Heat Mass Transf. 24:545-556): the state is the heat
 * content, and the temperature follows from it, flat at 0 °C while water turns to ice. Bottles of ballast are lumps of one
 * temperature inside a heat network; between the moments at which a lump begins or ends to freeze the network is linear.
 */
import type { Network, NetworkDrive } from './network.ts';

/** Latent heat of freezing of water, J/kg, and specific heats of water at 5 °C and ice near 0 °C, J/(kg K) (IAPWS-95 and -06). */
export const WATER = { latentJkg: 334_000, liquidJkgK: 4205, iceJkgK: 2097, iceDensityKgM3: 917, iceWmK: 2.2 } as const;

/** Temperature, °C, of `massKg` of water whose heat content above water at 0 °C is `enthalpyJ`. */
export function waterTemperatureC(enthalpyJ: number, massKg: number): number {
  const latent = massKg * WATER.latentJkg;
  if (enthalpyJ >= 0) return enthalpyJ / (massKg * WATER.liquidJkgK);
  if (enthalpyJ >= -latent) return 0;
  return (enthalpyJ + latent) / (massKg * WATER.iceJkgK);
}

/** Heat content, J above water at 0 °C, of `massKg` at `tempC`; at 0 °C taken as `iceShare` (0 to 1) frozen. */
export function waterEnthalpyJ(tempC: number, massKg: number, iceShare = 0): number {
  const latent = massKg * WATER.latentJkg;
  if (tempC > 0) return tempC * massKg * WATER.liquidJkgK;
  if (tempC < 0) return tempC * massKg * WATER.iceJkgK - latent;
  return iceShare > 0 ? -latent * iceShare : 0;
}

/** A node of the network that holds water, besides any capacity that does not freeze (the bottle). */
export interface FreezingNode {
  readonly node: number;
  readonly waterKg: number;
}

export type Phase = 'water' | 'mixed' | 'ice';

/**
 * The network while each lump is in its phase: a mixed one is a boundary at 0 °C (one more input, the last), an ice one has the
 * capacity of ice.
 */
export function frozenNetwork(network: Network, freezing: readonly FreezingNode[], phase: readonly Phase[]): Network {
  const pinned = new Set(freezing.filter((_, f) => phase[f] === 'mixed').map((lump) => lump.node));
  const zero = network.inputs.length;
  const nodes = network.nodes.map((node, i) => {
    const f = freezing.findIndex((lump) => lump.node === i);
    if (f < 0 || phase[f] !== 'ice') return node;
    return { ...node, capacityJK: node.capacityJK - freezing[f]!.waterKg * (WATER.liquidJkgK - WATER.iceJkgK) };
  });
  const drives: NetworkDrive[] = network.drives.filter((drive) => !pinned.has(drive.node));
  const links: Network['links'][number][] = [];
  for (const link of network.links) {
    const [a, b] = [pinned.has(link.a), pinned.has(link.b)];
    if (a && b) continue;
    if (a || b) drives.push({ input: zero, node: a ? link.b : link.a, kind: 'temperature', gain: link.conductanceWK });
    else links.push(link);
  }
  // A pinned node keeps its place in the numbering, tied to the boundary at 0 °C.
  for (const node of pinned) drives.push({ input: zero, node, kind: 'temperature', gain: 1 });
  return { nodes, links, inputs: [...network.inputs, 'melting ice'], drives };
}

/** Heat into a node, W: weights on the temperatures of all nodes, and on each input. */
export function inflowOf(network: Network, node: number): { weights: Float64Array; ofInputs: Float64Array } {
  const weights = new Float64Array(network.nodes.length);
  const ofInputs = new Float64Array(network.inputs.length);
  for (const { a, b, conductanceWK } of network.links) {
    if (a !== node && b !== node) continue;
    weights[a === node ? b : a]! += conductanceWK;
    weights[node]! -= conductanceWK;
  }
  for (const drive of network.drives) {
    if (drive.node !== node) continue;
    ofInputs[drive.input]! += drive.gain;
    if (drive.kind === 'temperature') weights[node]! -= drive.gain;
  }
  return { weights, ofInputs };
}

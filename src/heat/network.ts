/**
 * A linear heat network: C dT/dt = -K T + B u. Nodes have a capacity and a temperature; links carry heat between nodes;
 * inputs are boundary temperatures (link to a node through a conductance) or heat sources (watts into a node).
 */
export interface Network {
  readonly nodes: readonly NetworkNode[];
  /** Conductance between two nodes, W/K. */
  readonly links: readonly { readonly a: number; readonly b: number; readonly conductanceWK: number }[];
  /** Names of the inputs in the order of the input arrays: temperatures in °C, sources in W. */
  readonly inputs: readonly string[];
  /** How an input reaches a node: W/K for a temperature input, share (1 = all of it) for a source in W. */
  readonly drives: readonly NetworkDrive[];
}

export interface NetworkNode {
  readonly name: string;
  /** J/K; 0 for a surface or junction without capacity, which is eliminated exactly. */
  readonly capacityJK: number;
}

export interface NetworkDrive {
  readonly input: number;
  readonly node: number;
  readonly kind: 'temperature' | 'source';
  /** W/K for `temperature`, share for `source`. */
  readonly gain: number;
}

/** Builds a network piece by piece; nodes and inputs are known by the number that adding them returns. */
export class NetworkBuilder {
  readonly nodes: NetworkNode[] = [];
  readonly links: { a: number; b: number; conductanceWK: number }[] = [];
  readonly inputs: string[] = [];
  readonly drives: NetworkDrive[] = [];

  node(name: string, capacityJK: number): number {
    if (!(capacityJK >= 0 && Number.isFinite(capacityJK)))
      throw new RangeError(`node ${name}: capacity must be 0 or more J/K, not ${capacityJK}`);
    return this.nodes.push({ name, capacityJK }) - 1;
  }

  input(name: string): number {
    const known = this.inputs.indexOf(name);
    return known >= 0 ? known : this.inputs.push(name) - 1;
  }

  link(a: number, b: number, conductanceWK: number): void {
    if (!(conductanceWK >= 0 && Number.isFinite(conductanceWK)))
      throw new RangeError(`conductance between nodes must be 0 or more W/K, not ${conductanceWK}`);
    if (conductanceWK > 0) this.links.push({ a, b, conductanceWK });
  }

  /** A boundary temperature reaching `node` through `conductanceWK`. */
  boundary(input: number, node: number, conductanceWK: number): void {
    if (!(conductanceWK >= 0 && Number.isFinite(conductanceWK)))
      throw new RangeError(`conductance to a boundary must be 0 or more W/K, not ${conductanceWK}`);
    if (conductanceWK > 0) this.drives.push({ input, node, kind: 'temperature', gain: conductanceWK });
  }

  /** A heat source in watts, `share` of which enters `node`. */
  source(input: number, node: number, share = 1): void {
    this.drives.push({ input, node, kind: 'source', gain: share });
  }

  build(): Network {
    return { nodes: this.nodes, links: this.links, inputs: this.inputs, drives: this.drives };
  }
}

/** The same network with every conductance times `lossFactor` and every capacity times `massFactor`. */
export function scaleNetwork(network: Network, lossFactor: number, massFactor: number): Network {
  if (lossFactor === 1 && massFactor === 1) return network;
  return {
    nodes: network.nodes.map((node) => ({ ...node, capacityJK: node.capacityJK * massFactor })),
    links: network.links.map((link) => ({ ...link, conductanceWK: link.conductanceWK * lossFactor })),
    inputs: network.inputs,
    drives: network.drives.map((drive) =>
      drive.kind === 'temperature' ? { ...drive, gain: drive.gain * lossFactor } : drive,
    ),
  };
}

/** A refrigerator by its exact physics: any heat network, one compressor, one thermostat. */
import { NetworkBuilder } from './network.ts';
import { runThermostat, type ThermostatEvent, type ThermostatRun } from './thermostat.ts';

export interface ExactRefrigerator {
  readonly nodes: readonly { readonly name: string; readonly heatCapacityJK: number; readonly heatW?: number }[];
  /** Conductances, W/K; `room` names the room around. */
  readonly links: readonly { readonly from: string; readonly to: string; readonly conductanceWK: number }[];
  readonly compressor: { readonly node: string; readonly coolingW: number };
  readonly thermostat: { readonly node: string; readonly onAtC: number; readonly offAtC: number };
  readonly room: { readonly stepS: number; readonly temperatureC: readonly number[] };
  readonly initialC: number;
  readonly spanS: number;
  readonly sampleS: number;
  readonly doors?: readonly { readonly atS: number; readonly share: number; readonly nodes: readonly string[] }[];
  readonly powerCuts?: readonly { readonly fromS: number; readonly toS: number }[];
  /** First moments wanted at which a node passes a limit. */
  readonly watches?: readonly { readonly node: string; readonly limitC: number; readonly rising: boolean }[];
}

export interface ExactRefrigeratorResult {
  readonly events: readonly ThermostatEvent[];
  /** By node: temperatures at 0, sampleS, ... */
  readonly temperatureC: Readonly<Record<string, readonly number[]>>;
  readonly meanC: Readonly<Record<string, number>>;
  readonly duty: number;
  /** Seconds to each watched limit; null when it was not passed. */
  readonly watchedAtS: readonly (number | null)[];
  readonly energyJ: ThermostatRun['energyJ'];
}

/** Runs an exact refrigerator. Throws RangeError for names that are not nodes and whatever `runThermostat` refuses. */
export function simulateRefrigerator(exact: ExactRefrigerator): ExactRefrigeratorResult {
  const builder = new NetworkBuilder();
  const room = builder.input('room');
  const compressor = builder.input('compressor');
  const numbers = new Map<string, number>();
  const heatW: Record<number, number> = {};
  for (const { name, heatCapacityJK, heatW: watts } of exact.nodes) {
    const node = builder.node(name, heatCapacityJK);
    numbers.set(name, node);
    if (watts === undefined) continue;
    const input = builder.input(`heat in ${name}`);
    builder.source(input, node);
    heatW[input] = watts;
  }
  const find = (name: string): number => {
    const node = numbers.get(name);
    if (node === undefined) throw new RangeError(`"${name}" is none of the nodes: ${[...numbers.keys()].join(', ')}`);
    return node;
  };
  for (const { from, to, conductanceWK } of exact.links) {
    if (from === 'room') builder.boundary(room, find(to), conductanceWK);
    else if (to === 'room') builder.boundary(room, find(from), conductanceWK);
    else builder.link(find(from), find(to), conductanceWK);
  }
  builder.source(compressor, find(exact.compressor.node));
  const run = runThermostat(
    {
      network: builder.build(),
      compressorInput: compressor,
      coolingW: exact.compressor.coolingW,
      sensorNode: find(exact.thermostat.node),
      onAtC: exact.thermostat.onAtC,
      offAtC: exact.thermostat.offAtC,
      room: { stepS: exact.room.stepS, tempC: exact.room.temperatureC },
      heatW,
    },
    {
      spanS: exact.spanS,
      sampleS: exact.sampleS,
      startC: exact.initialC,
      doors: (exact.doors ?? []).map(({ atS, share, nodes }) => ({ atS, share, airNodes: nodes.map(find) })),
      powerCuts: exact.powerCuts ?? [],
      watches: (exact.watches ?? []).map(({ node, limitC, rising }) => ({
        node: find(node),
        limitC,
        direction: rising ? 1 : -1,
      })),
    },
  );
  const byName = <T>(pick: (node: number) => T) =>
    Object.fromEntries([...numbers].map(([name, node]) => [name, pick(node)]));
  return {
    events: run.events,
    temperatureC: byName((node) => Array.from(run.sampledC[node]!)),
    meanC: byName((node) => run.meanC[node]!),
    duty: run.duty,
    watchedAtS: run.crossedAtS.map((atS) => atS ?? null),
    energyJ: run.energyJ,
  };
}

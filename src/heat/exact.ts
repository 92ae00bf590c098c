import { answerWinter, type WinterAnswer } from './answer.ts';
import type { CellCriterion } from './cells.ts';
import { addChain } from './chain.ts';
import { type EnergyBalance, energyBalance } from './energy.ts';
import { findModes, sineResponse, steadyGain } from './modes.ts';
import { NetworkBuilder } from './network.ts';
import { DAY_S } from './periodic.ts';
import { makeRecursion, run } from './run.ts';
import { type SolidLayer, transmittance } from './transmittance.ts';

/** A shell around well-mixed contents, by its exact physics. Layers outside to inside; areas m², W, J, kg, m, s, °C. */
export interface ExactCase {
  readonly shell: {
    readonly areaM2: number;
    readonly layers: readonly SolidLayer[];
    readonly outsideResistanceM2KW: number;
    readonly insideResistanceM2KW: number;
  };
  readonly contents: readonly { readonly massKg: number; readonly specificHeatJkgK: number }[];
  readonly heatW: number;
  /** Outdoor temperature, a straight line between samples. */
  readonly outside: { readonly stepS: number; readonly temperatureC: readonly number[] };
  /** Temperature of everything, shell and contents, at the first sample. */
  readonly initialC: number;
}

export interface ExactResult {
  /** Contents at each outdoor sample, °C. */
  readonly insideC: number[];
  readonly summary: WinterAnswer;
  readonly transmittanceWm2K: number;
  readonly lossWK: number;
  /** Slowest first. */
  readonly timeConstantsH: number[];
  /** A daily change outdoors arrives as one part in this many, so much later. */
  readonly dampingOneIn: number;
  readonly lagH: number;
  /** Lasting warming by the heat source, K. */
  readonly heatingK: number;
  readonly energy: EnergyBalance;
}

/** Finer than a keeper's box needs: an engineer's check should not see the cells. */
export const exactCriterion: CellCriterion = { transmittance: 0.0002, lag: 0.0005, lagS: 1, periodS: DAY_S / 6 };

/**
 * Runs an exact case: shell cut into cells, contents one node, exact recursion with every mode. Follows an independent
 * solution of the same equations within 0.01 K. Throws RangeError when the contents have no heat capacity or nothing resists the heat.
 */
export function simulateExact(exact: ExactCase): ExactResult {
  const { shell, outside } = exact;
  const capacity = exact.contents.reduce((sum, part) => sum + part.massKg * part.specificHeatJkgK, 0);
  const builder = new NetworkBuilder();
  const air = builder.input('outside');
  const heat = builder.input('heat');
  const contents = builder.node('contents', capacity);
  builder.source(heat, contents);
  addChain(
    builder,
    'shell',
    shell.layers.map((layer) => ({ layer, areaM2: shell.areaM2 })),
    {
      outsideM2KW: shell.outsideResistanceM2KW,
      outsideAreaM2: shell.areaM2,
      insideM2KW: shell.insideResistanceM2KW,
      insideAreaM2: shell.areaM2,
    },
    { input: air },
    { node: contents },
    exactCriterion,
  );
  const modes = findModes(builder.build());
  const inputs = [Float64Array.from(outside.temperatureC), Float64Array.of(exact.heatW)];
  const start = new Float64Array(modes.nodeCount).fill(exact.initialC);
  const insideC = new Float64Array(outside.temperatureC.length);
  run(makeRecursion(modes, contents, outside.stepS, { accuracyK: 0 }), inputs, insideC, start);
  // The start is known exactly, not to the rounding of a sum over modes.
  insideC[0] = exact.initialC;
  const u = transmittance(shell.layers, {
    outsideM2KW: shell.outsideResistanceM2KW,
    insideM2KW: shell.insideResistanceM2KW,
  });
  const daily = sineResponse(modes, contents, air, DAY_S);
  return {
    insideC: Array.from(insideC),
    summary: answerWinter('exact', { startMs: 0, stepS: outside.stepS, tempC: insideC }),
    transmittanceWm2K: u,
    lossWK: u * shell.areaM2,
    timeConstantsH: Array.from(modes.rates.slice(0, 5), (rate) => 1 / rate / 3600),
    dampingOneIn: 1 / daily.share,
    lagH: daily.lagS / 3600,
    heatingK: exact.heatW * steadyGain(modes, contents, heat),
    energy: energyBalance(modes, inputs, outside.stepS, start),
  };
}

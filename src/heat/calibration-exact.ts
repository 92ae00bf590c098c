/** Calibration of an exact physical case: the shell around well-mixed contents of `exact.ts`, with sun and air change if wanted. */
import { type Calibration, type CalibrationRefused, calibrate } from './calibration.ts';
import type { CalibratedHouse } from './calibration-readings.ts';
import { addChain } from './chain.ts';
import { type ExactCase, exactCriterion } from './exact.ts';
import { findModes, type Modes } from './modes.ts';
import { NetworkBuilder } from './network.ts';
import { makeRecursion, run } from './run.ts';

/** Factors an exact case may leave free. */
export type ExactFactor = 'loss' | 'mass' | 'sun' | 'airChange';

export interface ExactCalibration {
  readonly case: Omit<ExactCase, 'initialC'> & {
    /** Left out: fitted, from rest under the first outdoor temperature plus one offset. */
    readonly initialC?: number;
  };
  /** Sun on the same samples as outdoors, W/m2, through `apertureM2` into the contents. */
  readonly sun?: { readonly irradianceWm2: readonly number[]; readonly apertureM2: number };
  /** Steady exchange of air between outside and contents, W/K. */
  readonly airChangeWK?: number;
  /** Inside readings, s from the first outdoor sample. */
  readonly readings: readonly { readonly atS: number; readonly tempC: number }[];
  readonly maxMin?: readonly {
    readonly fromS: number;
    readonly toS: number;
    readonly maxC: number;
    readonly minC: number;
  }[];
  /** Factors on the stated values that are to be found; all of them, or the case is refused. */
  readonly free: readonly ExactFactor[];
}

export type ExactCalibrationResult =
  | CalibrationRefused
  | (Calibration & {
      /** Inside temperature at each outdoor sample under the fitted values. */
      readonly insideC: readonly number[];
    });

/** Steps of the prediction, s: straight lines between them are within some thousandths of a kelvin of the curve. */
const GRID_S = 900;

/** Fits the free factors of an exact case to its readings. */
export function calibrateExact(asked: ExactCalibration): ExactCalibrationResult {
  const house = exactHouse(asked);
  const ordered = [...asked.readings].sort((a, b) => a.atS - b.atS);
  const result = calibrate(
    house,
    {
      points: [
        {
          probe: 0,
          atS: Float64Array.from(ordered, (one) => one.atS),
          tempC: Float64Array.from(ordered, (one) => one.tempC),
        },
      ],
      spans: (asked.maxMin ?? []).map((one) => ({ ...one, probe: 0 })),
    },
    'stated',
  );
  if (result.outcome === 'refused') return result;
  const inside = new Float64Array(house.samples);
  house.predict(result.values, [inside]);
  const every = Math.round(asked.case.outside.stepS / house.stepS);
  return { ...result, insideC: asked.case.outside.temperatureC.map((_, i) => inside[i * every]!) };
}

function exactHouse(asked: ExactCalibration): CalibratedHouse {
  const { shell, contents, outside, heatW, initialC } = asked.case;
  const every = Math.max(1, Math.ceil(outside.stepS / GRID_S));
  const outsideC = refined(outside.temperatureC, every);
  const sunWm2 = asked.sun ? refined(asked.sun.irradianceWm2, every) : undefined;
  const stepS = outside.stepS / every;
  const capacityJK = contents.reduce((sum, part) => sum + part.massKg * part.specificHeatJkgK, 0);
  const heat = Float64Array.of(heatW);
  const still = Float64Array.of(0);
  const order = asked.free;
  const factorIn = (values: Float64Array, id: ExactFactor) => {
    const at = order.indexOf(id);
    return at < 0 ? 1 : values[at]!;
  };
  return {
    factors: order,
    offsets: initialC === undefined ? [{ sdK: Number.POSITIVE_INFINITY, lasting: false }] : [],
    probes: 1,
    fromS: 0,
    stepS,
    samples: outsideC.length,
    outsideC,
    ...(sunWm2 ? { sunWm2 } : {}),
    predict(values, out) {
      const loss = factorIn(values, 'loss');
      const builder = new NetworkBuilder();
      const air = builder.input('outside');
      const inner = builder.input('heat');
      const sun = builder.input('sun');
      const node = builder.node('contents', capacityJK * factorIn(values, 'mass'));
      builder.source(inner, node);
      builder.source(sun, node, (asked.sun?.apertureM2 ?? 0) * factorIn(values, 'sun'));
      builder.boundary(air, node, (asked.airChangeWK ?? 0) * factorIn(values, 'airChange'));
      addChain(
        builder,
        'shell',
        shell.layers.map((layer) => ({
          layer: { ...layer, conductivityWmK: layer.conductivityWmK * loss },
          areaM2: shell.areaM2,
        })),
        {
          outsideM2KW: shell.outsideResistanceM2KW / loss,
          outsideAreaM2: shell.areaM2,
          insideM2KW: shell.insideResistanceM2KW / loss,
          insideAreaM2: shell.areaM2,
        },
        { input: air },
        { node },
        exactCriterion,
      );
      const modes = findModes(builder.build());
      const start =
        initialC === undefined
          ? settledTemperatures(modes, [outsideC[0]!, heatW, 0]).map((t) => t + values[order.length]!)
          : new Float64Array(modes.nodeCount).fill(initialC);
      run(makeRecursion(modes, node, stepS, { accuracyK: 0 }), [outsideC, heat, sunWm2 ?? still], out[0]!, start);
    },
  };
}

/** Temperatures of all nodes at rest under steady inputs. */
export function settledTemperatures(modes: Modes, inputs: ArrayLike<number>): Float64Array {
  const { rates, shapes, drives, direct, nodeCount, inputCount } = modes;
  const out = new Float64Array(nodeCount);
  for (let k = 0; k < rates.length; k++) {
    let push = 0;
    for (let u = 0; u < inputCount; u++) push += drives[k * inputCount + u]! * inputs[u]!;
    for (let i = 0; i < nodeCount; i++) out[i]! += (shapes[i * rates.length + k]! * push) / rates[k]!;
  }
  for (let i = 0; i < nodeCount; i++)
    for (let u = 0; u < inputCount; u++) out[i]! += direct[i * inputCount + u]! * inputs[u]!;
  return out;
}

/** A series with `every` straight steps in place of each. */
function refined(values: readonly number[], every: number): Float64Array {
  const out = new Float64Array((values.length - 1) * every + 1);
  for (let i = 0; i < out.length; i++) {
    const index = Math.min(Math.floor(i / every), values.length - 2);
    const share = i / every - index;
    out[i] = values[index]! + share * (values[index + 1]! - values[index]!);
  }
  return out;
}

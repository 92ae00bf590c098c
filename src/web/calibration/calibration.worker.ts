import { expose } from 'comlink';
import type { AnswerOverWinters } from '../../heat/answer.ts';
import { type Calibration, calibrate } from '../../heat/calibration.ts';
import { calibrationFactors, type FactorId } from '../../heat/calibration-data.ts';
import {
  calibratedDescriptions,
  type DryRunProbe,
  houseOf,
  predictWithInterval,
} from '../../heat/calibration-house.ts';
import type { BoxDescription, WeatherPlace } from '../../heat/description.ts';
import { forecastBox, forecastPlace } from '../../heat/forecast.ts';
import { type PreparedWinters, prepareWinters } from '../../heat/place-weather.ts';
import type { Winters } from '../../schema/winters.ts';
import type { Site } from '../../weather/day-curve.ts';
import type { MonthlyNormals } from '../../weather/normals.ts';
import type { Winter } from '../../weather/winters.ts';
import type { Message } from '../../wording/say.ts';

export interface DryRun {
  readonly site: Site;
  readonly normals: MonthlyNormals | undefined;
  readonly place: WeatherPlace;
  readonly box: BoxDescription;
  /** Hourly outdoors from some days before the first reading to the last, °C; null where nothing was read. */
  readonly weather: { readonly startMs: number; readonly airTempC: readonly (number | null)[] };
  readonly probes: readonly {
    readonly kind: DryRunProbe;
    readonly atMs: readonly number[];
    readonly tempC: readonly number[];
    readonly spans: readonly {
      readonly fromMs: number;
      readonly toMs: number;
      readonly maxC: number;
      readonly minC: number;
    }[];
  }[];
}

export interface Fitted {
  readonly outcome: 'calibrated';
  readonly factors: readonly {
    readonly id: FactorId;
    readonly name: string;
    readonly value: number;
    readonly low: number;
    readonly high: number;
    readonly logError: number;
  }[];
  readonly untold: readonly { readonly name: string; readonly reason: Message }[];
  readonly residualSdK: readonly number[];
  readonly holdOut: { readonly rmsK: number; readonly biasK: number; readonly readings: number } | undefined;
  readonly readings: number;
  readonly place: WeatherPlace;
  readonly box: BoxDescription;
  /** What the calibrated house would have read in the dry run, by probe, hourly, with its 90 % interval. */
  readonly drawn: readonly {
    readonly startMs: number;
    readonly meanC: Float32Array;
    readonly lowC: Float32Array;
    readonly highC: Float32Array;
  }[];
}

export interface Refused {
  readonly outcome: 'refused';
  readonly reasons: readonly Message[];
}

export interface Redone {
  readonly before: AnswerOverWinters;
  readonly after: AnswerOverWinters;
  /** Half width of the 90 % prediction interval in the box, K, on the mean of the winter that is drawn. */
  readonly halfWidthK: number;
  /** Coldest of all winters by the middle and by the cold edge of the interval, °C. */
  readonly coldestC: number;
  readonly coldestLowC: number;
}

const HOUR_S = 3600;
let last: { dryRun: DryRun; calibration: Calibration } | undefined;

const column = (values: readonly (number | null)[]) => Float64Array.from(values, (value) => value ?? Number.NaN);

const winterOf = (startMs: number, stepS: number, airTempC: Float64Array, cloudShare?: Float64Array): Winter => ({
  label: '',
  origin: 'recorded',
  fromDay: new Date(startMs).toISOString().slice(0, 10),
  missingShare: 0,
  series: { startMs, stepS, airTempC, ...(cloudShare ? { cloudShare } : {}) },
});

function prepared({ site, normals }: DryRun, winters: readonly Winter[]): PreparedWinters {
  return prepareWinters(site, winters, normals ? { normals } : undefined);
}

const answers = {
  /** Fits the factors of the place and its box to what was read in the dry run, or says why it cannot. */
  fit(dryRun: DryRun): Fitted | Refused {
    last = undefined;
    const { place, box, weather, probes } = dryRun;
    const { startMs } = weather;
    const house = houseOf({
      place,
      box,
      weather: prepared(dryRun, [winterOf(startMs, HOUR_S, column(weather.airTempC))]),
      probes: probes.map((probe) => probe.kind),
    });
    const seconds = (ms: number) => (ms - startMs) / 1000;
    const result = calibrate(house, {
      points: probes.map(({ atMs, tempC }, probe) => ({
        probe,
        atS: Float64Array.from(atMs, seconds),
        tempC: Float64Array.from(tempC),
      })),
      spans: probes.flatMap(({ spans }, probe) =>
        spans.map(({ fromMs, toMs, maxC, minC }) => ({
          probe,
          fromS: seconds(fromMs),
          toS: seconds(toMs),
          maxC,
          minC,
        })),
      ),
    });
    if (result.outcome === 'refused') return result;
    last = { dryRun, calibration: result };
    const learnt = calibratedDescriptions(place, box, result);
    return {
      outcome: 'calibrated',
      factors: result.factors.map(({ id, value, low, high, logError }) => ({
        id,
        name: calibrationFactors[id].name,
        value,
        low,
        high,
        logError,
      })),
      untold: result.untold.map(({ id, reason }) => ({ name: calibrationFactors[id].name, reason })),
      residualSdK: result.residualSdK,
      holdOut: result.holdOut,
      readings: result.readings,
      place: learnt.place,
      box: learnt.box ?? box,
      drawn: probes.map((_, probe) => {
        const { meanC, lowC, highC } = predictWithInterval(house, result, probe);
        return {
          startMs,
          meanC: Float32Array.from(meanC),
          lowC: Float32Array.from(lowC),
          highC: Float32Array.from(highC),
        };
      }),
    };
  },

  /** The box through all winters, as it was described and as the readings taught. */
  redo(winters: Winters['winters'], sleep: { readonly from: string; readonly days: number }): Redone | undefined {
    if (!last || winters.length === 0) return undefined;
    const { dryRun, calibration } = last;
    const cut = winters.map(
      (one): Winter => ({
        ...winterOf(one.startMs, one.stepS, column(one.airTempC), one.cloudShare ? column(one.cloudShare) : undefined),
        label: one.label,
        fromDay: one.fromDay,
      }),
    );
    const weather = prepared(dryRun, cut);
    const learnt = calibratedDescriptions(dryRun.place, dryRun.box, calibration);
    const before = forecastBox({ place: forecastPlace(dryRun.place, weather), box: dryRun.box, sleep });
    const after = forecastBox({ place: forecastPlace(learnt.place, weather), box: learnt.box ?? dryRun.box, sleep });
    // The winter with the coldest hour is the one whose edge matters; its interval is worked out in full.
    let worst = 0;
    after.winters.forEach((winter, index) => {
      if (winter.answer.coldestC < (after.winters[worst]?.answer.coldestC ?? Number.POSITIVE_INFINITY)) worst = index;
    });
    const kinds = dryRun.probes.map((probe) => probe.kind);
    const house = houseOf({
      place: dryRun.place,
      box: dryRun.box,
      weather: prepared(dryRun, [cut[worst] as Winter]),
      probes: kinds,
      fromRest: true,
    });
    const { meanC, lowC, highC } = predictWithInterval(house, calibration, Math.max(0, kinds.indexOf('box')));
    let width = 0;
    for (let i = 0; i < meanC.length; i++) width += ((highC[i] as number) - (lowC[i] as number)) / 2;
    return {
      before: before.answer,
      after: after.answer,
      halfWidthK: width / meanC.length,
      coldestC: meanC.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
      coldestLowC: lowC.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    };
  },
};

export type CalibrationWorker = typeof answers;
expose(answers);

import { type MonthlyNormals, seasonOfNormals } from './normals.ts';

const DAY_S = 86_400;
const YEAR_DAYS = 365;
/** 2000-01-01 00:00 UTC. */
const Y2000_MS = Date.UTC(2000, 0, 1);
const MEAN_YEAR_DAYS = 365.2425;

/** The yearly wave of the temperature at the surface of the ground. */
export interface GroundWave {
  readonly meanC: number;
  /** Half the difference between the warmest and the coldest time of the year, K. */
  readonly amplitudeK: number;
  /** Day of the year (counted from 0) on which the surface is coldest. */
  readonly coldestDay: number;
}

/**
 * Temperature of undisturbed ground, °C, at `depthM` on `dayOfYear` (fractions allowed):
 * Tm - A exp(-z s) cos(2π(t - t0)/365 - z s), s = sqrt(π / (365 α)). Kasuda and Archenbach 1965, ASHRAE Trans. 71(1):61-75.
 * `diffusivityM2S` about 5e-7 for moist soil. `periodDays` other than a year only in checks.
 */
export function groundTempC(
  wave: GroundWave,
  depthM: number,
  dayOfYear: number,
  diffusivityM2S: number,
  periodDays = YEAR_DAYS,
): number {
  const damping = depthM * Math.sqrt(Math.PI / (periodDays * DAY_S * diffusivityM2S));
  const phase = (2 * Math.PI * (dayOfYear - wave.coldestDay)) / periodDays - damping;
  return wave.meanC - wave.amplitudeK * Math.exp(-damping) * Math.cos(phase);
}

/** Ground temperature at even instants, °C: years of 365.2425 days, so that the wave runs on through leap years. */
export function groundSeriesC(
  wave: GroundWave,
  depthM: number,
  diffusivityM2S: number,
  at: { readonly startMs: number; readonly stepS: number; readonly count: number },
): Float64Array {
  const out = new Float64Array(at.count);
  const firstDay = (at.startMs - Y2000_MS) / (DAY_S * 1000);
  const stepDays = at.stepS / DAY_S;
  for (let i = 0; i < at.count; i++) {
    const day = (firstDay + i * stepDays) % MEAN_YEAR_DAYS;
    out[i] = groundTempC(wave, depthM, day, diffusivityM2S, MEAN_YEAR_DAYS);
  }
  return out;
}

/**
 * The yearly wave taken from monthly normals of the air: mean and first harmonic of the mid-range. The surface of the ground follows
 * the air on average; bare sunny ground is a degree or two warmer over the year, shaded or snow-covered ground differs in winter.
 */
export function groundWaveOfNormals(normals: MonthlyNormals): GroundWave {
  const { mean } = seasonOfNormals(normals);
  const cosine = mean.cosine[1]!;
  const sine = mean.sine[1]!;
  // cosine cos x + sine sin x is lowest half a turn after its peak at atan2(sine, cosine).
  const lowest = Math.atan2(sine, cosine) + Math.PI;
  const share = lowest / (2 * Math.PI);
  return {
    meanC: mean.cosine[0]!,
    amplitudeK: Math.hypot(cosine, sine),
    coldestDay: (share - Math.floor(share)) * YEAR_DAYS,
  };
}

import { addDays, type Day } from '../measure/day.ts';
import type { DayDepartures } from './climates.ts';
import { dailyOverHours, dayClocks, hoursOnClocks, type Site } from './day-curve.ts';
import { coldness, type MonthlyNormals, seasonalValue, seasonOfNormals, yearShare } from './normals.ts';
import { seededRandom } from './random.ts';
import type { Winter } from './winters.ts';

/** Steepness of the cloud cover's spread: above 1 clear and overcast skies are commoner than half-clouded ones, as over the maritime winter. */
const CLOUD_STEEPNESS = 1.5;

/** Standard normal distribution function, to 1e-7 (Abramowitz and Stegun 1964, 7.1.26; from memory). */
function normalShareBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp(-x * x);
  return z >= 0 ? 1 - tail / 2 : tail / 2;
}

/** The value below which the given share of a standard normal lies, by bisection: used once per call. */
function normalQuantile(share: number): number {
  let low = -8;
  let high = 8;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (normalShareBelow(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Cloud cover from a standard normal number: mean exactly `mean`, spread towards clear and overcast. */
function cloudCover(mean: number): { share: (z: number) => number; sd: number } {
  // The mean of the distribution function over a normal is that function at offset / sqrt(1 + steepness2).
  const offset = normalQuantile(mean) * Math.sqrt(1 + CLOUD_STEEPNESS ** 2);
  const share = (z: number) => normalShareBelow(offset + CLOUD_STEEPNESS * z);
  let square = 0;
  let weight = 0;
  for (let z = -6; z <= 6; z += 0.02) {
    const density = Math.exp((-z * z) / 2);
    square += density * (share(z) - mean) ** 2;
    weight += density;
  }
  return { share, sd: Math.sqrt(square / weight) };
}

/** Bend k of z - k(z2 - 1) that gives a standard normal z the skewness asked for (|skewness| up to 1), by Newton steps. */
function bendForSkewness(skewness: number): number {
  let k = -skewness / 6;
  for (let i = 0; i < 20; i++) {
    const spread = 1 + 2 * k * k;
    const value = (-6 * k - 8 * k ** 3) / spread ** 1.5;
    const slope = (-6 - 24 * k * k) / spread ** 1.5 + (6 * k * (6 * k + 8 * k ** 3)) / spread ** 2.5;
    k -= (value - skewness) / slope;
  }
  return k;
}

export interface WintersAsked {
  readonly normals: MonthlyNormals;
  readonly departures: DayDepartures;
  readonly site: Site;
  /** First day of every winter made: all of them stand on the same dates, so that they can stand for the winter to come. */
  readonly fromDay: Day;
  /** Days in each, 1 to 366. */
  readonly days: number;
  /** How many; at least 30 where a spread over winters is to be shown. */
  readonly winters: number;
  /** Whole number; the same seed makes the same winters on every machine. */
  readonly seed: number;
}

/** One made winter by the day: extremes in °C and cloud cover as a share of the sky. */
export interface GeneratedDays {
  readonly minC: Float64Array;
  readonly maxC: Float64Array;
  readonly cloudShare: Float64Array;
}

/**
 * Winters made from twelve monthly normals, day by day. The seasonal mean carries first-order autoregressive departures of the
 * day's mid-range; cloud cover is a second such process, tied to the first, and stretches or shrinks the day's range. Over many winters the means of the maxima and minima come back to the normals, and spread and lag-1 to the departures.
 * Richardson 1981, Water Resour. Res. 17:182-190, is the pattern of such generators (from memory); the tie to cloud is our own.
 */
export function generateDays(asked: WintersAsked): GeneratedDays[] {
  const { departures, days } = asked;
  if (!(departures.lag1 >= 0 && departures.lag1 < 1)) throw new RangeError('lag1 must be at least 0 and below 1');
  if (!(departures.rangeLag1 >= 0 && departures.rangeLag1 < 1))
    throw new RangeError('rangeLag1 must be at least 0 and below 1');
  if (!(departures.sdK >= 0)) throw new RangeError('sdK must not be negative');
  if (!(departures.meanCloudShare > 0 && departures.meanCloudShare < 1))
    throw new RangeError('meanCloudShare must lie between 0 and 1');
  if (!(Number.isInteger(days) && days >= 1 && days <= 366)) throw new RangeError('days must be 1 to 366');

  const season = seasonOfNormals(asked.normals);
  const shares = Array.from({ length: days }, (_, i) => yearShare(addDays(asked.fromDay, i)));
  const meanC = shares.map((share) => seasonalValue(season.mean, share));
  const rangeK = shares.map((share) => Math.max(0.2, seasonalValue(season.range, share)));
  const cold = shares.map((share) => coldness(season.mean, share));
  const bend = cold.map((share) => bendForSkewness(departures.coldSkewness * share));
  const cloud = cloudCover(departures.meanCloudShare);
  // A range must stay positive under the thickest cloud.
  const rangeGain = Math.min(departures.rangeSpread / cloud.sd, 0.9 / (1 - departures.meanCloudShare));

  const keep = departures.lag1;
  const fresh = Math.sqrt(1 - keep * keep);
  const cloudKeep = departures.rangeLag1;
  const cloudFresh = Math.sqrt(1 - cloudKeep * cloudKeep);
  // Shocks that are correlated by t leave the two processes correlated by t fresh cloudFresh / (1 - keep cloudKeep).
  const tie = cold.map((share) => {
    const wanted = (departures.rangeCorrelationCold * (1 + share) + departures.rangeCorrelationWarm * (1 - share)) / 2;
    const shock = (-wanted * (1 - keep * cloudKeep)) / (fresh * cloudFresh);
    return Math.max(-0.95, Math.min(0.95, shock));
  });

  const out: GeneratedDays[] = [];
  const random = seededRandom(asked.seed);
  for (let number = 1; number <= asked.winters; number++) {
    const minC = new Float64Array(days);
    const maxC = new Float64Array(days);
    const cloudShare = new Float64Array(days);
    let state = random.normal();
    const startTie = (tie[0]! * fresh * cloudFresh) / (1 - keep * cloudKeep);
    let cloudState = startTie * state + Math.sqrt(1 - startTie * startTie) * random.normal();
    for (let i = 0; i < days; i++) {
      if (i > 0) {
        const shock = random.normal();
        const other = random.normal();
        state = keep * state + fresh * shock;
        cloudState = cloudKeep * cloudState + cloudFresh * (tie[i]! * shock + Math.sqrt(1 - tie[i]! * tie[i]!) * other);
      }
      const k = bend[i]!;
      const departure = (departures.sdK * (state - k * (state * state - 1))) / Math.sqrt(1 + 2 * k * k);
      cloudShare[i] = cloud.share(cloudState);
      const half = (rangeK[i]! * (1 + rangeGain * (departures.meanCloudShare - cloudShare[i]!))) / 2;
      minC[i] = meanC[i]! + departure - half;
      maxC[i] = meanC[i]! + departure + half;
    }
    out.push({ minC, maxC, cloudShare });
  }
  return out;
}

/** The same winters by the hour, on the day curve. */
export function generateWinters(asked: WintersAsked): Winter[] {
  const made = generateDays(asked);
  const clocks = dayClocks(asked.fromDay, asked.days, asked.site);
  return made.map(({ minC, maxC, cloudShare }, i) => ({
    label: String(i + 1),
    origin: 'generated',
    fromDay: asked.fromDay,
    series: { ...hoursOnClocks(clocks, minC, maxC), stepS: 3600, cloudShare: dailyOverHours(clocks, cloudShare) },
    missingShare: 0,
  }));
}

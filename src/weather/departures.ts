import { Matrix, solve } from 'ml-matrix';
import { message } from '../wording/say.ts';
import { CLIMATES, type DayDepartures } from './climates.ts';
import { isNextDay } from './daily.ts';
import type { DailyRow } from './day-curve.ts';
import { coldness, type SeasonalCurve, seasonalValue, yearShare } from './normals.ts';
import type { WeatherResult } from './result.ts';

/** Cold half-years a record must hold before its spread can be told: fewer see too few spells. */
const LEAST_WINTERS = 3;
const LEAST_DAYS_A_WINTER = 60;
const HARMONICS = 3;

export interface FittedDepartures {
  readonly departures: DayDepartures;
  /** Days of the cold half of the year the fit rests on, and the winters they come from. */
  readonly days: number;
  readonly winters: number;
  /** Standard errors, which allow for the ties between neighbouring days. */
  readonly sdErrorK: number;
  readonly lag1Error: number;
}

/** Mean and three harmonics of the year by least squares over all years of a record. */
function fitSeason(shares: readonly number[], values: readonly number[]): SeasonalCurve {
  const width = 1 + 2 * HARMONICS;
  const normal = Matrix.zeros(width, width);
  const right = Matrix.zeros(width, 1);
  const row = new Float64Array(width);
  shares.forEach((share, i) => {
    row[0] = 1;
    for (let k = 1; k <= HARMONICS; k++) {
      row[2 * k - 1] = Math.cos(2 * Math.PI * k * share);
      row[2 * k] = Math.sin(2 * Math.PI * k * share);
    }
    for (let a = 0; a < width; a++) {
      right.set(a, 0, right.get(a, 0) + row[a]! * values[i]!);
      for (let b = 0; b < width; b++) normal.set(a, b, normal.get(a, b) + row[a]! * row[b]!);
    }
  });
  const found = solve(normal, right).to1DArray();
  const cosine = new Float64Array(HARMONICS + 1);
  const sine = new Float64Array(HARMONICS + 1);
  cosine[0] = found[0]!;
  for (let k = 1; k <= HARMONICS; k++) {
    cosine[k] = found[2 * k - 1]!;
    sine[k] = found[2 * k]!;
  }
  return { cosine, sine };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

function correlation(pairs: readonly (readonly [number, number])[]): number {
  const a = mean(pairs.map((pair) => pair[0]));
  const b = mean(pairs.map((pair) => pair[1]));
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (const [x, y] of pairs) {
    ab += (x - a) * (y - b);
    aa += (x - a) ** 2;
    bb += (y - b) ** 2;
  }
  return aa === 0 || bb === 0 ? 0 : ab / Math.sqrt(aa * bb);
}

/**
 * Departures of a keeper's own record, so that generated winters behave like the place. The season is a mean and three harmonics fitted over
 * all years at once; spread, lag-1 and skewness come from the cold half of the year across all winters (within single months they would
 * come out too steady). Refused, with the reason, when the record has gaps in the round of the year or holds fewer than three winters.
 */
export function fitDepartures(rows: readonly DailyRow[]): WeatherResult<FittedDepartures> {
  const known = rows.filter((row) => Number.isFinite(row.maxC) && Number.isFinite(row.minC));
  const months = new Map<string, number>();
  for (const row of known) months.set(row.day.slice(5, 7), (months.get(row.day.slice(5, 7)) ?? 0) + 1);
  const where = message('weather.where.record');
  if (months.size < 12 || Math.min(...months.values()) < 20)
    return { ok: false, problems: [{ where, what: message('weather.departures.round-of-year') }] };

  const shares = known.map((row) => yearShare(row.day));
  const season = fitSeason(
    shares,
    known.map((row) => (row.maxC + row.minC) / 2),
  );
  const ranges = fitSeason(
    shares,
    known.map((row) => row.maxC - row.minC),
  );
  const days = known.map((row, i) => ({
    row,
    cold: coldness(season, shares[i]!),
    departure: (row.maxC + row.minC) / 2 - seasonalValue(season, shares[i]!),
    ratio: (row.maxC - row.minC) / Math.max(0.2, seasonalValue(ranges, shares[i]!)),
  }));

  const coldDays = days.filter((day) => day.cold > 0);
  let winters = 0;
  let run = 0;
  let before: DailyRow | undefined;
  for (const { row } of coldDays) {
    // Half a year of the warm season parts one winter from the next.
    if (before && Date.parse(row.day) - Date.parse(before.day) > 90 * 86_400_000) run = 0;
    run++;
    if (run === LEAST_DAYS_A_WINTER) winters++;
    before = row;
  }
  if (winters < LEAST_WINTERS) {
    const what = message('weather.departures.few-winters', { count: winters, least: LEAST_WINTERS });
    return { ok: false, problems: [{ where, what }] };
  }

  const centre = mean(coldDays.map((day) => day.departure));
  const variance = mean(coldDays.map((day) => (day.departure - centre) ** 2));
  const sdK = Math.sqrt(variance);
  const pairs = (of: (day: (typeof days)[number]) => number) =>
    coldDays.slice(1).flatMap((day, i) => {
      const earlier = coldDays[i]!;
      return isNextDay(earlier.row, day.row) ? [[of(earlier), of(day)] as const] : [];
    });
  const lag1 = Math.min(0.98, Math.max(0, correlation(pairs((day) => day.departure))));
  const skewness = mean(coldDays.map((day) => (day.departure - centre) ** 3)) / sdK ** 3;
  const ratioCentre = mean(coldDays.map((day) => day.ratio));
  const warmDays = days.filter((day) => day.cold < -0.5);
  const tied = (chosen: readonly (typeof days)[number][]) =>
    correlation(chosen.map((day) => [day.departure, day.ratio] as const));
  const count = coldDays.length;
  const independent = (count * (1 - lag1 * lag1)) / (1 + lag1 * lag1);
  return {
    ok: true,
    value: {
      departures: {
        sdK,
        lag1,
        coldSkewness: Math.min(1, Math.max(-1, skewness)),
        rangeSpread: Math.sqrt(mean(coldDays.map((day) => (day.ratio - ratioCentre) ** 2))),
        rangeLag1: Math.min(0.98, Math.max(0, correlation(pairs((day) => day.ratio)))),
        rangeCorrelationCold: tied(days.filter((day) => day.cold > 0.5)),
        rangeCorrelationWarm: tied(warmDays),
        meanCloudShare: CLIMATES[0]!.meanCloudShare,
      },
      days: count,
      winters,
      sdErrorK: sdK / Math.sqrt(2 * independent),
      lag1Error: Math.sqrt((1 - lag1 * lag1) / count),
    },
  };
}

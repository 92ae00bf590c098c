/** The band wanted in a sleeping box and the limits counted around it, °C. Common practice; a plan may set its own. */
export interface Band {
  readonly lowC: number;
  readonly highC: number;
}
export const usualBand: Band = { lowC: 3, highC: 8 };
const coldLimits = [3, 2, 0] as const;
const warmLimits = [8, 10] as const;
const DAY_S = 86_400;

/** Time spent beyond one limit. */
export interface Beyond {
  readonly limitC: number;
  readonly hours: number;
  readonly longestRunH: number;
  /** Start of the longest run, ms since 1970 UTC; absent when there was none. */
  readonly longestRunFromMs?: number;
}

/** What one winter in the box was like. Hours not known are counted as not known, never as good or bad. */
export interface WinterAnswer {
  readonly winter: string;
  readonly fromMs: number;
  readonly hours: number;
  readonly unknownHours: number;
  /** Known hours inside the band. */
  readonly inBandHours: number;
  /** Share of the known hours inside the band, 0 to 1; NaN when none is known. */
  readonly steadiness: number;
  /** Share of all hours, were every unknown hour outside, and were every one inside. */
  readonly steadinessRange: readonly [number, number];
  readonly under: readonly Beyond[];
  readonly over: readonly Beyond[];
  readonly meanDailySwingK: number;
  readonly meanC: number;
  readonly coldestC: number;
  readonly coldestAtMs: number;
  readonly warmestC: number;
  readonly warmestAtMs: number;
}

export interface TemperatureSeries {
  readonly startMs: number;
  readonly stepS: number;
  /** NaN where the temperature is not known. */
  readonly tempC: Float64Array;
}

/**
 * Hours beyond `limitC` (`side` -1 under it, +1 over it), the temperature a straight line between samples. A gap ends a
 * run. One loop over the samples without allocation; comparisons with NaN are false, which is what makes a gap.
 */
function timeBeyond({ startMs, stepS, tempC }: TemperatureSeries, limitC: number, side: -1 | 1): Beyond {
  let total = 0;
  let longest = 0;
  let longestFrom = 0;
  let runFrom = -1;
  let before = side * (tempC[0]! - limitC);
  for (let k = 1; k < tempC.length; k++) {
    const now = side * (tempC[k]! - limitC);
    let ends = -1;
    if (before > 0) {
      if (now > 0) {
        if (runFrom < 0) runFrom = k - 1;
        total += 1;
      } else if (now <= 0) {
        if (runFrom < 0) runFrom = k - 1;
        const crossing = before / (before - now);
        total += crossing;
        ends = k - 1 + crossing;
      } else ends = k - 1;
    } else if (now > 0 && before <= 0) {
      const crossing = before / (before - now);
      total += 1 - crossing;
      runFrom = k - 1 + crossing;
    }
    if (ends >= 0 && runFrom >= 0) {
      if (ends - runFrom > longest) {
        longest = ends - runFrom;
        longestFrom = runFrom;
      }
      runFrom = -1;
    }
    before = now;
  }
  if (runFrom >= 0 && tempC.length - 1 - runFrom > longest) {
    longest = tempC.length - 1 - runFrom;
    longestFrom = runFrom;
  }
  const hour = stepS / 3600;
  return {
    limitC,
    hours: total * hour,
    longestRunH: longest * hour,
    ...(longest > 0 ? { longestRunFromMs: startMs + longestFrom * stepS * 1000 } : {}),
  };
}

/** Mean over whole days from the start of the series of the day's highest less its lowest; days with a gap left out. */
function meanDailySwing({ stepS, tempC }: TemperatureSeries): number {
  const perDay = Math.round(DAY_S / stepS);
  let sum = 0;
  let days = 0;
  for (let from = 0; from + perDay < tempC.length; from += perDay) {
    let low = tempC[from]!;
    let high = low;
    let known = !Number.isNaN(low);
    for (let k = from + 1; k <= from + perDay; k++) {
      const t = tempC[k]!;
      if (t < low) low = t;
      else if (t > high) high = t;
      else if (!(t >= low)) known = false;
    }
    if (!known) continue;
    sum += high - low;
    days++;
  }
  return days > 0 ? sum / days : Number.NaN;
}

/** Sums up one winter's temperatures in the box. The series needs at least two samples. */
export function answerWinter(winter: string, series: TemperatureSeries, band: Band = usualBand): WinterAnswer {
  const { startMs, stepS, tempC } = series;
  if (tempC.length < 2) throw new RangeError('an answer needs at least two temperatures');
  const hour = stepS / 3600;
  const hours = (tempC.length - 1) * hour;
  let unknown = 0;
  let sum = 0;
  let coldest = -1;
  let warmest = -1;
  let coldestC = Number.POSITIVE_INFINITY;
  let warmestC = Number.NEGATIVE_INFINITY;
  let total = 0;
  for (let k = 0; k < tempC.length; k++) {
    const t = tempC[k]!;
    total += t;
    if (t < coldestC) {
      coldestC = t;
      coldest = k;
    }
    if (t > warmestC) {
      warmestC = t;
      warmest = k;
    }
  }
  // Steps between known neighbours: all of them unless one gap has made the total NaN.
  if (Number.isNaN(total))
    for (let k = 1; k < tempC.length; k++) {
      const both = (tempC[k]! + tempC[k - 1]!) / 2;
      if (Number.isNaN(both)) unknown++;
      else sum += both;
    }
  else sum = total - (tempC[0]! + tempC[tempC.length - 1]!) / 2;
  const known = (tempC.length - 1 - unknown) * hour;
  // A limit the winter never reached needs no second look.
  const under = (limitC: number): Beyond =>
    coldestC < limitC ? timeBeyond(series, limitC, -1) : { limitC, hours: 0, longestRunH: 0 };
  const over = (limitC: number): Beyond =>
    warmestC > limitC ? timeBeyond(series, limitC, 1) : { limitC, hours: 0, longestRunH: 0 };
  const cold = coldLimits.map(under);
  const warm = warmLimits.map(over);
  const below = (cold.find((one) => one.limitC === band.lowC) ?? under(band.lowC)).hours;
  const above = (warm.find((one) => one.limitC === band.highC) ?? over(band.highC)).hours;
  const inBand = Math.max(known - below - above, 0);
  return {
    winter,
    fromMs: startMs,
    hours,
    unknownHours: unknown * hour,
    inBandHours: inBand,
    steadiness: known > 0 ? inBand / known : Number.NaN,
    steadinessRange: [inBand / hours, (inBand + unknown * hour) / hours],
    under: cold,
    over: warm,
    meanDailySwingK: meanDailySwing(series),
    meanC: known > 0 ? (sum * hour) / known : Number.NaN,
    coldestC: coldest < 0 ? Number.NaN : coldestC,
    coldestAtMs: startMs + Math.max(coldest, 0) * stepS * 1000,
    warmestC: warmest < 0 ? Number.NaN : warmestC,
    warmestAtMs: startMs + Math.max(warmest, 0) * stepS * 1000,
  };
}

/** One figure over the winters: its middle, and what nine winters in ten stay within (all of them, when fewer than ten). */
export interface Spread {
  readonly median: number;
  readonly low: number;
  readonly high: number;
}

/** Quantile of sorted values, linear between order statistics. */
function quantile(sorted: readonly number[], share: number): number {
  if (sorted.length === 0) return Number.NaN;
  const at = share * (sorted.length - 1);
  const left = Math.floor(at);
  const right = Math.min(left + 1, sorted.length - 1);
  return sorted[left]! + (sorted[right]! - sorted[left]!) * (at - left);
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = values.filter((value) => Number.isFinite(value)).sort((a, b) => a - b);
  const [low, high] = sorted.length < 10 ? [0, 1] : [0.05, 0.95];
  return { median: quantile(sorted, 0.5), low: quantile(sorted, low), high: quantile(sorted, high) };
}

/** The winters together. */
export interface AnswerOverWinters {
  readonly winters: number;
  readonly steadiness: Spread;
  readonly hoursUnder: readonly { readonly limitC: number; readonly hours: Spread }[];
  readonly hoursOver: readonly { readonly limitC: number; readonly hours: Spread }[];
  readonly longestUnder2H: Spread;
  readonly longestOver10H: Spread;
  readonly meanDailySwingK: Spread;
  readonly meanC: Spread;
  readonly coldestC: Spread;
  readonly warmestC: Spread;
  readonly unknownHours: number;
  /** Label of the winter hardest on an animal: most hours under 2 °C and over 10 °C, then most outside the band. */
  readonly worstWinter: string;
  /** Share of the winters that stay within `limits`: never under 2 °C nor over 10 °C for a known hour. */
  readonly keptShare: number;
}

const dangerous = (answer: WinterAnswer): number =>
  answer.under.find((one) => one.limitC === 2)!.hours + answer.over.find((one) => one.limitC === 10)!.hours;
const outside = (answer: WinterAnswer): number => answer.hours - answer.unknownHours - answer.inBandHours;

/** A winter with more of its hours unknown than this is shown, and left out of the figures over the winters. */
export const WHOLE_UNKNOWN_SHARE = 0.1;
/** True for a winter that is known well enough to stand for a winter. */
export const isWhole = (answer: WinterAnswer): boolean => answer.unknownHours <= WHOLE_UNKNOWN_SHARE * answer.hours;

/** Sums up the answers of several winters; at least one. */
export function answerOverWinters(answers: readonly WinterAnswer[]): AnswerOverWinters {
  if (answers.length === 0) throw new RangeError('an answer over winters needs at least one winter');
  const over = (pick: (answer: WinterAnswer) => number): Spread => spreadOf(answers.map(pick));
  const worst = answers.reduce((a, b) => {
    const step = dangerous(b) - dangerous(a);
    return step > 0 || (step === 0 && outside(b) > outside(a)) ? b : a;
  });
  return {
    winters: answers.length,
    steadiness: over((a) => a.steadiness),
    hoursUnder: coldLimits.map((limitC, i) => ({ limitC, hours: over((a) => a.under[i]!.hours) })),
    hoursOver: warmLimits.map((limitC, i) => ({ limitC, hours: over((a) => a.over[i]!.hours) })),
    longestUnder2H: over((a) => a.under[1]!.longestRunH),
    longestOver10H: over((a) => a.over[1]!.longestRunH),
    meanDailySwingK: over((a) => a.meanDailySwingK),
    meanC: over((a) => a.meanC),
    coldestC: over((a) => a.coldestC),
    warmestC: over((a) => a.warmestC),
    unknownHours: answers.reduce((sum, a) => sum + a.unknownHours, 0),
    worstWinter: worst.winter,
    keptShare: answers.filter((a) => dangerous(a) === 0).length / answers.length,
  };
}

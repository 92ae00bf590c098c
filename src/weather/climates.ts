import type { Source } from '../measure/source.ts';

/** How days depart from the season's mean: what turns twelve monthly normals into winters with cold and warm spells. */
export interface DayDepartures {
  /** Standard deviation of a day's mid-range from the seasonal mean, K, taken across many winters. */
  readonly sdK: number;
  /** Correlation of one day's departure with the next day's, 0 to below 1. */
  readonly lag1: number;
  /** Skewness in the coldest part of the year; negative when cold spells reach farther than warm ones. Turns its sign in the warmest. */
  readonly coldSkewness: number;
  /** Standard deviation of a day's range divided by the season's mean range. */
  readonly rangeSpread: number;
  readonly rangeLag1: number;
  /** Correlation of departure and range in the coldest and in the warmest part of the year. */
  readonly rangeCorrelationCold: number;
  readonly rangeCorrelationWarm: number;
  /** Mean cloud cover, share of the sky. */
  readonly meanCloudShare: number;
}

export interface Climate extends DayDepartures {
  readonly id: 'maritime-north-west-europe' | 'maritime-pacific-north-west';
  readonly source: Source;
}

/**
 * Fitted across winters: within single months the departures come out far too steady (sd 2.75 K, lag-1 0.785 in central England) and the
 * cold spells that matter vanish. The first row is the one taken when a keeper has no record of their own.
 */
export const CLIMATES: readonly Climate[] = [
  {
    id: 'maritime-north-west-europe',
    sdK: 3.3,
    lag1: 0.85,
    coldSkewness: -0.3,
    rangeSpread: 0.41,
    rangeLag1: 0.42,
    rangeCorrelationCold: -0.1,
    rangeCorrelationWarm: 0.7,
    meanCloudShare: 0.7,
    source: {
      cite: 'Central England daily means 1878-2013 (Parker, Legg and Folland 1992, Int. J. Climatol. 12:317-342)',
      status: 'data',
      note: 'sd, lag-1 and skewness of the three coldest months; the daily range and its ties from Seattle 2012-2015 (NOAA); cloud cover an estimate',
    },
  },
  {
    id: 'maritime-pacific-north-west',
    sdK: 3.1,
    lag1: 0.81,
    coldSkewness: -0.35,
    rangeSpread: 0.41,
    rangeLag1: 0.42,
    rangeCorrelationCold: -0.1,
    rangeCorrelationWarm: 0.7,
    meanCloudShare: 0.7,
    source: {
      cite: 'Seattle daily maxima and minima 2012-2015 (NOAA, in the open data collection vega-datasets)',
      status: 'data',
      note: 'four years only; cloud cover an estimate',
    },
  },
];

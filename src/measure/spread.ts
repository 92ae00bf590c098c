/** A value that is not known exactly: the best single figure and the ends of the range that holds it nine times in ten. */
export interface Spread {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

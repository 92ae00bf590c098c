import type { Rejection } from './read-table.ts';

/** Readings of one probe, ready to be stored: instants rising, none twice. */
export interface ProbeReadings {
  readonly probe: string;
  readonly atMs: Float64Array;
  readonly tempC: Float64Array;
  /** Relative humidity 0 to 1; NaN where there is none. */
  readonly humidity: Float32Array;
  /** 1 where a value is drawn but not trusted (a power-on value standing alone). */
  readonly suspect: Uint8Array;
}

/** A stretch with its highest and lowest reading. */
export interface Span {
  readonly probe: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly maxC: number;
  readonly minC: number;
}

/** Everything a file holds once it has been read one way. */
export interface Built {
  readonly probes: ProbeReadings[];
  readonly spans: Span[];
  readonly rejections: Rejection[];
  readonly repeated: number;
  readonly conflicts: number;
}

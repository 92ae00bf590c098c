import type { Probe, ReadingChart } from '../../schema/reading.ts';

/** One thermometer with its readings in the span shown. */
export interface ProbeReadings {
  readonly probe: Probe;
  readonly chart: ReadingChart;
}

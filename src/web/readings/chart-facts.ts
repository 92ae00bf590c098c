import { addDays, type Day } from '../../measure/day.ts';
import { instantInZone } from '../../measure/zone.ts';
import type { Notice } from '../../schema/notice.ts';
import type { ReadingChart } from '../../schema/reading.ts';
import type { Stay } from '../../schema/stay.ts';
import type { LongSeries } from './column-envelope.ts';
import type { ChartStretch, ChartView } from './long-chart.ts';
import type { ProbeReadings } from './probe-readings.ts';

/** Expected intervals of silence after which nothing is drawn between two readings. */
const GAP_STRETCHES = 3;

/** The answer of the server as columns for drawing. */
export function seriesOf({ probe, chart }: ProbeReadings): LongSeries {
  return {
    atMs: Float64Array.from(chart.atMs),
    minC: Float32Array.from(chart.minC),
    meanC: Float32Array.from(chart.meanC),
    maxC: Float32Array.from(chart.maxC),
    gapMs: gapOf(probe.expectedIntervalS, chart),
  };
}

const gapOf = (expectedIntervalS: number, chart: ReadingChart) =>
  Math.max(expectedIntervalS * 1000 * GAP_STRETCHES, chart.bucketMs * 2);

/** The times within `view` in which nobody was in the box: what was read then is a dry run. */
export function dryRunsOf(boxId: string, stays: readonly Stay[], view: ChartView, zone: string): ChartStretch[] {
  const taken = stays
    .filter((stay) => stay.boxId === boxId)
    .map((stay) => ({
      fromMs: startOf(stay.fromDay, zone),
      toMs: stay.toDay ? startOf(addDays(stay.toDay, 1), zone) : Number.POSITIVE_INFINITY,
    }))
    .sort((a, b) => a.fromMs - b.fromMs);
  const empty: ChartStretch[] = [];
  let { fromMs } = view;
  for (const stay of taken) {
    if (stay.fromMs > fromMs) empty.push({ fromMs, toMs: Math.min(stay.fromMs, view.toMs) });
    fromMs = Math.max(fromMs, stay.toMs);
    if (fromMs >= view.toMs) return empty;
  }
  empty.push({ fromMs, toMs: view.toMs });
  return empty;
}

const startOf = (day: string, zone: string) => instantInZone(day as Day, zone);

/** Notices of the boxes shown that began within `view`, oldest first. */
export function noticesOf(
  notices: readonly Notice[],
  stays: readonly Stay[],
  boxIds: ReadonlySet<string>,
  view: ChartView,
): Notice[] {
  const here = new Set(stays.filter((stay) => boxIds.has(stay.boxId)).map((stay) => stay.id));
  return notices
    .filter((notice) => {
      const atMs = Date.parse(notice.fromAt);
      return here.has(notice.stayId) && atMs >= view.fromMs && atMs <= view.toMs;
    })
    .sort((a, b) => Date.parse(a.fromAt) - Date.parse(b.fromAt));
}

import { useQueries } from '@tanstack/react-query';
import { useMemo } from 'react';
import { airOfReadings } from '../../heat/read-place.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import type { WeatherSeries } from '../../weather/series.ts';
import { reading, useAnswer } from '../data/queries.ts';
import type { SavedPlace } from './saved-places.ts';

const HOUR_MS = 3_600_000;
/** Long enough to be answered by the hour, short enough for one answer. */
const PART_MS = 160 * 24 * HOUR_MS;
const iso = (ms: number) => new Date(ms).toISOString();
const chart = (probe: Probe, fromMs: number, toMs: number) =>
  reading<ReadingChart>(`readings?probeId=${probe.id}&from=${iso(fromMs)}&to=${iso(toMs)}&buckets=4000`);

/** What is known of the air of a place that goes by its readings. */
export interface PlaceAir {
  /** The thermometers it goes by; none when nobody said that one hangs there. */
  readonly probes: readonly Probe[];
  /** Undefined without a single reading. */
  readonly air: WeatherSeries | undefined;
}

interface Answers {
  readonly charts: readonly ReadingChart[];
  readonly waits: boolean;
  readonly error: Error | null;
}

const together = (
  answers: readonly { readonly data: ReadingChart | undefined; readonly error: Error | null }[],
): Answers => ({
  charts: answers.flatMap(({ data }) => data ?? []),
  waits: answers.some(({ data, error }) => !data && !error),
  error: answers.find(({ data, error }) => !data && error)?.error ?? null,
});

/**
 * The readings of a place that is known by nothing else, by the hour: of the thermometer its record names, else of all that hang in it.
 * Undefined for another place, and until all readings are here.
 */
export function usePlaceAir(place: SavedPlace | undefined): {
  readonly known: PlaceAir | undefined;
  readonly error: Error | null;
} {
  const wanted = place?.description.kind === 'readings';
  const list = useAnswer<readonly Probe[]>('probes', wanted);
  const probes = useMemo(() => (wanted ? probesOf(place, list.data ?? []) : []), [wanted, place, list.data]);
  // First when there are readings at all, then these, in parts that do not change from day to day.
  const now = Math.ceil(Date.now() / PART_MS) * PART_MS;
  const spans = useQueries({ combine: together, queries: probes.map((probe) => chart(probe, 0, now)) });
  const parts = spans.charts.flatMap((span) => {
    const probe = probes.find((one) => one.id === span.probeId);
    const held = new Set(span.atMs.flatMap((at) => [at, at + span.bucketMs - 1].map((ms) => Math.floor(ms / PART_MS))));
    return probe ? [...held].map((part) => chart(probe, part * PART_MS, (part + 1) * PART_MS)) : [];
  });
  const hours = useQueries({ combine: together, queries: parts });
  const error = list.data ? (spans.error ?? hours.error) : list.error;
  const ready = wanted && list.data !== undefined && !spans.waits && !hours.waits && !error;
  const known = useMemo(
    () => (ready ? { probes, air: airOfReadings(hours.charts) } : undefined),
    [ready, probes, hours.charts],
  );
  return { known, error };
}

function probesOf(place: SavedPlace, probes: readonly Probe[]): readonly Probe[] {
  const { description } = place;
  const named = description.kind === 'readings' ? probes.filter((one) => one.id === description.probeId) : [];
  return named.length > 0 ? named : probes.filter((one) => one.placeId === place.id);
}

import { type Remote, wrap } from 'comlink';
import { useCallback, useEffect, useState } from 'react';
import type { Winters } from '../../schema/winters.ts';
import { useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import type { ForecastWorker } from './forecast.worker.ts';
import type { SavedPlace } from './saved-places.ts';
import { type PlaceAir, usePlaceAir } from './use-place-air.ts';

/** A thread that holds the winters of the group. */
export interface WinterThread {
  readonly remote: Remote<ForecastWorker>;
  /** Resolved once the winters are in it. */
  readonly ready: Promise<void>;
  readonly end: () => void;
}

const noWinters: Winters['winters'] = [];

/**
 * Starts threads that hold the group's winters and, for a place that goes by its readings, these; undefined until all has come from
 * the server.
 */
export function useThreads(place: SavedPlace | undefined): {
  readonly start: (() => WinterThread) | undefined;
  /** There is no weather, and the place needs some. */
  readonly none: boolean;
  readonly error: Error | null;
  /** The readings of such a place, once they are here. */
  readonly read: PlaceAir | undefined;
} {
  const group = useGroup();
  const winters = useAnswer<Winters>('weather/winters');
  const read = usePlaceAir(place);
  // A place that goes by its readings needs no weather.
  const sent = winters.data?.winters ?? (winters.error ? noWinters : undefined);
  const air = read.known?.air;
  const start = useCallback((): WinterThread => {
    const thread = new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' });
    const remote = wrap<ForecastWorker>(thread);
    const site = { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone };
    const ready = Promise.resolve(remote.setWinters(site, sent ?? noWinters, group.climateNormals, air));
    return { remote, ready, end: () => thread.terminate() };
  }, [sent, group, air]);
  if (place?.description.kind === 'readings')
    return { start: sent && air ? start : undefined, none: false, error: read.error, read: read.known };
  const some = sent !== undefined && sent.length > 0;
  return {
    start: some ? start : undefined,
    none: winters.data?.winters.length === 0,
    error: winters.data ? null : winters.error,
    read: undefined,
  };
}

/** One thread for as long as what it holds stays the same; undefined until this is in it. */
export function useThread(start: (() => WinterThread) | undefined): Remote<ForecastWorker> | undefined {
  const [held, setHeld] = useState<{ readonly start: () => WinterThread; readonly remote: Remote<ForecastWorker> }>();
  useEffect(() => {
    if (!start) return;
    const thread = start();
    let over = false;
    void thread.ready.then(() => {
      if (!over) setHeld({ start, remote: thread.remote });
    });
    return () => {
      over = true;
      setHeld(undefined);
      thread.end();
    };
  }, [start]);
  return held?.start === start ? held?.remote : undefined;
}

import { type Remote, wrap } from 'comlink';
import { useCallback, useEffect, useState } from 'react';
import type { Winters } from '../../schema/winters.ts';
import { useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import type { ForecastWorker } from './forecast.worker.ts';

/** A thread that holds the winters of the group. */
export interface WinterThread {
  readonly remote: Remote<ForecastWorker>;
  /** Resolved once the winters are in it. */
  readonly ready: Promise<void>;
  readonly end: () => void;
}

/** Starts threads that hold the group's winters; undefined until these have come from the server. */
export function useThreads(): {
  readonly start: (() => WinterThread) | undefined;
  readonly none: boolean;
  readonly error: Error | null;
} {
  const group = useGroup();
  const winters = useAnswer<Winters>('weather/winters');
  const sent = winters.data?.winters;
  const start = useCallback((): WinterThread => {
    const thread = new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' });
    const remote = wrap<ForecastWorker>(thread);
    const site = { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone };
    const ready = Promise.resolve(remote.setWinters(site, sent ?? [], group.climateNormals));
    return { remote, ready, end: () => thread.terminate() };
  }, [sent, group]);
  const some = sent !== undefined && sent.length > 0;
  return { start: some ? start : undefined, none: sent?.length === 0, error: winters.data ? null : winters.error };
}

/** One thread for as long as the screen stands; undefined until the winters are in it. */
export function useThread(start: (() => WinterThread) | undefined): Remote<ForecastWorker> | undefined {
  const [remote, setRemote] = useState<Remote<ForecastWorker>>();
  useEffect(() => {
    if (!start) return;
    const thread = start();
    let over = false;
    void thread.ready.then(() => {
      if (!over) setRemote(() => thread.remote);
    });
    return () => {
      over = true;
      setRemote(undefined);
      thread.end();
    };
  }, [start]);
  return remote;
}

import { type Remote, wrap } from 'comlink';
import { useEffect, useRef, useState } from 'react';
import type { Winters } from '../../schema/winters.ts';
import { useGroup } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import type { Forecast, ForecastWorker, Question } from './forecast.worker.ts';

/** A worker that holds the winters of the group; undefined until they have come. */
export function useWorker(): { worker: Remote<ForecastWorker> | undefined; none: boolean; error: Error | null } {
  const group = useGroup();
  const winters = useAnswer<Winters>('weather/winters');
  const [worker, setWorker] = useState<Remote<ForecastWorker>>();
  const sent = winters.data?.winters;
  useEffect(() => {
    if (!sent || sent.length === 0) return;
    const thread = new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' });
    const remote = wrap<ForecastWorker>(thread);
    let over = false;
    const site = { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone };
    void remote.setWinters(site, sent, group.climateNormals).then(() => {
      if (!over) setWorker(() => remote);
    });
    return () => {
      over = true;
      setWorker(undefined);
      thread.terminate();
    };
  }, [sent, group]);
  return { worker, none: sent?.length === 0, error: winters.data ? null : winters.error };
}

/**
 * The forecast of the newest question. While a value moves, one question is under way and only the newest waits: the
 * picture follows the hand instead of queueing behind it.
 */
export function useForecast(worker: Remote<ForecastWorker> | undefined, question: Question) {
  const [forecast, setForecast] = useState<Forecast>();
  const [refused, setRefused] = useState('');
  const waiting = useRef<Question | undefined>(undefined);
  const busy = useRef(false);
  const asked = JSON.stringify(question);
  useEffect(() => {
    if (!worker) return;
    let over = false;
    waiting.current = JSON.parse(asked) as Question;
    const next = async () => {
      if (busy.current) return;
      busy.current = true;
      while (waiting.current && !over) {
        const now = waiting.current;
        waiting.current = undefined;
        try {
          const answer = await worker.forecast(now);
          setForecast(answer);
          setRefused('');
        } catch (problem) {
          setRefused((problem as Error).message);
        }
      }
      busy.current = false;
      if (waiting.current) void next();
    };
    void next();
    return () => {
      over = true;
    };
  }, [worker, asked]);
  return { forecast, refused };
}

import { proxy } from 'comlink';
import { useEffect, useRef, useState } from 'react';
import { useGroup } from '../data/group.ts';
import type { Advised, PlaceOffered, Question } from './forecast.worker.ts';
import type { WinterThread } from './use-worker.ts';

/** Once no value has moved for so long, the search begins. */
const RESTS_MS = 900;

type AdviceState =
  | { readonly at: 'waiting' | 'stopped' }
  | { readonly at: 'working'; readonly share: number }
  | { readonly at: 'done'; readonly advised: Advised };

/**
 * The search over builds, on a thread of its own so that the forecast never waits for it. A moved value or a wish to stop ends
 * the thread, whatever it is at.
 */
export function useAdvice(
  start: (() => WinterThread) | undefined,
  question: Question,
  here: string,
  others: readonly PlaceOffered[],
): { readonly state: AdviceState; readonly stop: () => void; readonly again: () => void } {
  const { temperatureUnit } = useGroup();
  const [state, setState] = useState<AdviceState>({ at: 'waiting' });
  const [times, setTimes] = useState(0);
  const thread = useRef<WinterThread>(undefined);
  const asked = JSON.stringify({ question, here, others });
  // biome-ignore lint/correctness/useExhaustiveDependencies: `times` begins the same search again
  useEffect(() => {
    setState({ at: 'waiting' });
    if (!start) return;
    let over = false;
    const end = () => {
      over = true;
      thread.current?.end();
      thread.current = undefined;
    };
    const search = async () => {
      const { question, here, others } = JSON.parse(asked) as {
        question: Question;
        here: string;
        others: readonly PlaceOffered[];
      };
      setState({ at: 'working', share: 0 });
      const made = start();
      thread.current = made;
      await made.ready;
      const progress = proxy((share: number) => {
        if (!over && thread.current === made) setState({ at: 'working', share });
      });
      const advised = await made.remote.advise(question, here, others, temperatureUnit, progress);
      if (over || thread.current !== made) return;
      setState({ at: 'done', advised });
      end();
    };
    const timer = setTimeout(() => void search().catch(() => over || setState({ at: 'stopped' })), RESTS_MS);
    return () => {
      clearTimeout(timer);
      end();
    };
  }, [start, asked, temperatureUnit, times]);
  return {
    state,
    stop: () => {
      thread.current?.end();
      thread.current = undefined;
      setState({ at: 'stopped' });
    },
    again: () => setTimes((before) => before + 1),
  };
}

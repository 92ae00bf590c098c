import type { Remote } from 'comlink';
import { useEffect, useRef, useState } from 'react';
import { say } from '../../wording/say.ts';
import type { Forecast, ForecastWorker, Question, TooFewRead } from './forecast.worker.ts';

interface Asker {
  readonly ask: (question: Question) => void;
  readonly end: () => void;
}

/**
 * Asks the worker for the newest question. While a value moves, one question is under way and only the newest waits: the
 * picture follows the hand instead of queueing behind it.
 */
function askerOf(
  worker: Remote<ForecastWorker>,
  found: (answer: Forecast | TooFewRead | undefined, refused: string) => void,
): Asker {
  let waiting: Question | undefined;
  let busy = false;
  let over = false;
  const work = async () => {
    if (busy) return;
    busy = true;
    while (waiting && !over) {
      const question = waiting;
      waiting = undefined;
      try {
        const answer = await worker.forecast(question, say('web.builder.everyWinter'));
        if (!over) found(answer, '');
      } catch (problem) {
        if (!over) found(undefined, (problem as Error).message);
      }
    }
    busy = false;
  };
  return {
    ask: (question) => {
      waiting = question;
      void work();
    },
    end: () => {
      over = true;
    },
  };
}

interface Answered {
  readonly forecast: Forecast | undefined;
  /** Instead of a forecast, where a place that goes by its readings has too few. */
  readonly tooFew: TooFewRead | undefined;
  readonly refused: string;
}

/** The forecast of what is asked now; the last one stays until the next has come. */
export function useForecast(worker: Remote<ForecastWorker> | undefined, question: Question): Answered {
  const [state, setState] = useState<Answered>({ forecast: undefined, tooFew: undefined, refused: '' });
  const asker = useRef<Asker>(undefined);
  const asked = JSON.stringify(question);
  useEffect(() => {
    if (!worker) return;
    const made = askerOf(worker, (answer, refused) =>
      setState((before) => {
        if (!answer) return { ...before, refused };
        return 'tooFew' in answer
          ? { forecast: undefined, tooFew: answer, refused }
          : { forecast: answer, tooFew: undefined, refused };
      }),
    );
    asker.current = made;
    return () => made.end();
  }, [worker]);
  useEffect(() => {
    if (worker) asker.current?.ask(JSON.parse(asked) as Question);
  }, [worker, asked]);
  return state;
}

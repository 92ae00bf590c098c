import { allWords } from '../data/later.ts';

const REST_MS = 4_000;

/**
 * Once the first screen has come to rest: fetches what may be wanted in a shed without a network, where no service worker
 * keeps the screens (a plain http address, a private window).
 */
export function fetchForTheShed(): void {
  setTimeout(() => {
    for (const load of [
      allWords,
      () => import('../now/now.tsx'),
      () => import('../parts/normal.tsx'),
      () => import('../mass/weigh-answer.tsx'),
      () => import('../mass/sleep-mass.ts'),
    ])
      load().catch(() => undefined);
  }, REST_MS);
}

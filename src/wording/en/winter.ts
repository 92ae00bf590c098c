import { winterPagesWords } from './winter-pages.ts';
import { winterPlanWords } from './winter-plan.ts';
import { winterWakingWords } from './winter-waking.ts';
import { winterWatchWords } from './winter-watch.ts';

/** English wording of winter. Keys begin with the room they belong to; {{name}} stands for a value. */
export const winterWords = {
  ...winterPagesWords,
  ...winterPlanWords,
  ...winterWakingWords,
  ...winterWatchWords,
} as const;

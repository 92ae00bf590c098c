import { winterPagesWords } from './winter-pages.ts';
import { winterPlanWords } from './winter-plan.ts';
import { winterWakingWords } from './winter-waking.ts';

/** English wording of winter but for tasks and watch, which the round says. Keys begin with the room they belong to; {{name}} stands for a value. */
export const winterWords = {
  ...winterPagesWords,
  ...winterPlanWords,
  ...winterWakingWords,
} as const;

import { winterPlanWords } from './winter-plan.ts';
import { winterWatchWords } from './winter-watch.ts';

/** English wording of winter. Keys begin with the room they belong to; {{name}} stands for a value. */
export const winterWords = { ...winterPlanWords, ...winterWatchWords } as const;

import { webCommonWords } from './web-common.ts';
import { webRoundWords } from './web-round.ts';
import { winterTaskWords } from './winter-task.ts';
import { winterWatchWords } from './winter-watch.ts';

/** What the frame and the round say: all that a phone fetches before it shows the round. The screens' build begins with these. */
export const english = {
  ...webCommonWords,
  ...webRoundWords,
  ...winterTaskWords,
  ...winterWatchWords,
} as const;

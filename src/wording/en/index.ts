import { accessWords } from './access.ts';
import { cliWords } from './cli.ts';
import { english as first } from './first.ts';
import { papersWords } from './papers.ts';
import { rest } from './rest.ts';
import { serverWords } from './server.ts';

/** The whole English wording: that of the screens, and that of the faces which put it into words themselves. */
export const english = { ...first, ...rest, ...accessWords, ...cliWords, ...papersWords, ...serverWords } as const;

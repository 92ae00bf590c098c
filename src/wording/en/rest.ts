import { airWords } from './air.ts';
import { heatWords } from './heat.ts';
import { intakeWords } from './intake.ts';
import { noticesWords } from './notices.ts';
import { physiologyWords } from './physiology.ts';
import { recordsWords } from './records.ts';
import { schemaWords } from './schema.ts';
import { tortoiseWords } from './tortoise.ts';
import { weatherWords } from './weather.ts';
import { webWords } from './web.ts';
import { winterWords } from './winter.ts';

/** What every other screen says, and what the server says to the screens. Keys begin with the room they belong to; {{name}} stands for a value. */
export const rest = {
  ...airWords,
  ...heatWords,
  ...intakeWords,
  ...noticesWords,
  ...physiologyWords,
  ...recordsWords,
  ...schemaWords,
  ...tortoiseWords,
  ...weatherWords,
  ...webWords,
  ...winterWords,
} as const;

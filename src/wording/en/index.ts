import { accessWords } from './access.ts';
import { airWords } from './air.ts';
import { cliWords } from './cli.ts';
import { heatWords } from './heat.ts';
import { intakeWords } from './intake.ts';
import { noticesWords } from './notices.ts';
import { papersWords } from './papers.ts';
import { physiologyWords } from './physiology.ts';
import { recordsWords } from './records.ts';
import { schemaWords } from './schema.ts';
import { serverWords } from './server.ts';
import { tortoiseWords } from './tortoise.ts';
import { weatherWords } from './weather.ts';
import { webWords } from './web.ts';
import { winterWords } from './winter.ts';

export const english = {
  ...accessWords,
  ...airWords,
  ...cliWords,
  ...heatWords,
  ...intakeWords,
  ...noticesWords,
  ...papersWords,
  ...physiologyWords,
  ...recordsWords,
  ...schemaWords,
  ...serverWords,
  ...tortoiseWords,
  ...weatherWords,
  ...webWords,
  ...winterWords,
} as const;

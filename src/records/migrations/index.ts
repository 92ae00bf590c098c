import { base } from './0001-base.ts';
import { readings } from './0002-readings.ts';
import { notices } from './0003-notices.ts';
import { intake } from './0004-intake.ts';
import { calendars } from './0005-calendars.ts';
import { mainPhotograph } from './0006-main-photograph.ts';
import { endOfStay } from './0007-end-of-stay.ts';
import { gutWarmth } from './0008-gut-warmth.ts';
import { batteries } from './0009-batteries.ts';
import { batteryFlag } from './0010-battery-flag.ts';
import { leaving } from './0011-leaving.ts';
import { endsOfWokenStays } from './0012-ends-of-woken-stays.ts';
import type { Migration } from './build.ts';

/** Steps of the schema, in order. A step that has shipped is never edited: add another. */
export const migrations: readonly Migration[] = [
  base,
  readings,
  notices,
  intake,
  calendars,
  mainPhotograph,
  endOfStay,
  gutWarmth,
  batteries,
  batteryFlag,
  leaving,
  endsOfWokenStays,
];

import { webAheadWords } from './web-ahead.ts';
import { webAnimalWords } from './web-animal.ts';
import { webBuilderWords } from './web-builder.ts';
import { webCalibrationWords } from './web-calibration.ts';
import { webCareWords } from './web-care.ts';
import { webDailyWords } from './web-daily.ts';
import { webImportWords } from './web-import.ts';
import { webKeepingWords } from './web-keeping.ts';
import { webLeavingWords } from './web-leaving.ts';
import { webPhotographWords } from './web-photographs.ts';
import { webReadingsWords } from './web-readings.ts';
import { webRecordWords } from './web-record.ts';
import { webToldWords } from './web-told.ts';

/** English wording of the screens but for the first one. Keys begin with the room they belong to; {{name}} stands for a value. */
export const webWords = {
  ...webAheadWords,
  ...webAnimalWords,
  ...webBuilderWords,
  ...webCareWords,
  ...webDailyWords,
  ...webCalibrationWords,
  ...webImportWords,
  ...webKeepingWords,
  ...webLeavingWords,
  ...webPhotographWords,
  ...webReadingsWords,
  ...webRecordWords,
  ...webToldWords,
} as const;

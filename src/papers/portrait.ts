import { dayInWords } from '../measure/day-words.ts';
import type { Database } from '../records/database.ts';
import type { Scope } from '../records/entries.ts';
import { photographImage, shownBy } from '../records/photographs.ts';
import { say } from '../wording/say.ts';
import type { AnimalRecords } from './animal-records.ts';
import type { Sheet } from './sheet.ts';

/** The photograph an animal is known by, small, and what it shows in words. */
export interface Portrait {
  readonly image: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly alt: string;
}

/** The photograph chosen for the animal, else the newest; undefined where there is none. */
export async function portraitOf(
  database: Database,
  scope: Scope,
  { animal, photographs }: AnimalRecords,
): Promise<Portrait | undefined> {
  const one = shownBy(photographs, animal.photographId);
  if (!one) return undefined;
  const { id, widthPx, heightPx, takenOn } = one;
  return {
    image: await photographImage(database, scope, { id, animalId: animal.id, small: true }),
    widthPx,
    heightPx,
    alt: takenOn
      ? say('papers.portrait', { animal: animal.name, day: dayInWords(takenOn) })
      : say('papers.portraitNoDay', { animal: animal.name }),
  };
}

/** Draws it as large as it goes into a square with its upper right corner at `x`, `y`, points; returns its width. */
export function drawPortrait(sheet: Sheet, portrait: Portrait, x: number, y: number, side: number): number {
  const { widthPx, heightPx, image, alt } = portrait;
  const scale = side / Math.max(widthPx, heightPx);
  const [width, height] = [widthPx * scale, heightPx * scale];
  sheet.figure(alt, { x: x - width, y }, (doc, left, top) => {
    doc.image(Buffer.from(image), left, top, { width, height });
  });
  return width;
}

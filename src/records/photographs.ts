import type { Photograph } from '../schema/photograph.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { change, type Kept, list, makeIn, read, type Scope } from './entries.ts';
import { ANIMAL, PHOTOGRAPH } from './kinds.ts';
import { RecordProblem } from './problem.ts';

/** Longest side of what is kept. */
const LONGEST_SIDE_PX = 2000;
/** Longest side in a list. */
const SMALL_PX = 360;
/** A small file can unpack to a huge picture: more pixels than this are refused before they are unpacked. */
const MOST_PIXELS = 60_000_000;

export interface NewPhotograph {
  readonly id: string;
  readonly animalId: string;
  readonly takenOn?: string;
  readonly note?: string;
}

/**
 * Keeps a photograph. The picture is made anew as JPEG, turned the right way up: whatever else was in the file (place, device,
 * hidden data) does not survive. Sending it again changes nothing. Throws RecordProblem `invalid` for bytes that are no picture.
 */
export async function keepPhotograph(
  database: Database,
  scope: Scope,
  about: NewPhotograph,
  bytes: Uint8Array,
): Promise<Kept<Photograph>> {
  await read(database, scope, ANIMAL, about.animalId);
  // A phone that heard no answer sends its picture again: it need not be made anew to be known.
  const there = (await list(database, scope, PHOTOGRAPH, { animalId: about.animalId })).find(
    ({ id }) => id === about.id,
  );
  if (there) return there;
  const picture = await madeAnew(bytes);
  const { width, height, size } = picture.info;
  return database.kysely.transaction().execute(async (transaction) => {
    const photograph = { ...about, widthPx: width, heightPx: height, bytes: size };
    const { state, record } = await makeIn(transaction, scope, PHOTOGRAPH, photograph);
    if (state === 'saved')
      await transaction.insertInto('photographBytes').values({ photographId: about.id, image: picture.data }).execute();
    return record;
  });
}

async function madeAnew(bytes: Uint8Array) {
  // Loaded when the first picture comes: it costs a start-up a tenth of a second.
  const { default: sharp } = await import('sharp');
  try {
    return await sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
      .rotate()
      .resize({ width: LONGEST_SIDE_PX, height: LONGEST_SIDE_PX, fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 82 })
      .toBuffer({ resolveWithObject: true });
  } catch {
    const what = say('records.noPicture');
    throw new RecordProblem('invalid', what, [{ where: 'image', what }]);
  }
}

/** Changes day or caption; the picture and its measures stay what they are. */
export async function changePhotograph(
  database: Database,
  scope: Scope,
  wanted: Photograph,
): Promise<Kept<Photograph>> {
  const { animalId, widthPx, heightPx, bytes } = await read(database, scope, PHOTOGRAPH, wanted.id);
  return change(database, scope, PHOTOGRAPH, { ...wanted, animalId, widthPx, heightPx, bytes });
}

/** The picture as JPEG; `small` at most 360 px on its longer side, for lists. */
export async function photographImage(
  database: Database,
  scope: Scope,
  asked: { readonly id: string; readonly animalId: string; readonly small?: boolean },
): Promise<Uint8Array> {
  const { animalId } = await read(database, scope, PHOTOGRAPH, asked.id);
  const row =
    animalId === asked.animalId
      ? await database.kysely
          .selectFrom('photographBytes')
          .select('image')
          .where('photographId', '=', asked.id)
          .executeTakeFirst()
      : undefined;
  if (!row) throw new RecordProblem('not-found', say('records.notFound'));
  if (!asked.small) return row.image;
  const { default: sharp } = await import('sharp');
  return sharp(row.image).resize({ width: SMALL_PX, height: SMALL_PX, fit: 'inside' }).jpeg({ quality: 75 }).toBuffer();
}

/** The photograph each animal of this scope is shown by. */
export async function mainPhotographs(database: Database, scope: Scope): Promise<Kept<Photograph>[]> {
  const byAnimal = Map.groupBy(await list(database, scope, PHOTOGRAPH), (one) => one.animalId);
  const animals = new Map((await list(database, scope, ANIMAL)).map((animal) => [animal.id, animal.photographId]));
  return [...byAnimal].flatMap(([animalId, own]) => shownBy(own, animals.get(animalId)) ?? []);
}

/** Of the photographs of one animal, in the order they were entered, the one chosen, else the newest; undefined where there is none. */
export function shownBy<T extends Photograph>(own: readonly T[], chosenId: string | undefined): T | undefined {
  return (
    own.find((one) => one.id === chosenId) ??
    own.reduce<T | undefined>(
      (newest, one) => ((one.takenOn ?? '') >= (newest?.takenOn ?? '') ? one : newest),
      undefined,
    )
  );
}

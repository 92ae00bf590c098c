import type { Photograph } from '../schema/photograph.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { type Kept, makeIn, read, type Scope } from './entries.ts';
import { PHOTOGRAPH } from './kinds.ts';
import { RecordProblem } from './problem.ts';

/** Longest side of what is kept. */
const LONGEST_SIDE_PX = 2000;
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
 * hidden data) does not survive. Throws RecordProblem `invalid` for bytes that are no picture.
 */
export async function keepPhotograph(
  database: Database,
  scope: Scope,
  about: NewPhotograph,
  bytes: Uint8Array,
): Promise<Kept<Photograph>> {
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

export async function photographImage(database: Database, scope: Scope, id: string): Promise<Uint8Array> {
  await read(database, scope, PHOTOGRAPH, id);
  const row = await database.kysely
    .selectFrom('photographBytes')
    .select('image')
    .where('photographId', '=', id)
    .executeTakeFirst();
  if (!row) throw new RecordProblem('not-found', say('records.notFound'));
  return row.image;
}

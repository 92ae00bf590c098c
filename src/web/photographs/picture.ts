import type { Photograph } from '../../schema/photograph.ts';
import { say } from '../../wording/say.ts';
import { sayDayYear } from '../parts/dates.ts';

/** Address of a picture. */
export const pictureOf = ({ animalId, id }: Pick<Photograph, 'animalId' | 'id'>, size: 'whole' | 'small'): string =>
  `/api/v1/animals/${animalId}/photographs/${id}/image${size === 'small' ? '?size=small' : ''}`;

/** What a picture shows, for those who do not see it. */
export function captionOf(one: { readonly takenOn?: string; readonly note?: string }, name: string): string {
  const day = one.takenOn ? sayDayYear(one.takenOn) : say('web.photo.noDay');
  return one.note ? say('web.photo.altNote', { name, day, note: one.note }) : say('web.photo.alt', { name, day });
}

/** Newest day first; what has no day comes last, and of one day the one added last is first. */
export const newestFirst = (list: readonly Photograph[]): Photograph[] =>
  [...list].reverse().sort((a, b) => ((a.takenOn ?? '') < (b.takenOn ?? '') ? 1 : a.takenOn === b.takenOn ? 0 : -1));

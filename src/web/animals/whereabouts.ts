import type { Day } from '../../measure/day.ts';
import type { Animal, Leaving } from '../../schema/animal.ts';
import { say } from '../../wording/say.ts';
import { sayDayYear } from '../parts/dates.ts';

/** An animal that died or left, with the day and the way. */
export type LeftAnimal = Animal & { readonly leftOn: Day; readonly leftHow: Leaving };
export const hasLeft = (animal: Animal): animal is LeftAnimal =>
  animal.leftOn !== undefined && animal.leftHow !== undefined;

/** The animals that are here today. */
export const thoseHere = (all: readonly Animal[]): readonly Animal[] => all.filter((one) => !hasLeft(one));

/** "Sedge died on 9 December 2026." */
export const sayLeft = ({ name, leftHow, leftOn }: LeftAnimal): string =>
  say(`web.left.told.${leftHow}`, { name, day: sayDayYear(leftOn) });

import { type Day, daysBetween } from '../../measure/day.ts';
import type { Animal } from '../../schema/animal.ts';
import { findSpecies } from '../../tortoise/species.ts';
import { say } from '../../wording/say.ts';

/** Whole years, from the hatching day or from an age told on a day; undefined when neither is known. */
function ageYears(animal: Animal, today: Day): number | undefined {
  if (animal.birthDate) return Math.floor(daysBetween(animal.birthDate, today) / 365.2425);
  if (animal.ageYears !== undefined && animal.ageAsOf)
    return Math.floor(animal.ageYears + daysBetween(animal.ageAsOf, today) / 365.2425);
  return undefined;
}

const speciesName = (name: string) => (name === 'unknown' ? say('web.species.unknown') : name);
export const englishName = (name: string) => findSpecies(name)?.english;

/** "Testudo hermanni boettgeri, male, 11 years" */
export function about(animal: Animal, today: Day): string {
  const species = speciesName(animal.species);
  const sex = say(`web.sex.${animal.sex}`);
  const years = ageYears(animal, today);
  if (years === undefined) return say('web.animals.aboutNoAge', { species, sex });
  const age = years < 1 ? say('web.age.under') : say('web.age.years', { count: years });
  return say('web.animals.about', { species, sex, age });
}

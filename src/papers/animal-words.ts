import { type Day, daysBetween } from '../measure/day.ts';
import { dayInZone } from '../measure/zone.ts';
import type { Animal } from '../schema/animal.ts';
import type { Measurement } from '../schema/measurement.ts';
import { findSpecies } from '../tortoise/species.ts';
import { say } from '../wording/say.ts';
import type { AnimalRecords } from './animal-records.ts';

/** "Eastern Hermann's tortoise, Testudo hermanni boettgeri", or that the species is not known. */
export function speciesInWords(name: string): string {
  const species = findSpecies(name);
  if (name === 'unknown') return say('papers.species.unknown');
  return species ? say('papers.species', { english: species.english, name: species.name }) : name;
}

export function ageInWords(animal: Animal, today: Day): string {
  if (animal.birthDate)
    return say('papers.age.years', { count: Math.floor(daysBetween(animal.birthDate, today) / 365.2425) });
  if (animal.ageYears !== undefined && animal.ageAsOf) {
    const grown = animal.ageYears + Math.max(0, daysBetween(animal.ageAsOf, today)) / 365.2425;
    return say('papers.age.about', { count: Math.floor(grown) });
  }
  return animal.ageClass ? say(`papers.age.${animal.ageClass}`) : say('papers.notKnown');
}

/** The weighing with which the animal goes, or went, to sleep in the winter of its plan. */
export function startMeasurement({
  measurements,
  plan,
  group,
}: AnimalRecords): (Measurement & { massG: number }) | undefined {
  const found = measurements.findLast(
    (one) =>
      one.kind === 'start' &&
      one.massG !== undefined &&
      (plan === undefined || dayInZone(Date.parse(one.at), group.zone) >= plan.plan.fromDay),
  );
  return found as (Measurement & { massG: number }) | undefined;
}

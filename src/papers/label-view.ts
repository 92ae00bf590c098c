import { dayInWords } from '../measure/day-words.ts';
import { mass, temperature } from '../measure/figures.ts';
import { LOSS_END_LIMIT, LOSS_PLAN_LIMIT } from '../physiology/constants.ts';
import type { AnimalRecords } from './animal-records.ts';
import { speciesInWords, startMeasurement } from './animal-words.ts';
import type { Portrait } from './portrait.ts';

/** What stands on the lid. A value that is not known yet is left out: the label has a line to write it on. */
export interface LabelView {
  readonly animalName: string;
  readonly species: string;
  readonly winter: string;
  readonly startMass?: string;
  /** Mass at a loss of 8 % and of 10 %. */
  readonly planLimit?: string;
  readonly endLimit?: string;
  readonly sleepDay?: string;
  readonly wakeDay?: string;
  readonly aim: string;
  readonly bandLow: string;
  readonly bandHigh: string;
  readonly frostLimit: string;
  readonly box?: string;
  readonly keeper?: string;
  readonly tutor?: string;
  /** Address of the animal's page, drawn as a square to scan. */
  readonly address: string;
  readonly portrait?: Portrait;
  readonly madeAtMs: number;
}

/** The label of an animal that has a plan to sleep. `origin`: where its page is served, without a slash at the end. */
export function labelView(records: AnimalRecords, origin: string, nowMs: number, portrait?: Portrait): LabelView {
  const { animal, group, stays, boxes, places, keeper, tutor } = records;
  const plan = records.plan?.plan;
  const start = startMeasurement(records)?.massG;
  const stay = stays.findLast((one) => one.toDay === undefined || one.toDay >= records.today);
  const box = boxes.find((one) => one.id === stay?.boxId)?.name;
  const place = places.find((one) => one.id === stay?.placeId)?.name;
  const degrees = (tempC: number) => temperature(tempC, group.temperatureUnit, 0);
  return {
    animalName: animal.name,
    species: speciesInWords(animal.species),
    winter: plan?.winter ?? '',
    ...(start === undefined
      ? {}
      : {
          startMass: mass(start, group.massUnit),
          planLimit: mass(start * (1 - LOSS_PLAN_LIMIT.value), group.massUnit),
          endLimit: mass(start * (1 - LOSS_END_LIMIT.value), group.massUnit),
        }),
    ...(plan?.sleepDay ? { sleepDay: dayInWords(plan.sleepDay) } : {}),
    ...(plan?.wakeDay ? { wakeDay: dayInWords(plan.wakeDay) } : {}),
    aim: degrees(5),
    bandLow: degrees(3),
    bandHigh: degrees(8),
    frostLimit: degrees(2),
    ...(box ? { box: place ? `${box}, ${place}` : box } : {}),
    ...(keeper ? { keeper } : {}),
    ...(tutor ? { tutor } : {}),
    address: `${origin}/animals/${animal.id}`,
    ...(portrait ? { portrait } : {}),
    madeAtMs: nowMs,
  };
}

import type { Source } from '../measure/source.ts';

/**
 * - `hibernates`: commonly hibernated.
 * - `identify-first`: a form of which some do not hibernate; short only, and only when the form is confirmed.
 * - `never`: tropical or subtropical; never hibernated.
 * - `unidentified`: never until identified.
 */
export type Hibernation = 'hibernates' | 'identify-first' | 'never' | 'unidentified';

export interface Species {
  /** Scientific name, the key everywhere. */
  readonly name: string;
  /** English name as keepers use it. */
  readonly english: string;
  readonly hibernation: Hibernation;
  /** Jackson's graph was drawn for this species. */
  readonly jackson: boolean;
  /** Straight carapace length from which it counts as grown, mm. */
  readonly adultSclMm: number;
  /** Longest hibernation any source gives for this taxon by name, days. */
  readonly longestDays?: number;
  /** Shorter length that one published source advises for this taxon, days. */
  readonly advisedDays?: number;
  /** Other scientific names in use. */
  readonly synonyms?: readonly string[];
  readonly source: Source;
}

const practice = (note: string): Source => ({ cite: 'common practice, no source', status: 'common-practice', note });
const memory = (cite: string, note: string): Source => ({ cite, status: 'from-memory', note });

const HERMANNI: Source = {
  cite: 'common practice; In & Around magazine, veterinary column, 2022/09, p. 24',
  status: 'read',
  note: 'Hibernating is common practice; the column gives 12 weeks.',
};
const GRAECA_FORMS: Source = {
  cite: 'W. Lewis, British Veterinary Nursing Association, 2022-08-23',
  status: 'read',
  note: 'Northern and high Moroccan forms hibernate; southern and coastal ones may not. Six weeks at most is common practice.',
};
const NEVER = practice('Tropical or subtropical: kept awake.');
const FORM_MEMORY = memory(
  'Lewis 2022 for the rule; range of the form from memory',
  'Lowland North African form; some do not hibernate. Six weeks at most is common practice.',
);

/** Taxa a keeper meets. Grown lengths are estimates for telling age classes apart and decide nothing else. */
export const SPECIES: readonly Species[] = [
  {
    name: 'Testudo hermanni',
    english: 'Hermann’s tortoise',
    hibernation: 'hibernates',
    jackson: true,
    adultSclMm: 120,
    longestDays: 91,
    source: HERMANNI,
  },
  {
    name: 'Testudo hermanni hermanni',
    english: 'Hermann’s tortoise, western',
    hibernation: 'hibernates',
    jackson: true,
    adultSclMm: 110,
    longestDays: 91,
    source: HERMANNI,
  },
  {
    name: 'Testudo hermanni boettgeri',
    english: 'Hermann’s tortoise, eastern',
    hibernation: 'hibernates',
    jackson: true,
    adultSclMm: 120,
    longestDays: 91,
    source: HERMANNI,
  },
  {
    name: 'Testudo graeca',
    english: 'Spur-thighed tortoise',
    hibernation: 'hibernates',
    jackson: true,
    adultSclMm: 120,
    source: practice('Hibernates, save lowland North African forms, which have rows of their own.'),
  },
  {
    name: 'Testudo graeca ibera',
    english: 'Spur-thighed tortoise, Turkish or Balkan',
    hibernation: 'hibernates',
    jackson: true,
    adultSclMm: 130,
    synonyms: ['Testudo ibera'],
    source: practice('Hibernates.'),
  },
  {
    name: 'Testudo graeca graeca',
    english: 'Spur-thighed tortoise, North African lowland',
    hibernation: 'identify-first',
    jackson: true,
    adultSclMm: 110,
    longestDays: 42,
    source: GRAECA_FORMS,
  },
  {
    name: 'Testudo graeca nabeulensis',
    english: 'Tunisian spur-thighed tortoise',
    hibernation: 'identify-first',
    jackson: true,
    adultSclMm: 100,
    longestDays: 42,
    source: FORM_MEMORY,
  },
  {
    name: 'Testudo graeca soussensis',
    english: 'Souss valley spur-thighed tortoise',
    hibernation: 'identify-first',
    jackson: true,
    adultSclMm: 120,
    longestDays: 42,
    source: FORM_MEMORY,
  },
  {
    name: 'Testudo horsfieldii',
    english: 'Horsfield’s or steppe tortoise',
    hibernation: 'hibernates',
    jackson: false,
    adultSclMm: 120,
    longestDays: 91,
    advisedDays: 56,
    synonyms: ['Agrionemys horsfieldii', 'Testudo horsfieldi'],
    source: {
      cite: 'common practice; In & Around magazine, veterinary column, 2022/09, p. 24',
      status: 'read',
      note: 'The column gives 8 weeks. In the wild buried over 9 months of 12 (Lagarde et al. 2002, Can. J. Zool. 80:493-502).',
    },
  },
  {
    name: 'Testudo marginata',
    english: 'Marginated tortoise',
    hibernation: 'hibernates',
    jackson: false,
    adultSclMm: 170,
    source: {
      cite: 'common practice; Swiss guidance (sigs.ch)',
      status: 'read',
      note: 'Goes down later and comes up earlier than the other Mediterranean species.',
    },
  },
  {
    name: 'Gopherus agassizii',
    english: 'Desert tortoise, Mojave',
    hibernation: 'hibernates',
    jackson: false,
    adultSclMm: 180,
    source: {
      cite: 'common practice; Nussear, Esque, Haines & Tracy 2007, Copeia 2007:378-386',
      status: 'abstract',
      note: 'Hibernates in the wild.',
    },
  },
  {
    name: 'Gopherus morafkai',
    english: 'Desert tortoise, Sonoran',
    hibernation: 'hibernates',
    jackson: false,
    adultSclMm: 180,
    source: {
      cite: 'common practice; Bailey, Schwalbe & Lowe 1995, J. Herpetol. 29:361-369',
      status: 'abstract',
      note: 'Hibernates in the wild.',
    },
  },
  {
    name: 'Testudo kleinmanni',
    english: 'Egyptian tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 90,
    source: {
      cite: 'Hennig, Testudo kleinmanni portrait (reptilia.de); common practice',
      status: 'read',
      note: 'Never hibernated, though a Testudo.',
    },
  },
  {
    name: 'Stigmochelys pardalis',
    english: 'Leopard tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 300,
    synonyms: ['Geochelone pardalis'],
    source: NEVER,
  },
  {
    name: 'Centrochelys sulcata',
    english: 'African spurred tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 400,
    synonyms: ['Geochelone sulcata'],
    source: NEVER,
  },
  {
    name: 'Chelonoidis carbonarius',
    english: 'Red-footed tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 250,
    synonyms: ['Chelonoidis carbonaria', 'Geochelone carbonaria'],
    source: NEVER,
  },
  {
    name: 'Chelonoidis denticulatus',
    english: 'Yellow-footed tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 300,
    synonyms: ['Chelonoidis denticulata', 'Geochelone denticulata'],
    source: NEVER,
  },
  {
    name: 'Geochelone elegans',
    english: 'Indian star tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 150,
    source: NEVER,
  },
  {
    name: 'Astrochelys radiata',
    english: 'Radiated tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 300,
    source: NEVER,
  },
  {
    name: 'Malacochersus tornieri',
    english: 'Pancake tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 130,
    source: NEVER,
  },
  {
    name: 'Kinixys belliana',
    english: 'Bell’s hinge-back tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 150,
    source: NEVER,
  },
  {
    name: 'Kinixys homeana',
    english: 'Home’s hinge-back tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 150,
    source: NEVER,
  },
  {
    name: 'Kinixys erosa',
    english: 'Forest hinge-back tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 200,
    source: NEVER,
  },
  {
    name: 'Kinixys spekii',
    english: 'Speke’s hinge-back tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 150,
    source: NEVER,
  },
  {
    name: 'Indotestudo elongata',
    english: 'Elongated tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 220,
    source: NEVER,
  },
  {
    name: 'Indotestudo forstenii',
    english: 'Forsten’s tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 200,
    source: NEVER,
  },
  {
    name: 'Indotestudo travancorica',
    english: 'Travancore tortoise',
    hibernation: 'never',
    jackson: false,
    adultSclMm: 220,
    source: NEVER,
  },
  {
    name: 'unknown',
    english: 'Not known',
    hibernation: 'unidentified',
    jackson: false,
    adultSclMm: 120,
    source: practice('Never until identified.'),
  },
  {
    name: 'hybrid',
    english: 'Hybrid',
    hibernation: 'unidentified',
    jackson: false,
    adultSclMm: 120,
    source: practice('Never until a vet who knows both parents’ kinds has advised.'),
  },
];

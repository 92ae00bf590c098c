import type { Day } from '../measure/day.ts';
import type { Source } from '../measure/source.ts';
import type { Message } from '../wording/say.ts';

export type Sex = 'female' | 'male' | 'unknown';

/** Words for the age of an animal whose years nobody knows. */
export type AgeClass = 'hatchling' | 'juvenile' | 'adult' | 'elderly';

/** How one fitness gate stands. `borderline`: not met now, or too near the limit to tell; wait and look again. */
export type GateState = 'passes' | 'borderline' | 'not-yet-known' | 'fails';

/** The answer for the whole animal: the worst of its gates. */
export type Verdict = 'may-go-down' | 'wait' | 'stay-awake';

/** Late summer, when what only the last weeks can tell does not count yet; or the day itself, when every gate does. */
export type Moment = 'deciding' | 'going-down';

export type ExaminationPart = 'eyes' | 'nose' | 'mouth' | 'limbs' | 'shell' | 'tail' | 'breathing' | 'droppings';
export type ExaminationMoment = 'before' | 'asleep' | 'waking';

/** Finding codes of `EXAMINATION`, one or several for each part looked at; `clear` when nothing is wrong. */
export type Findings = { readonly [part in ExaminationPart]?: string | readonly string[] | undefined };

export type HealthEventKind =
  | 'illness'
  | 'treatment'
  | 'vet-check'
  | 'vet-clearance'
  | 'parasite-check'
  | 'eggs'
  | 'new-arrival';

export interface HealthEvent {
  readonly kind: HealthEventKind;
  readonly fromDay: Day;
  /** Last day of it; absent while it still goes on. A check or a clearance is the one day `fromDay`. */
  readonly toDay?: Day | undefined;
}

/** A weighing with the straight carapace length of that day. */
export interface SizeRecord {
  readonly day: Day;
  readonly massG: number;
  readonly sclMm: number;
}

/** What is known of the past months. Anything absent is *not yet known*; `false` is an answer. */
export interface History {
  /** Came to this keeper on that day; less than 12 months ago makes it a new arrival. */
  readonly acquiredOn?: Day | undefined;
  readonly newArrival?: boolean | undefined;
  /** Any illness in the last 12 months. */
  readonly illness?: boolean | undefined;
  /** Any treatment in the last 12 months. */
  readonly treatment?: boolean | undefined;
  /** A vet said afterwards that the animal may hibernate. */
  readonly vetClearance?: boolean | undefined;
  /** A vet looked at the animal within the last 12 months. */
  readonly vetCheck?: boolean | undefined;
  /** Droppings looked at for parasites this year, and treated where needed. */
  readonly parasitesChecked?: boolean | undefined;
  readonly carryingEggs?: boolean | undefined;
  /** Ate normally through the summer. */
  readonly appetiteNormal?: boolean | undefined;
  /** Weight steady or rising through the summer. */
  readonly weightNormal?: boolean | undefined;
  /** Drinks or soaks, eyes not sunken, urates soft. */
  readonly hydrated?: boolean | undefined;
  /** Local form of *Testudo graeca* confirmed as one that hibernates, by someone who knows the form. */
  readonly formConfirmed?: boolean | undefined;
  /** Winters slept through before this one. */
  readonly wintersSlept?: number | undefined;
  readonly gutCleared?: boolean | undefined;
  readonly lastBathOn?: Day | undefined;
  readonly startMassG?: number | undefined;
  readonly events?: readonly HealthEvent[] | undefined;
  /** Earlier weighings of this animal. */
  readonly measurements?: readonly SizeRecord[] | undefined;
}

/** Published advice on length that a group follows; the first is the most cautious and the default. */
export type LengthAdvice = 'uk-joint-2016' | 'german-chamber' | 'common-practice';

export interface AssessInput {
  /** Scientific name of the species table, `unknown` or `hybrid`. */
  readonly species: string;
  readonly sex: Sex;
  readonly massG: number;
  readonly sclMm: number;
  readonly ageYears?: number | undefined;
  readonly birthDate?: Day | undefined;
  readonly ageClass?: AgeClass | undefined;
  /** The day this is asked for. */
  readonly onDay: Day;
  readonly moment: Moment;
  readonly lengthAdvice: LengthAdvice;
  /** First winter for this keeper, who would rather begin with a few days. */
  readonly hesitantKeeper: boolean;
  readonly examination: Findings;
  readonly history: History;
}

export type GateName =
  | 'species'
  | 'age'
  | 'measurements'
  | 'condition'
  | 'appetite'
  | 'summer-weight'
  | 'illness'
  | 'treatment'
  | 'new-arrival'
  | ExaminationPart
  | 'parasites'
  | 'eggs'
  | 'hydration'
  | 'vet-check'
  | 'gut-cleared'
  | 'last-bath'
  | 'start-mass';

export interface Gate {
  readonly name: GateName;
  readonly state: GateState;
  readonly reason: Message;
  readonly source: Source;
}

export type ConditionBand = 'seriously-light' | 'light' | 'normal' | 'heavy' | 'no-verdict';

export interface Condition {
  readonly band: ConditionBand;
  readonly state: GateState;
  readonly reason: Message;
  readonly source: Source;
  /** mass[g] / SCL[cm]^3, shown for every animal; judged only where `jacksonBand` is given. */
  readonly jacksonRatio: number;
  readonly jacksonBand?: 'seriously-light' | 'light' | 'acceptable' | 'heavy';
  /** Mass of an average animal of this length, and log10 of the ratio to it; absent where no curve holds. */
  readonly expectedMassG?: number;
  readonly conditionIndex?: number;
  readonly curve?: string;
  /** The same against the animal's own earlier weighings (exponent 2.77). */
  readonly ownExpectedMassG?: number;
  readonly ownConditionIndex?: number;
  /** Weighings the mass judged is the mean of. */
  readonly weighings: number;
  /** What a reader should know beside the figure. */
  readonly notes: readonly Message[];
}

export type LengthClass = 'first-winter' | 'second-third-winter' | 'juvenile' | 'adult' | 'elderly';

export interface HibernationLength {
  /** Days; 0 where the animal is not to sleep. */
  readonly suggestedDays: number;
  readonly shortestDays: number;
  /** Never to be passed, whatever the plan. */
  readonly ceilingDays: number;
  readonly lengthClass: LengthClass;
  readonly advice: LengthAdvice;
  readonly reasons: readonly Message[];
  readonly source: Source;
}

export interface Assessment {
  readonly verdict: Verdict;
  readonly gates: readonly Gate[];
  readonly condition: Condition;
  readonly length: HibernationLength;
  /** Cautions that always stand beside a verdict. */
  readonly cautions: readonly Message[];
}

import type { Day } from '../measure/day.ts';
import type { Source } from '../measure/source.ts';
import type { Message } from '../wording/say.ts';

/** Two published views of the last bath: on the day before the sleep, or a week before it. */
export type LastBathView = 'day-before' | 'week-before';

/** What is wished for the winter: a full sleep, a winter awake, or the short first cooling for the hesitant. */
type WinterWish = 'sleep' | 'awake' | 'first-cooling';

/** What the keeper asks for. Everything that is left out has a default that the plan names. */
export interface PlanRequest {
  /** Scientific name of the species table, or `unknown`. */
  readonly species: string;
  /** Straight carapace length, mm. Decides how long the fast and the wind-down take. */
  readonly sclMm: number;
  /** Mass, g. Left out: guessed from the length; only the pace at which the body warms and cools depends on it. */
  readonly massG?: number;
  /** Degrees, north positive: the season and the day length follow from it. */
  readonly latitudeDeg: number;
  readonly wish?: WinterWish;
  /** First day asleep. Left out: the coldest time of the year at this latitude, or of the normals given. */
  readonly sleepDay?: Day;
  /** Nights asleep. Left out: the length suggested by the assessment. Never more than its ceiling. */
  readonly sleepDays?: number;
  readonly method?: 'place' | 'refrigerator';
  readonly lastBath?: LastBathView;
  /** Lamp hours a day before the wind-down; default 12. */
  readonly lampHours?: number;
  /** Body temperature under the lamp, °C; default 28. */
  readonly lampBodyTempC?: number;
  /** Body temperature by night and with the lamp off during the wind-down, °C; default 15. */
  readonly nightBodyTempC?: number;
  /** Twelve pairs of monthly normals, the year's first month first. */
  readonly climateNormals?: readonly { readonly maxC: number; readonly minC: number }[];
  /** Take the shortest preparation that is still allowed when there is no time for the full one. */
  readonly shortPreparation?: boolean;
}

/** The stretches of the winter line, in the order in which they come; `awake` and `cooling` belong to the other plans. */
export type StageName =
  | 'feeding-up'
  | 'winding-down'
  | 'fast'
  | 'asleep'
  | 'waking'
  | 'recovering'
  | 'back-to-full'
  | 'cooling'
  | 'awake';

/** One stretch of the winter line. Both days belong to it; stages follow each other without gap or overlap. */
export interface Stage {
  readonly name: StageName;
  readonly fromDay: Day;
  readonly toDay: Day;
  /** What this stage is for, in one sentence. */
  readonly purpose: Message;
}

export type TaskKind =
  | 'feed'
  | 'examine'
  | 'vet-check'
  | 'weigh'
  | 'lamp'
  | 'last-food'
  | 'bath'
  | 'last-bath'
  | 'gut-check'
  | 'dry-run'
  | 'ready-box'
  | 'rest-day'
  | 'put-down'
  | 'look'
  | 'cold-look'
  | 'warm'
  | 'waking-check'
  | 'waking-bath'
  | 'first-food'
  | 'feeding-watch'
  | 'review'
  | 'heat-check';

/** One dated thing to do. */
export interface Task {
  /** Stable within a winter: the third weekly look stays `look-3` when the dates move. */
  readonly key: string;
  readonly kind: TaskKind;
  readonly day: Day;
  /** The last day on which it still counts as done in time; left out: the day itself. */
  readonly untilDay?: Day;
  /** A sentence with a verb, without the animal's name: the face sets that before it. */
  readonly say: Message;
  readonly why?: Message;
  readonly source: Source;
}

/** Lamp hours from a day on, until the next step. */
export interface LampStep {
  readonly fromDay: Day;
  readonly hours: number;
  /** Daylight from sunrise to sunset here on that day, hours. */
  readonly dayLengthHours: number;
  /** True where the hours follow the local day length because that is kinder than the usual step. */
  readonly followsDayLength: boolean;
}

export interface PlanNote {
  /** `warning`: something has to give or to be watched; `note`: worth knowing; `choice`: published advice differs, this is in force. */
  readonly level: 'warning' | 'note' | 'choice';
  /** Stable name of the note, for tests and for faces that place it. */
  readonly code: string;
  readonly say: Message;
  readonly source: Source;
}

/** What set the length of the sleep. */
type LengthLimit = 'wish' | 'suggested' | 'ceiling' | 'mass-loss' | 'season' | 'first-cooling';

export interface PlanLength {
  /** Nights asleep. */
  readonly days: number;
  readonly suggestedDays: number;
  readonly ceilingDays: number;
  /** Longest sleep at which the forecast of mass loss, at its upper 90 % bound, stays under 8 %; left out when no forecast was given. */
  readonly massLimitDays?: number;
  readonly limitedBy: LengthLimit;
  readonly say: Message;
  readonly source: Source;
}

/** When the gut is expected to be empty, at the warmth planned or recorded. A missing day: not within the days looked at. */
export interface GutExpectation {
  readonly expectedDay?: Day;
  readonly earliestDay?: Day;
  readonly latestDay?: Day;
}

/** The dated plan of one animal's winter. Plain data: stored and sent as JSON. */
export interface WinterPlan {
  readonly kind: WinterWish;
  readonly request: PlanRequest;
  /** The year that holds the shortest day of this winter, as text: the name of the winter in both hemispheres. */
  readonly winter: string;
  readonly hemisphere: 'north' | 'south';
  readonly shortestDay: Day;
  /** The day on which the plan was made or last moved. */
  readonly madeOn: Day;
  /** True while the verdict is *wait*: the dates hold only if the missing gates pass. */
  readonly provisional: boolean;
  /** First and last day of the plan. */
  readonly fromDay: Day;
  readonly toDay: Day;
  /** First night asleep and the day of waking; left out in a winter awake. */
  readonly sleepDay?: Day;
  readonly wakeDay?: Day;
  readonly length?: PlanLength;
  readonly gut?: GutExpectation;
  readonly stages: readonly Stage[];
  readonly tasks: readonly Task[];
  readonly lamp: readonly LampStep[];
  readonly notes: readonly PlanNote[];
}

/** What could be done instead of a plan that is refused. */
export interface PlanOption {
  readonly code: 'later' | 'shorter-preparation' | 'next-winter' | 'awake' | 'first-cooling';
  readonly say: Message;
  /** The request that would give it. */
  readonly request: PlanRequest;
}

export type PlanOutcome =
  | { readonly outcome: 'planned'; readonly plan: WinterPlan }
  | {
      readonly outcome: 'refused';
      readonly reasons: readonly PlanNote[];
      readonly options: readonly PlanOption[];
      /** The winter awake that takes the sleep's place; present whenever the animal itself is the reason. */
      readonly instead?: WinterPlan;
    };

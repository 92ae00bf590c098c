import type { MassUnit, TemperatureUnit } from '../measure/figures.ts';
import type { Source } from '../measure/source.ts';
import type { Message, MessageKey } from '../wording/say.ts';

export type NoticeLevel = 'act-now' | 'look-today' | 'for-the-record';

/** The pages of *What to do now*. */
export type WhatToDoPage =
  | 'frost'
  | 'too-warm'
  | 'power-cut'
  | 'urine-passed'
  | 'weight-limit'
  | 'awake-early'
  | 'rodents'
  | 'probe-silent'
  | 'not-responding'
  | 'not-eating';

export type RuleId =
  | 'frost'
  | 'under-2'
  | 'under-3'
  | 'over-8'
  | 'over-10'
  | 'fast-change'
  | 'warm-week'
  | 'silence'
  | 'silence-in-cold'
  | 'battery'
  | 'lid-closed'
  | 'weigh-in-overdue'
  | 'forecast-cold'
  | 'forecast-warm'
  | 'urine'
  | 'awake-signs'
  | 'no-response'
  | 'mass-8'
  | 'mass-10'
  | 'mass-band'
  | 'mass-forecast'
  | 'weighing-doubted';

type RuleFamily = 'cold' | 'warm' | 'change' | 'probe' | 'care' | 'forecast' | 'animal' | 'mass';

/** One rule of the watch: a limit with a duration, never a bare limit. */
export interface WatchRule {
  readonly id: RuleId;
  readonly family: RuleFamily;
  /** `under`, `at-or-under`, `over`: a limit on the temperature; the others are told by their id. */
  readonly compare: 'under' | 'at-or-under' | 'over' | 'event';
  readonly limit: number;
  readonly unit: '°C' | 'K' | 'h' | 'd' | '%' | 'intervals' | 'event';
  /** How long the limit must be passed, in all, within one excursion, before the rule speaks, s. */
  readonly durationS: number;
  /** Back inside counts only beyond this value (hysteresis), same unit as `limit` … */
  readonly clearLimit: number;
  /** … and only when it has stayed there this long, s. */
  readonly clearS: number;
  readonly level: NoticeLevel;
  readonly say: MessageKey;
  readonly page: WhatToDoPage | null;
  /** Which way is stricter: a higher or a lower limit; `fixed` may be changed by nobody. */
  readonly stricter: 'higher' | 'lower' | 'fixed';
  readonly source: Source;
}

/** A keeper's own limits for one stay. */
export type RuleSettings = Partial<Record<RuleId, { readonly limit?: number; readonly durationS?: number }>>;

export interface WatchSetup {
  readonly stayId: string;
  /** The animal was put into the box at this instant, ms since 1970 UTC. */
  readonly fromMs: number;
  readonly startMassG?: number;
  /** Planned start of waking: the forecasts of mass loss are held against it. */
  readonly plannedWakeMs?: number;
  /** Expected time between readings, s; left out when readings are typed by hand: then silence is no fault. */
  readonly expectedIntervalS?: number;
  /** Stated accuracy of the probe, ± °C; widens every limit. Default 0. */
  readonly accuracyC?: number;
  /** After putting down, warm and rate rules wait this long for the box to settle, s. Default 6 h. */
  readonly settleS?: number;
  readonly temperatureUnit?: TemperatureUnit;
  readonly massUnit?: MassUnit;
  readonly settings?: RuleSettings;
}

/** Diary entries that the watch understands; other kinds are none of its business. */
export type WatchDiaryKind = 'lid-opened' | 'touch-response' | 'no-touch-response' | 'urine' | 'awake-signs';

/** What happens to a stay, in the order of `atMs`. */
export type WatchEntry =
  | { readonly kind: 'reading'; readonly atMs: number; readonly tempC: number }
  | {
      readonly kind: 'span';
      readonly fromMs: number;
      readonly atMs: number;
      readonly maxC: number;
      readonly minC: number;
    }
  | {
      readonly kind: 'weigh-in';
      readonly atMs: number;
      readonly massG: number;
      /** The 90 % band of the mass-loss forecast for this weigh-in, g. */
      readonly expectedLowG?: number;
      readonly expectedHighG?: number;
    }
  /** `low` is the thermometer's own judgement, for those that say no per cent. */
  | { readonly kind: 'battery'; readonly atMs: number; readonly percent?: number; readonly low?: boolean }
  | { readonly kind: 'diary'; readonly atMs: number; readonly diary: WatchDiaryKind }
  | {
      readonly kind: 'forecast';
      /** When the forecast was made. */
      readonly atMs: number;
      /** Instants and temperatures in the box, in rising time. */
      readonly timesMs: ArrayLike<number>;
      readonly tempsC: ArrayLike<number>;
    }
  | {
      readonly kind: 'mass-forecast';
      readonly atMs: number;
      /** When the upper 90 % bound of the loss passes 8 %; left out: not within the forecast. */
      readonly passesMs?: number;
    }
  | { readonly kind: 'woken'; readonly atMs: number };

export interface WatchNotice {
  /** Stable: the same history gives the same key, however it arrived. Unique within a stay. */
  readonly key: string;
  readonly stayId: string;
  readonly ruleId: RuleId;
  readonly level: NoticeLevel;
  /** When the trouble began, and when the rule spoke. */
  readonly fromMs: number;
  readonly raisedMs: number;
  readonly clearedMs?: number;
  readonly message: Message;
  readonly page: WhatToDoPage | null;
  /** Worst temperature seen while open, °C (cold and warm rules). */
  readonly worstC?: number;
  /** A weigh-in that would end the sleep: a second weighing is asked for, the worse value counts meanwhile. */
  readonly secondWeighing?: 'asked' | 'confirmed';
}

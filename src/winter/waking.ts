import { percent } from '../measure/figures.ts';
import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import { type Message, type MessageKey, message } from '../wording/say.ts';
import { FEEDING_LIMIT } from './plan-table.ts';
import type { WhatToDoPage } from './watch-types.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Days awake without food or without urine, and what each means. Seven is every veterinary page's limit; ten is common practice. */
const FEEDING_LIMITS: readonly {
  readonly fromDays: number;
  readonly level: FeedingLevel;
  readonly source: Source;
}[] = [
  { fromDays: 0, level: 'wait', source: FEEDING_LIMIT },
  { fromDays: 3, level: 'coax', source: COMMON_PRACTICE },
  { fromDays: 7, level: 'vet', source: FEEDING_LIMIT },
  { fromDays: 10, level: 'past-every-limit', source: COMMON_PRACTICE },
];
type FeedingLevel = 'wait' | 'coax' | 'vet' | 'past-every-limit';

/** The hours of the waking: each step with its distance from the moment the box comes into the heated room. */
const WARMING: readonly { readonly afterH: number; readonly untilH: number; readonly say: MessageKey }[] = [
  { afterH: 0, untilH: 1, say: 'winter.waking.bring' },
  { afterH: 4, untilH: 5, say: 'winter.waking.lookIn' },
  { afterH: 12, untilH: 13, say: 'winter.waking.check' },
  { afterH: 12.5, untilH: 14, say: 'winter.waking.bath' },
  { afterH: 13, untilH: 24, say: 'winter.waking.lamp' },
  { afterH: 13.5, untilH: 24, say: 'winter.waking.food' },
];

export interface WarmingStep {
  readonly atMs: number;
  readonly untilMs: number;
  readonly say: Message;
  readonly state: 'coming' | 'now' | 'past';
}

/** The steps of the warming with their instants, from the moment the box came into the heated room (common practice: about 12 hours). */
export function warmingSteps(startMs: number, nowMs: number): WarmingStep[] {
  return WARMING.map(({ afterH, untilH, say }) => {
    const atMs = startMs + afterH * HOUR_MS;
    const untilMs = startMs + untilH * HOUR_MS;
    return { atMs, untilMs, say: message(say), state: nowMs < atMs ? 'coming' : nowMs < untilMs ? 'now' : 'past' };
  });
}

export interface AfterWaking {
  readonly wokenMs: number;
  readonly nowMs: number;
  /** Instants at which it ate, passed urine, drank. */
  readonly fedMs: readonly number[];
  readonly urineMs: readonly number[];
  readonly drankMs: readonly number[];
  /** Weighings since waking, in time order. */
  readonly weighings: readonly { readonly atMs: number; readonly massG: number }[];
  readonly startMassG?: number;
}

export interface Recovery {
  readonly daysAwake: number;
  /** Whole days since it last ate, or since waking; the limits hold for the first meal only. */
  readonly daysWithoutFood: number;
  readonly hasEaten: boolean;
  readonly hasPassedUrine: boolean;
  readonly hasDrunk: boolean;
  readonly level: FeedingLevel | 'feeding';
  readonly say: Message;
  readonly source: Source;
  readonly page: WhatToDoPage | null;
  /** Newest mass over the starting mass; missing while one of them is. */
  readonly massShare?: number;
  /** True once the mass is back at the start: the winter is over. */
  readonly winterOver: boolean;
}

/** How the first days go: the days without food or urine against 7 and 10, and the weight on its way back to the start. */
export function recovery(facts: AfterWaking): Recovery {
  const since = (instants: readonly number[]) => instants.filter((at) => at >= facts.wokenMs && at <= facts.nowMs);
  const fed = since(facts.fedMs);
  const hasPassedUrine = since(facts.urineMs).length > 0;
  const daysAwake = Math.max(0, Math.floor((facts.nowMs - facts.wokenMs) / DAY_MS));
  const lastFed = fed.length > 0 ? Math.max(...fed) : facts.wokenMs;
  const hasEaten = fed.length > 0;
  const mass = facts.weighings.filter((one) => one.atMs <= facts.nowMs).at(-1)?.massG;
  const massShare = mass !== undefined && facts.startMassG ? mass / facts.startMassG : undefined;
  const missing = hasEaten && hasPassedUrine ? null : hasEaten ? 'urine' : hasPassedUrine ? 'food' : 'both';
  const limit = FEEDING_LIMITS.filter((one) => daysAwake >= one.fromDays).at(-1)!;
  const winterOver = hasEaten && massShare !== undefined && massShare >= 1;
  const common = {
    daysAwake,
    daysWithoutFood: Math.floor((facts.nowMs - lastFed) / DAY_MS),
    hasEaten,
    hasPassedUrine,
    hasDrunk: since(facts.drankMs).length > 0,
    ...(massShare === undefined ? {} : { massShare }),
    winterOver,
  };
  if (missing === null) {
    const said = winterOver
      ? message('winter.waking.over')
      : massShare === undefined
        ? message('winter.waking.feeding')
        : message('winter.waking.regaining', { share: percent(massShare, 1) });
    return { ...common, level: 'feeding', say: said, source: COMMON_PRACTICE, page: null };
  }
  return {
    ...common,
    level: limit.level,
    say: message(`winter.waking.${limit.level}.${missing}`, { days: daysAwake }),
    source: limit.source,
    page: limit.level === 'wait' ? null : 'not-eating',
  };
}

import { WATCH_RULES } from './watch-rules.ts';
import type { RuleSettings, WatchRule } from './watch-types.ts';

/** The rules that hold a limit against the temperature, in the order of the table. */
export const LIMIT_RULES: readonly WatchRule[] = WATCH_RULES.filter((rule) => rule.compare !== 'event');
const COUNT = LIMIT_RULES.length;
/** +1 where warm is bad, -1 where cold is bad: with it every rule reads "too high". */
const SIGN = Float64Array.from(LIMIT_RULES, (rule) => (rule.compare === 'over' ? 1 : -1));

/**
 * The limit rules of one stay as typed arrays, so that a reading costs a short loop and allocates nothing.
 *
 * An excursion begins with the first reading outside a limit and ends with one beyond the clearing limit. Time outside is
 * summed within it, holding each reading until the next (nothing is known in between, so the worse is taken); when the sum
 * reaches the duration the rule speaks. It clears after readings have stayed inside for the clearing time, never by silence.
 */
export interface LimitState {
  readonly limit: Float64Array;
  readonly clear: Float64Array;
  readonly durationMs: Float64Array;
  readonly clearMs: Float64Array;
  /** 1 where the limit itself is already outside. */
  readonly inclusive: Uint8Array;
  readonly accuracyC: number;
  /** Start of the excursion, ms; NaN while there is none. */
  readonly fromMs: Float64Array;
  readonly outsideMs: Float64Array;
  readonly isOutside: Uint8Array;
  readonly raised: Uint8Array;
  /** Since when every reading has been inside the clearing limit, ms; NaN. */
  readonly insideSinceMs: Float64Array;
  /** Worst temperature of the excursion, °C. */
  readonly worstC: Float64Array;
  /** Excursions open or notices standing: 0 lets the common reading leave early. */
  busy: number;
}

export const RAISED = 1;
export const CLEARED = 2;
/** Told of each change: rule index, RAISED or CLEARED, instant. */
export type LimitListener = (index: number, change: typeof RAISED | typeof CLEARED, atMs: number) => void;

type LimitRows = Pick<LimitState, 'limit' | 'clear' | 'durationMs' | 'clearMs' | 'inclusive'>;

function limitRows(settings: RuleSettings): LimitRows {
  const limits = LIMIT_RULES.map((rule) => settings[rule.id]?.limit ?? rule.limit);
  return {
    limit: Float64Array.from(limits, (limit, i) => SIGN[i]! * limit),
    // The clearing limit keeps its distance from a limit that the keeper has moved.
    clear: Float64Array.from(LIMIT_RULES, (rule, i) => SIGN[i]! * (limits[i]! + rule.clearLimit - rule.limit)),
    durationMs: Float64Array.from(LIMIT_RULES, (rule) => (settings[rule.id]?.durationS ?? rule.durationS) * 1000),
    clearMs: Float64Array.from(LIMIT_RULES, (rule) => rule.clearS * 1000),
    inclusive: Uint8Array.from(LIMIT_RULES, (rule) => (rule.compare === 'at-or-under' ? 1 : 0)),
  };
}
/** Shared by every stay that keeps the usual limits; never written to. */
const USUAL_ROWS = limitRows({});

/** @param accuracyC stated accuracy of the probe, ± °C: a probe of ±1 °C cannot prove "above 2 °C" at 2.5 °C (EN 12830). */
export function openLimits(settings?: RuleSettings, accuracyC = 0): LimitState {
  return {
    ...(settings ? limitRows(settings) : USUAL_ROWS),
    accuracyC,
    fromMs: new Float64Array(COUNT).fill(Number.NaN),
    outsideMs: new Float64Array(COUNT),
    isOutside: new Uint8Array(COUNT),
    raised: new Uint8Array(COUNT),
    insideSinceMs: new Float64Array(COUNT).fill(Number.NaN),
    worstC: new Float64Array(COUNT).fill(Number.NaN),
    busy: 0,
  };
}

/** Lets time pass from `fromMs` to `toMs` with the last reading held. */
export function limitsTime(state: LimitState, fromMs: number, toMs: number, tell: LimitListener): void {
  if (state.busy === 0) return;
  const passed = toMs - fromMs;
  for (let i = 0; i < COUNT; i++) {
    if (state.isOutside[i] === 0) continue;
    const sum = state.outsideMs[i]! + passed;
    state.outsideMs[i] = sum;
    if (state.raised[i] === 0 && sum >= state.durationMs[i]!) {
      state.raised[i] = 1;
      tell(i, RAISED, toMs - (sum - state.durationMs[i]!));
    }
  }
}

/** Takes one reading at `atMs`, after `limitsTime` has brought the state there. `warmWatched` is false while the box settles. */
export function limitsReading(
  state: LimitState,
  atMs: number,
  tempC: number,
  warmWatched: boolean,
  tell: LimitListener,
): void {
  for (let i = 0; i < COUNT; i++) {
    const sign = SIGN[i]!;
    if (sign > 0 && !warmWatched) continue;
    const value = sign * tempC + state.accuracyC;
    const limit = state.limit[i]!;
    const beyondClear = value <= state.clear[i]!;
    if (beyondClear && Number.isNaN(state.fromMs[i]!)) continue;
    if (value > limit || (state.inclusive[i] === 1 && value === limit)) {
      if (Number.isNaN(state.fromMs[i]!)) {
        state.fromMs[i] = atMs;
        state.outsideMs[i] = 0;
        state.worstC[i] = tempC;
        state.busy++;
      }
      state.isOutside[i] = 1;
      state.insideSinceMs[i] = Number.NaN;
      if (sign * tempC > sign * state.worstC[i]!) state.worstC[i] = tempC;
      if (state.raised[i] === 0 && state.outsideMs[i]! >= state.durationMs[i]!) {
        state.raised[i] = 1;
        tell(i, RAISED, atMs);
      }
      continue;
    }
    if (Number.isNaN(state.fromMs[i]!)) continue;
    state.isOutside[i] = 0;
    if (!beyondClear) {
      state.insideSinceMs[i] = Number.NaN;
      continue;
    }
    if (state.raised[i] === 1) {
      if (Number.isNaN(state.insideSinceMs[i]!)) state.insideSinceMs[i] = atMs;
      if (atMs - state.insideSinceMs[i]! < state.clearMs[i]!) continue;
      state.raised[i] = 0;
      tell(i, CLEARED, atMs);
    }
    state.fromMs[i] = Number.NaN;
    state.insideSinceMs[i] = Number.NaN;
    state.busy--;
  }
}

/** A copy to try a forecast on. */
export function copyLimits(state: LimitState): LimitState {
  return {
    ...state,
    fromMs: state.fromMs.slice(),
    outsideMs: state.outsideMs.slice(),
    isOutside: state.isOutside.slice(),
    raised: state.raised.slice(),
    insideSinceMs: state.insideSinceMs.slice(),
    worstC: state.worstC.slice(),
  };
}

import { copyLimits, LIMIT_RULES, type LimitState, limitsReading, limitsTime, RAISED } from './watch-limits.ts';
import type { RuleId } from './watch-types.ts';

export interface ForecastBreach {
  readonly ruleId: RuleId;
  /** When the limit is expected to be passed, and when the rule would speak. */
  readonly fromMs: number;
  readonly atMs: number;
  readonly worstC: number;
}

/**
 * Runs a forecast of the temperature in the box through the same rules, going on from the excursions that are open now.
 * Returns for cold and for warm the breach that would speak first among rules that have not spoken yet.
 * @param timesMs rising instants; those before `nowMs` are skipped
 */
export function forecastBreach(
  limits: LimitState,
  nowMs: number,
  timesMs: ArrayLike<number>,
  tempsC: ArrayLike<number>,
  untilMs: number,
): { cold?: ForecastBreach; warm?: ForecastBreach } {
  const trial = copyLimits(limits);
  const found: { cold?: ForecastBreach; warm?: ForecastBreach } = {};
  let clock = nowMs;
  const tell = (index: number, change: number, atMs: number) => {
    const rule = LIMIT_RULES[index]!;
    const side = rule.family === 'cold' ? 'cold' : 'warm';
    if (change !== RAISED || found[side]) return;
    found[side] = { ruleId: rule.id, fromMs: trial.fromMs[index]!, atMs, worstC: trial.worstC[index]! };
  };
  for (let i = 0; i < timesMs.length; i++) {
    const at = timesMs[i]!;
    if (at < nowMs) continue;
    if (at > untilMs) break;
    limitsTime(trial, clock, at, tell);
    limitsReading(trial, at, tempsC[i]!, true, tell);
    clock = at;
  }
  const worst = { cold: Number.POSITIVE_INFINITY, warm: Number.NEGATIVE_INFINITY };
  for (let i = 0; i < timesMs.length; i++) {
    if (timesMs[i]! < nowMs || timesMs[i]! > untilMs) continue;
    worst.cold = Math.min(worst.cold, tempsC[i]!);
    worst.warm = Math.max(worst.warm, tempsC[i]!);
  }
  if (found.cold) found.cold = { ...found.cold, worstC: worst.cold };
  if (found.warm) found.warm = { ...found.warm, worstC: worst.warm };
  return found;
}

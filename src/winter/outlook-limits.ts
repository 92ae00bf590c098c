import type { OutlookLimits } from '../heat/box-outlook.ts';
import { LIMIT_RULES } from './watch-limits.ts';
import type { RuleSettings } from './watch-types.ts';

/** The temperature limits of one stay, °C, the mildest first: those of the rules, where the keeper has set none. */
export function outlookLimits(settings: RuleSettings = {}): OutlookLimits {
  const limits = (side: 'cold' | 'warm') =>
    LIMIT_RULES.filter((rule) => (rule.compare === 'over') === (side === 'warm')).map(
      (rule) => settings[rule.id]?.limit ?? rule.limit,
    );
  return { coldC: limits('cold').sort((a, b) => b - a), warmC: limits('warm').sort((a, b) => a - b) };
}

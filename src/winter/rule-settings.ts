import { figure } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import { watchRule } from './watch-rules.ts';
import type { RuleId } from './watch-types.ts';

type RuleChangeDirection = 'tighter' | 'same' | 'looser';

export type RuleChange =
  | {
      readonly allowed: true;
      readonly direction: RuleChangeDirection;
      /** A loosened limit is kept in the record in this wording; left out otherwise. */
      readonly record?: Message;
      readonly say: Message;
    }
  | { readonly allowed: false; readonly say: Message };

/**
 * Whether somebody may set a rule to these values. Anyone may tighten; loosening either the limit or the time beyond the row of the
 * table needs the tutor and is recorded; a fixed rule stands. Tighter in one value and looser in the other counts as looser.
 */
export function checkRuleChange(
  id: RuleId,
  wanted: { readonly limit?: number; readonly durationS?: number },
  role: 'tutor' | 'keeper' | 'reader',
): RuleChange {
  const rule = watchRule(id);
  const limit = wanted.limit ?? rule.limit;
  const durationS = wanted.durationS ?? rule.durationS;
  if (!Number.isFinite(limit) || !Number.isFinite(durationS) || durationS < 0)
    return { allowed: false, say: message('winter.settings.notANumber', { unit: rule.unit }) };
  const sense = rule.stricter === 'higher' ? 1 : -1;
  const change = Math.sign(sense * (limit - rule.limit));
  // A week's window counts more warm hours than a day's: there a longer time is the stricter one.
  const longer = id === 'warm-week' || id === 'fast-change' ? 1 : -1;
  const time = Math.sign(longer * (durationS - rule.durationS));
  const direction: RuleChangeDirection =
    change < 0 || time < 0 ? 'looser' : change > 0 || time > 0 ? 'tighter' : 'same';
  if (direction === 'same') return { allowed: true, direction, say: message('winter.settings.same') };
  if (rule.stricter === 'fixed' || role === 'reader') return { allowed: false, say: message('winter.settings.fixed') };
  if (direction === 'tighter') return { allowed: true, direction, say: message('winter.settings.tighter') };
  if (role !== 'tutor') return { allowed: false, say: message('winter.settings.needsTutor') };
  const hours = durationS / 3600;
  return {
    allowed: true,
    direction,
    say: message('winter.settings.looser'),
    record: message('winter.settings.changed', {
      rule: id,
      limit: figure(limit, Number.isInteger(limit) ? 0 : 1),
      unit: rule.unit,
      duration: hours < 1 ? `${figure(durationS / 60)} min` : `${figure(hours, Number.isInteger(hours) ? 0 : 1)} h`,
      role,
    }),
  };
}

import { describe, expect, it } from 'vitest';
import { checkRuleChange } from '../../src/winter/rule-settings.ts';
import { WATCH_RULES } from '../../src/winter/watch-rules.ts';
import { say } from '../../src/wording/say.ts';

describe('changing a rule', () => {
  it.each(WATCH_RULES.filter((rule) => rule.stricter !== 'fixed'))(
    '$id may be tightened by a keeper, loosened by the tutor only',
    (rule) => {
      const step = rule.stricter === 'higher' ? 1 : -1;
      const looser = { limit: rule.limit - step };
      expect(checkRuleChange(rule.id, { limit: rule.limit + step }, 'keeper')).toMatchObject({
        allowed: true,
        direction: 'tighter',
      });
      expect(checkRuleChange(rule.id, looser, 'keeper').allowed).toBe(false);
      const byTutor = checkRuleChange(rule.id, looser, 'tutor');
      expect(byTutor).toMatchObject({ allowed: true, direction: 'looser' });
      expect(byTutor.allowed && byTutor.record && say(byTutor.record)).toContain(rule.id);
      expect(checkRuleChange(rule.id, { limit: rule.limit + step }, 'reader').allowed).toBe(false);
    },
  );

  it.each(WATCH_RULES.filter((rule) => rule.stricter === 'fixed'))('$id stands whoever asks', (rule) => {
    for (const role of ['keeper', 'tutor'] as const) {
      expect(checkRuleChange(rule.id, { limit: rule.limit - 1 }, role).allowed).toBe(false);
      expect(checkRuleChange(rule.id, { limit: rule.limit + 1 }, role).allowed).toBe(false);
    }
  });

  it('a longer wait is looser, a mixed change counts as looser, nonsense is refused', () => {
    expect(checkRuleChange('over-8', { durationS: 13 * 3600 }, 'keeper').allowed).toBe(false);
    expect(checkRuleChange('over-8', { durationS: 11 * 3600 }, 'keeper')).toMatchObject({ direction: 'tighter' });
    expect(checkRuleChange('over-8', { limit: 7, durationS: 13 * 3600 }, 'keeper').allowed).toBe(false);
    expect(checkRuleChange('over-8', {}, 'keeper')).toMatchObject({ direction: 'same' });
    expect(checkRuleChange('over-8', { limit: Number.NaN }, 'tutor').allowed).toBe(false);
    expect(checkRuleChange('over-8', { durationS: -1 }, 'tutor').allowed).toBe(false);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { instantInZone } from '../../src/measure/zone.ts';
import { dueMessages, inQuietHours, sendAtMs } from '../../src/winter/notice-delivery.ts';
import { checkRuleChange } from '../../src/winter/rule-settings.ts';
import { WATCH_RULES } from '../../src/winter/watch-rules.ts';
import { say } from '../../src/wording/say.ts';

const MIN = 60_000;
const H = 60 * MIN;
const zone = 'Europe/London';
const night = { zone, quietFromHour: 22, quietToHour: 7 };
const at = (day: string, hour: number) => instantInZone(day, zone, hour);

describe('when a notice goes', () => {
  it.each([
    [21.99, false],
    [22, true],
    [3, true],
    [6.99, true],
    [7, false],
  ])('at %d o’clock the night is quiet: %s', (hour, quiet) => {
    expect(inQuietHours(night, at('2027-01-09', hour))).toBe(quiet);
    expect(inQuietHours({ zone }, at('2027-01-09', hour))).toBe(false);
    expect(inQuietHours({ zone, quietFromHour: 13, quietToHour: 14 }, at('2027-01-09', hour))).toBe(false);
  });

  it('act now ignores quiet hours, look today waits for their end, for the record is never sent', () => {
    const three = at('2027-01-09', 3);
    expect(sendAtMs('act-now', three, night)).toBe(three);
    expect(sendAtMs('look-today', three, night)).toBe(at('2027-01-09', 7));
    expect(sendAtMs('look-today', at('2027-01-09', 23), night)).toBe(at('2027-01-10', 7));
    expect(sendAtMs('look-today', at('2027-01-09', 12), night)).toBe(at('2027-01-09', 12));
    expect(sendAtMs('for-the-record', three, night)).toBeUndefined();
  });

  it('the digest goes at its hour by the wall clock, through a clock change too', () => {
    const digest = { ...night, digestHour: 8 };
    expect(sendAtMs('look-today', at('2027-03-27', 9), digest)).toBe(at('2027-03-28', 8));
    expect(at('2027-03-28', 8) - at('2027-03-27', 8)).toBe(23 * H);
    expect(sendAtMs('look-today', at('2026-10-24', 9), digest)! - at('2026-10-24', 8)).toBe(25 * H);
  });

  it('is never held in quiet hours nor sent before it was raised, on any day of the year in any zone', () => {
    const zones = fc.constantFrom(
      'Europe/London',
      'Australia/Lord_Howe',
      'America/Santiago',
      'Africa/Casablanca',
      'UTC',
    );
    fc.assert(
      fc.property(
        zones,
        fc.integer({ min: 0, max: 400 * 96 }),
        fc.integer({ min: 0, max: 23 }),
        fc.integer({ min: 0, max: 23 }),
        (where, quarter, from, to) => {
          const wishes = { zone: where, quietFromHour: from, quietToHour: to };
          const raised = Date.UTC(2026, 6, 1) + quarter * 15 * MIN;
          const sent = sendAtMs('look-today', raised, wishes)!;
          expect(sent).toBeGreaterThanOrEqual(raised);
          expect(sent - raised).toBeLessThanOrEqual(26 * H);
          expect(inQuietHours(wishes, sent)).toBe(false);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('goes to the tutor when nobody acknowledges in thirty minutes, then again every hour, and stops', () => {
    const notice = { level: 'act-now' as const, raisedMs: 0 };
    const due = (nowMs: number, more = {}) => dueMessages({ ...notice, ...more }, { zone: 'UTC' }, nowMs);
    expect(due(29 * MIN)).toEqual([{ to: 'keeper', atMs: 0, repeat: 0 }]);
    expect(due(30 * MIN).map((one) => `${one.to}${one.repeat}`)).toEqual(['keeper0', 'tutor0', 'keeper1']);
    expect(due(91 * MIN)).toHaveLength(5);
    expect(due(48 * H)).toHaveLength(15);
    expect(due(48 * H, { acknowledgedMs: 20 * MIN })).toHaveLength(1);
    expect(due(48 * H, { clearedMs: 40 * MIN })).toHaveLength(3);
  });

  it('a calm notice that was seen or over before its hour is not sent', () => {
    const three = at('2027-01-09', 3);
    const due = (more: object) => dueMessages({ level: 'look-today', raisedMs: three, ...more }, night, three + 12 * H);
    expect(due({})).toHaveLength(1);
    expect(due({ clearedMs: three + H })).toHaveLength(0);
    expect(due({ acknowledgedMs: three + 5 * H })).toHaveLength(1);
  });
});

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

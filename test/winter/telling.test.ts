import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isQuiet, type Listener, nextDigestMs, type TellableNotice, tellings } from '../../src/winter/telling.ts';

const zone = 'Europe/London';
const at = (text: string) => Date.parse(text);
const keeper: Listener = {
  personId: 'keeper',
  tutor: false,
  looksAfter: (animal) => animal === 'sedge',
  zone,
  quiet: { fromMin: 22 * 60, toMin: 7 * 60 },
  digestsMin: [8 * 60, 17 * 60],
};
const tutor: Listener = { ...keeper, personId: 'tutor', tutor: true, looksAfter: () => false };
const frost: TellableNotice = { id: 'n', animalId: 'sedge', level: 'act-now', raisedMs: at('2027-01-09T02:10:00Z') };
const steps = (notice: TellableNotice, now: string) =>
  tellings(notice, [keeper, tutor], at(now)).map(({ personId, step }) => `${personId} ${step}`);

describe('act now', () => {
  it('goes to the keeper at once, in the middle of quiet hours', () => {
    expect(isQuiet(keeper, frost.raisedMs)).toBe(true);
    expect(steps(frost, '2027-01-09T02:10:00Z')).toEqual(['keeper first']);
  });

  it('goes to the tutor after a quarter of an hour without an answer, and not a second before', () => {
    expect(steps(frost, '2027-01-09T02:24:59Z')).toEqual(['keeper first']);
    expect(steps(frost, '2027-01-09T02:25:00Z')).toEqual(['keeper first', 'tutor escalation']);
  });

  it('stays with the keeper who has acknowledged it', () => {
    const taken = { ...frost, acknowledgedMs: at('2027-01-09T02:20:00Z') };
    expect(steps(taken, '2027-01-09T09:00:00Z')).toEqual(['keeper first']);
  });

  it('is said again every hour to everyone told, until it is over, and the end is told once the night is', () => {
    expect(steps(frost, '2027-01-09T03:10:00Z')).toEqual([
      'keeper first',
      'tutor escalation',
      'keeper again-1',
      'tutor again-1',
    ]);
    const over = { ...frost, clearedMs: at('2027-01-09T09:30:00Z') };
    const all = steps(over, '2027-01-09T12:00:00Z');
    expect(all).toContain('keeper again-7');
    expect(all).not.toContain('keeper again-8');
    expect(all).toContain('tutor over');
    expect(steps({ ...frost, clearedMs: at('2027-01-09T02:40:00Z') }, '2027-01-09T12:00:00Z')).not.toContain(
      'keeper over',
    );
  });

  it('goes to the tutors at once when nobody looks after the animal', () => {
    expect(
      tellings({ ...frost, animalId: 'stray' }, [keeper, tutor], frost.raisedMs).map((one) => one.personId),
    ).toEqual(['tutor']);
  });
});

describe('look today', () => {
  const look: TellableNotice = { ...frost, level: 'look-today', raisedMs: at('2027-01-09T10:00:00Z') };
  it('waits for the next digest of the same day', () => {
    expect(steps(look, '2027-01-09T16:59:59Z')).toEqual([]);
    expect(steps(look, '2027-01-09T17:00:00Z')).toEqual(['keeper digest']);
  });
  it('is dropped from the digest when it is over or acknowledged before', () => {
    expect(steps({ ...look, clearedMs: at('2027-01-09T15:00:00Z') }, '2027-01-10T12:00:00Z')).toEqual([]);
    expect(steps({ ...look, acknowledgedMs: at('2027-01-09T15:00:00Z') }, '2027-01-10T12:00:00Z')).toEqual([]);
  });
  it('keeps the wall clock through both clock changes', () => {
    expect(new Date(nextDigestMs(keeper, at('2026-10-24T18:00:00Z'))).toISOString()).toBe('2026-10-25T08:00:00.000Z');
    expect(new Date(nextDigestMs(keeper, at('2027-03-27T18:00:00Z'))).toISOString()).toBe('2027-03-28T07:00:00.000Z');
  });
  it('never sends a digest in quiet hours', () => {
    const early: Listener = { ...keeper, digestsMin: [6 * 60, 12 * 60] };
    expect(new Date(nextDigestMs(early, at('2027-01-09T01:00:00Z'))).toISOString()).toBe('2027-01-09T12:00:00.000Z');
  });
});

it('for the record is not sent', () => {
  expect(steps({ ...frost, level: 'for-the-record' }, '2027-02-01T00:00:00Z')).toEqual([]);
});

describe('asking at any times', () => {
  it('never takes back what was due, and never names the same step twice', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('act-now' as const, 'look-today' as const),
        fc.integer({ min: 0, max: 200_000 }),
        fc.integer({ min: 0, max: 200_000 }),
        fc.option(fc.integer({ min: 0, max: 200_000 }), { nil: undefined }),
        (level, first, more, clearedS) => {
          // What is over is only known once it is over: an earlier question sees an open notice.
          const seen = (nowS: number): TellableNotice => ({
            ...frost,
            level,
            ...(clearedS !== undefined && clearedS <= nowS ? { clearedMs: frost.raisedMs + clearedS * 1000 } : {}),
          });
          const ask = (nowS: number) =>
            tellings(seen(nowS), [keeper, tutor], frost.raisedMs + nowS * 1000).map(
              (one) => `${one.personId} ${one.step}`,
            );
          const early = ask(first);
          const late = ask(first + more);
          expect(new Set(late).size).toBe(late.length);
          for (const one of early) expect(late).toContain(one);
        },
      ),
    );
  });
});

describe('quiet hours on the day of a clock change', () => {
  it.each([
    ['2027-03-28T05:59:00Z', true], // 06:59 by the clock that has gone forward
    ['2027-03-28T06:00:00Z', false],
    ['2026-10-25T06:59:00Z', true], // 06:59 by the clock that has gone back
    ['2026-10-25T07:00:00Z', false],
  ])('%s: %s', (instant, quiet) => {
    expect(isQuiet(keeper, at(instant))).toBe(quiet);
  });
});

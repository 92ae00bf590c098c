import { describe, expect, it } from 'vitest';
import { sayWhen } from '../../src/web/ahead/when.ts';

const LONDON = 'Europe/London';
const HOBART = 'Australia/Hobart';
const at = (text: string) => Date.parse(text);

describe('an instant of the next days as one says it', () => {
  // A Wednesday.
  const noon = at('2026-11-25T12:00:00Z');
  it.each([
    ['2026-11-25T15:10:00Z', 'today about 15:00'],
    ['2026-11-25T18:00:00Z', 'tonight about 18:00'],
    ['2026-11-26T04:40:00Z', 'tonight about 05:00'],
    ['2026-11-26T08:59:00Z', 'tomorrow about 09:00'],
    ['2026-11-26T15:00:00Z', 'tomorrow about 15:00'],
    ['2026-11-27T04:00:00Z', 'on Friday about 04:00'],
  ])('%s is %s', (instant, words) => {
    expect(sayWhen(at(instant), noon, LONDON)).toBe(words);
  });

  it('goes by the clock of the keeper', () => {
    expect(sayWhen(at('2026-11-25T18:00:00Z'), noon, HOBART)).toBe('tonight about 05:00');
    expect(sayWhen(at('2026-06-24T19:00:00Z'), at('2026-06-24T02:00:00Z'), HOBART)).toBe('tonight about 05:00');
  });

  it('does not call the night after next tonight when it is asked before dawn', () => {
    expect(sayWhen(at('2026-11-26T04:00:00Z'), at('2026-11-25T02:00:00Z'), LONDON)).toBe('tomorrow about 04:00');
    expect(sayWhen(at('2026-11-25T05:00:00Z'), at('2026-11-25T02:00:00Z'), LONDON)).toBe('today about 05:00');
  });
});

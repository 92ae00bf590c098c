import { describe, expect, it } from 'vitest';
import { EXAMINATION_PARTS, findingsFor, judgePart } from '../../src/tortoise/examination.ts';
import { FINDINGS } from '../../src/tortoise/examination-table.ts';
import type { ExaminationMoment } from '../../src/tortoise/types.ts';
import { say } from '../../src/wording/say.ts';

const moments: ExaminationMoment[] = ['before', 'asleep', 'waking'];

describe('guided examination', () => {
  it('covers every part before sleep, while asleep and on waking, the clear answer first', () => {
    for (const part of EXAMINATION_PARTS)
      for (const moment of moments) {
        const rows = findingsFor(part, moment);
        // Nobody opens the mouth of a sleeping animal.
        if (part === 'mouth' && moment === 'asleep') expect(rows).toEqual([]);
        else {
          expect(rows[0], `${part} ${moment}`).toMatchObject({ code: 'clear', [moment]: 'passes' });
          expect(
            rows.some((row) => row[moment] === 'fails'),
            `${part} ${moment}`,
          ).toBe(true);
        }
      }
  });

  it('each answer says what it means and what to do, and has a source', () => {
    for (const row of FINDINGS)
      for (const moment of moments) {
        if (row[moment] === undefined) continue;
        const judged = judgePart(row.part, { [row.part]: row.code }, moment);
        expect(judged.state).toBe(row[moment]);
        expect(say(judged.reason).length).toBeGreaterThan(5);
        expect(say(judged.advice).length).toBeGreaterThan(5);
        expect(judged.source.cite.length).toBeGreaterThan(5);
      }
  });

  it('of several findings the worst counts', () => {
    expect(judgePart('droppings', { droppings: ['loose', 'worms'] }, 'before').state).toBe('fails');
    expect(judgePart('droppings', { droppings: ['clear', 'loose'] }, 'before').state).toBe('borderline');
  });

  it('a part not looked at is not yet known', () => {
    expect(judgePart('eyes', {}, 'before').state).toBe('not-yet-known');
  });

  it('urine passed asleep ends the hibernation', () => {
    expect(say(judgePart('droppings', { droppings: 'urine' }, 'asleep').advice)).toContain('End the hibernation now');
  });

  it('closed eyes are no finding while asleep', () => {
    expect(() => judgePart('eyes', { eyes: 'closed' }, 'asleep')).toThrow(RangeError);
    expect(judgePart('eyes', { eyes: 'closed' }, 'before').state).toBe('fails');
  });
});

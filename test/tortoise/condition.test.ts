import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  expectedMassG,
  jacksonRatio,
  judgeCondition,
  ownExpectedMassG,
  sizeCurveFor,
} from '../../src/tortoise/condition.ts';
import { JACKSON_LINE, PRESPA_LINES } from '../../src/tortoise/condition-table.ts';
import type { SizeRecord } from '../../src/tortoise/types.ts';
import { say } from '../../src/wording/say.ts';

const ask = (change: Partial<Parameters<typeof judgeCondition>[0]> = {}) =>
  judgeCondition({
    species: 'Testudo graeca',
    sex: 'unknown',
    massG: 1300,
    sclMm: 180,
    onDay: '2026-09-20',
    weightNormal: true,
    ...change,
  });
/** The mass that has the condition index `ci` on Jackson's line at 180 mm. */
const at = (ci: number) => expectedMassG(JACKSON_LINE, 180) * 10 ** ci;
const days = (massG: number, sclMm = 180): SizeRecord[] =>
  ['2026-09-12', '2026-09-16'].map((day) => ({ day, massG, sclMm }));

describe('condition', () => {
  it.each([
    ['well inside', -0.05, 'passes', 'normal'],
    ['just outside the open zone, inside', -0.082, 'passes', 'normal'],
    ['inside, too near the limit', -0.095, 'borderline', 'normal'],
    ['outside, too near the limit, though the ratio is not seriously light', -0.105, 'borderline', 'light'],
    ['outside by more than the noise of a weighing', -0.118, 'fails', 'seriously-light'],
    ['outside, and seriously light by the ratio too, however near', -0.152, 'fails', 'seriously-light'],
    ['far outside', -0.2, 'fails', 'seriously-light'],
    ['average', 0, 'passes', 'normal'],
    ['high but normal', 0.099, 'passes', 'normal'],
    ['heavier than nearly all', 0.101, 'borderline', 'heavy'],
  ])('%s (CI %f): %s', (_, ci, state, band) => {
    expect(ask({ massG: at(ci) })).toMatchObject({ state, band });
  });

  it('three weighings decide where one could not, on both sides of the limit', () => {
    expect(ask({ massG: at(-0.095), earlier: days(at(-0.095)) })).toMatchObject({ state: 'passes', weighings: 3 });
    expect(ask({ massG: at(-0.105), earlier: days(at(-0.105)) })).toMatchObject({ state: 'fails', weighings: 3 });
  });

  it('near the limit Jackson’s bands settle it where they say the same', () => {
    // 650 g at 150 mm: ratio 0.193, 81 % of the females of Lake Prespa.
    const small = ask({ species: 'Testudo hermanni', sex: 'female', massG: 650, sclMm: 150 });
    expect(small.jacksonRatio).toBeCloseTo(0.1926, 4);
    expect(small.state).toBe('passes');
    const light = ask({ species: 'Testudo hermanni', sex: 'female', massG: 1696, sclMm: 222 });
    expect(light).toMatchObject({ state: 'fails', band: 'seriously-light', jacksonBand: 'seriously-light' });
  });

  it('says when ratio and curve disagree, and lets the curve decide', () => {
    const large = ask({ massG: 2400, sclMm: 240 });
    expect(large).toMatchObject({ state: 'passes', jacksonBand: 'light' });
    expect(large.notes.map((note) => say(note)).join(' ')).toContain('disagree');
    expect(ask().notes.map((note) => note.key)).not.toContain('tortoise.condition.disagree');
  });

  it('gives no Jackson verdict for other species and says so', () => {
    const horsfield = ask({ species: 'Testudo horsfieldii', massG: 700, sclMm: 150 });
    expect(horsfield.jacksonBand).toBeUndefined();
    expect(horsfield.conditionIndex).toBeUndefined();
    expect(horsfield.notes.map((note) => note.key)).toContain('tortoise.condition.noJackson');
    expect(horsfield).toMatchObject({ band: 'no-verdict', state: 'passes' });
    expect(ask({ species: 'Testudo horsfieldii', massG: 700, sclMm: 150, weightNormal: undefined }).state).toBe(
      'not-yet-known',
    );
    expect(ask({ species: 'Testudo marginata', massG: 700, sclMm: 150, weightNormal: false }).state).toBe('borderline');
  });

  it('judges another species by its own earlier weighings, carried to the new length', () => {
    const before: SizeRecord[] = [{ day: '2025-09-20', massG: 900, sclMm: 150 }];
    const expected = ownExpectedMassG(before[0]!, 165);
    const own = (share: number) =>
      ask({ species: 'Testudo horsfieldii', massG: expected * share, sclMm: 165, earlier: before }).state;
    expect(own(1)).toBe('passes');
    expect(own(0.84)).toBe('passes');
    expect(own(0.8)).toBe('borderline');
    expect(own(0.75)).toBe('fails');
  });

  it('a fall against its own record counts though the size curve is content', () => {
    const earlier: SizeRecord[] = [{ day: '2025-09-20', massG: at(0.09), sclMm: 180 }];
    expect(ask({ massG: at(-0.06), earlier })).toMatchObject({ state: 'fails', band: 'light' });
  });

  it('does not carry the size curve down to hatchlings, whose ratio runs high', () => {
    expect(sizeCurveFor('Testudo hermanni', 'female', 40)).toBeUndefined();
    expect(ask({ massG: 15, sclMm: 40 })).toMatchObject({ state: 'passes', band: 'normal' });
    expect(ask({ massG: 10.9, sclMm: 40 })).toMatchObject({ state: 'borderline' });
    expect(ask({ massG: 10.2, sclMm: 40 })).toMatchObject({ state: 'fails' });
  });

  it('uses the line of the sex for Testudo hermanni only where it was measured', () => {
    expect(sizeCurveFor('Testudo hermanni', 'female', 150)).toBe(PRESPA_LINES.female);
    expect(sizeCurveFor('Testudo hermanni', 'female', 149)).toBe(JACKSON_LINE);
    expect(sizeCurveFor('Testudo hermanni', 'male', 250)).toBe(PRESPA_LINES.male);
    expect(sizeCurveFor('Testudo hermanni', 'male', 251)).toBe(JACKSON_LINE);
    expect(sizeCurveFor('Testudo hermanni', 'unknown', 180)).toBe(JACKSON_LINE);
    expect(sizeCurveFor('Testudo graeca', 'female', 180)).toBe(JACKSON_LINE);
    expect(sizeCurveFor('Testudo marginata', 'female', 180)).toBeUndefined();
  });

  it('up to the average a heavier animal is never judged worse', () => {
    const rank = { fails: 0, borderline: 1, 'not-yet-known': 1, passes: 2 };
    fc.assert(
      fc.property(
        fc.double({ min: 110, max: 256, noNaN: true }),
        fc.double({ min: -0.3, max: 0, noNaN: true }),
        fc.double({ min: -0.3, max: 0, noNaN: true }),
        fc.constantFrom('Testudo graeca', 'Testudo hermanni'),
        fc.constantFrom('female' as const, 'male' as const, 'unknown' as const),
        (sclMm, a, b, species, sex) => {
          const mean = expectedMassG(sizeCurveFor(species, sex, sclMm)!, sclMm);
          const judge = (ci: number) => rank[ask({ species, sex, sclMm, massG: mean * 10 ** ci }).state];
          expect(judge(Math.max(a, b))).toBeGreaterThanOrEqual(judge(Math.min(a, b)));
        },
      ),
    );
  });

  it('the ratio falls as the eighth of a doubled length', () => {
    expect(jacksonRatio(1000, 200) * 8).toBeCloseTo(jacksonRatio(1000, 100), 12);
  });

  it('a later weighing than the day asked for is left out', () => {
    expect(ask({ earlier: [{ day: '2026-10-01', massG: 500, sclMm: 180 }] })).toMatchObject({
      weighings: 1,
      state: 'passes',
    });
  });
});

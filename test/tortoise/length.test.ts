import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hibernationLength, type LengthQuestion, lengthClassOf } from '../../src/tortoise/length.ts';
import { LENGTHS } from '../../src/tortoise/length-table.ts';
import { SPECIES } from '../../src/tortoise/species-table.ts';
import type { LengthAdvice, LengthClass } from '../../src/tortoise/types.ts';
import { say } from '../../src/wording/say.ts';

const ask = (change: Partial<LengthQuestion> = {}) =>
  hibernationLength({ species: 'Testudo hermanni', sclMm: 180, ageYears: 14, advice: 'common-practice', ...change });
const advices: LengthAdvice[] = ['uk-joint-2016', 'german-chamber', 'common-practice'];

describe('class of an animal', () => {
  it.each<[string, Partial<LengthQuestion>, LengthClass]>([
    ['under a year', { ageYears: 0.99, sclMm: 60 }, 'first-winter'],
    ['a year', { ageYears: 1, sclMm: 60 }, 'second-third-winter'],
    ['just under three', { ageYears: 2.99, sclMm: 90 }, 'second-third-winter'],
    ['three', { ageYears: 3, sclMm: 90 }, 'juvenile'],
    ['three, though large', { ageYears: 3, sclMm: 130 }, 'juvenile'],
    ['four and grown', { ageYears: 4, sclMm: 120 }, 'adult'],
    ['four, a millimetre short of grown', { ageYears: 4, sclMm: 119 }, 'juvenile'],
    ['nine and small', { ageYears: 9, sclMm: 110 }, 'juvenile'],
    ['ten and small', { ageYears: 10, sclMm: 110 }, 'adult'],
    ['forty-nine', { ageYears: 49.9 }, 'adult'],
    ['fifty', { ageYears: 50 }, 'elderly'],
    ['54 mm whatever its years', { ageYears: 5, sclMm: 54 }, 'first-winter'],
    ['55 mm', { ageYears: 5, sclMm: 55 }, 'juvenile'],
    ['called adult, grown', { ageYears: undefined, ageClass: 'adult' }, 'adult'],
    ['called adult, too small for it', { ageYears: undefined, ageClass: 'adult', sclMm: 100 }, 'juvenile'],
    ['called elderly', { ageYears: undefined, ageClass: 'elderly' }, 'elderly'],
    ['called a hatchling', { ageYears: undefined, ageClass: 'hatchling', sclMm: 70 }, 'first-winter'],
    ['called juvenile', { ageYears: undefined, ageClass: 'juvenile', sclMm: 150 }, 'juvenile'],
  ])('%s', (_, change, expected) => {
    expect(lengthClassOf({ species: 'Testudo hermanni', sclMm: 180, ageYears: 14, ...change })).toBe(expected);
  });
});

describe('length of hibernation', () => {
  it.each<[LengthAdvice, number, number, number, number]>([
    // advice, age, SCL, suggested, ceiling
    ['uk-joint-2016', 0, 45, 0, 0],
    ['uk-joint-2016', 1, 70, 28, 42],
    ['uk-joint-2016', 3, 100, 35, 42],
    ['uk-joint-2016', 14, 180, 84, 91],
    ['german-chamber', 0, 45, 42, 56],
    ['german-chamber', 1, 70, 42, 56],
    ['german-chamber', 14, 180, 91, 91],
    ['common-practice', 0, 45, 14, 21],
    ['common-practice', 1, 70, 28, 42],
    ['common-practice', 3, 100, 35, 42],
    ['common-practice', 60, 200, 35, 42],
    ['common-practice', 14, 180, 84, 91],
  ])('%s, %f years, %f mm: %i days, never more than %i', (advice, ageYears, sclMm, suggested, ceiling) => {
    expect(ask({ advice, ageYears, sclMm })).toMatchObject({
      suggestedDays: suggested,
      ceilingDays: ceiling,
      advice,
    });
  });

  it('the row for every advice and class exists, in order and under thirteen weeks', () => {
    expect(LENGTHS).toHaveLength(15);
    for (const row of LENGTHS) {
      expect(row.shortestDays).toBeLessThanOrEqual(row.suggestedDays);
      expect(row.suggestedDays).toBeLessThanOrEqual(row.ceilingDays);
      expect(row.ceilingDays).toBeLessThanOrEqual(91);
    }
  });

  it('a hesitant keeper begins with five days, the ceiling stays', () => {
    expect(ask({ hesitantKeeper: true })).toMatchObject({ suggestedDays: 5, shortestDays: 5, ceilingDays: 91 });
    expect(ask({ hesitantKeeper: true, species: 'unknown' }).suggestedDays).toBe(0);
    expect(ask({ hesitantKeeper: true, ageYears: 0, sclMm: 45, advice: 'uk-joint-2016' }).suggestedDays).toBe(0);
  });

  it('a grown animal that has never slept gets six weeks first', () => {
    expect(ask({ wintersSlept: 0 }).suggestedDays).toBe(42);
    expect(ask({ wintersSlept: 1 }).suggestedDays).toBe(84);
  });

  it('follows what a source says of one kind', () => {
    expect(ask({ species: 'Testudo horsfieldii' })).toMatchObject({ suggestedDays: 56, ceilingDays: 91 });
    expect(ask({ species: 'Testudo graeca graeca' })).toMatchObject({ suggestedDays: 42, ceilingDays: 42 });
  });

  it('names the longer published ceiling it does not follow', () => {
    expect(
      ask({ advice: 'german-chamber' })
        .reasons.map((reason) => say(reason))
        .join(' '),
    ).toContain('five months');
  });

  it('never passes thirteen weeks, is 0 for kinds that never sleep, and suggests within its ceiling', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SPECIES),
        fc.double({ min: 0, max: 120, noNaN: true }),
        fc.double({ min: 30, max: 400, noNaN: true }),
        fc.constantFrom(...advices),
        fc.boolean(),
        fc.option(fc.nat(30), { nil: undefined }),
        (species, ageYears, sclMm, advice, hesitantKeeper, wintersSlept) => {
          const found = ask({ species: species.name, ageYears, sclMm, advice, hesitantKeeper, wintersSlept });
          expect(found.ceilingDays).toBeLessThanOrEqual(91);
          expect(found.shortestDays).toBeLessThanOrEqual(found.suggestedDays);
          expect(found.suggestedDays).toBeLessThanOrEqual(found.ceilingDays);
          if (species.hibernation === 'never' || species.hibernation === 'unidentified')
            expect(found.ceilingDays).toBe(0);
          expect(found.reasons.map((reason) => say(reason)).join('')).not.toContain('{{');
        },
      ),
    );
  });

  it('the UK advice, the default, never suggests more than the others for an animal in its first three winters', () => {
    for (const [ageYears, sclMm] of [
      [0, 45],
      [1, 70],
      [2, 85],
    ] as const)
      for (const advice of advices)
        expect(ask({ advice: 'uk-joint-2016', ageYears, sclMm }).suggestedDays).toBeLessThanOrEqual(
          ask({ advice, ageYears, sclMm }).suggestedDays,
        );
  });
});

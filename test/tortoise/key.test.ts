import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { identify } from '../../src/tortoise/key.ts';
import { CHARACTERS, type Character, KEY, type Seen } from '../../src/tortoise/key-table.ts';
import { findSpecies } from '../../src/tortoise/species.ts';
import { say } from '../../src/wording/say.ts';

const seenArbitrary = fc.record(
  Object.fromEntries(
    (Object.keys(CHARACTERS) as Character[]).map((character) => [
      character,
      fc.option(fc.constantFrom(...CHARACTERS[character]), { nil: undefined }),
    ]),
  ),
) as fc.Arbitrary<Seen>;

describe('identification key', () => {
  it.each<[string, string, Seen]>([
    [
      'a divided supracaudal, tail nail, no spur, two bands',
      'Testudo hermanni',
      { supracaudal: 'divided', thighSpurs: 'none', tailNail: 'present', plastronPattern: 'broken-bands' },
    ],
    [
      'four claws, tail nail, flat and round, no hinge',
      'Testudo horsfieldii',
      { foreClaws: 'four', tailNail: 'present', shellShape: 'round-flat', plastronHinge: 'fixed' },
    ],
    [
      'a flared rear edge and triangles',
      'Testudo marginata',
      { rearMarginals: 'flared', plastronPattern: 'triangles', shellShape: 'long', supracaudal: 'whole' },
    ],
    [
      'no nuchal, big thigh spurs, plain',
      'Centrochelys sulcata',
      { nuchal: 'absent', thighSpurs: 'large', topPattern: 'plain', plastronPattern: 'plain' },
    ],
    [
      'a hinge in the carapace',
      'Kinixys',
      {
        carapaceHinge: 'present',
        thighSpurs: 'none',
        shellShape: 'long',
        plastronHinge: 'fixed',
        topPattern: 'blotches',
      },
    ],
  ])('knows %s as %s', (_, name, seen) => {
    expect(identify(seen).certain).toBe(name);
  });

  it('does not tell the Balkan from the North African spur-thighed animal by shape alone, and says what separates them', () => {
    const found = identify({
      supracaudal: 'whole',
      thighSpurs: 'one-each-side',
      tailNail: 'absent',
      plastronHinge: 'movable',
      vertebrals: 'wide',
      plastronPattern: 'blotches',
    });
    expect(found.certain).toBeUndefined();
    expect(found.possible.map((each) => each.taxon)).toEqual(
      expect.arrayContaining(['Testudo graeca ibera', 'Testudo graeca graeca']),
    );
    expect(found.separating).toContain('rearMarginals');
    expect(found.allHibernate).toBe(false);
  });

  it('an undivided supracaudal does not exclude Testudo hermanni', () => {
    const found = identify({ supracaudal: 'whole', thighSpurs: 'none', tailNail: 'present' });
    expect(found.possible.map((each) => each.taxon)).toContain('Testudo hermanni boettgeri');
    expect(found.certain).toBeUndefined();
  });

  it('a tail nail alone leaves Indotestudo possible', () => {
    expect(identify({ tailNail: 'present', supracaudal: 'whole' }).possible.map((each) => each.taxon)).toContain(
      'Indotestudo elongata',
    );
  });

  it('spur and tail nail together are not certain, whatever else fits', () => {
    fc.assert(
      fc.property(seenArbitrary, fc.constantFrom('one-each-side' as const, 'large' as const), (seen, thighSpurs) => {
        const found = identify({ ...seen, tailNail: 'present', thighSpurs });
        expect(found.certain).toBeUndefined();
        expect(found.allHibernate).toBe(false);
      }),
    );
  });

  it('without a nuchal scute nothing that hibernates remains possible', () => {
    fc.assert(
      fc.property(seenArbitrary, (seen) => {
        for (const each of identify({ ...seen, nuchal: 'absent' }).possible) expect(each.hibernation).toBe('never');
      }),
    );
  });

  it('with nothing seen everything is possible and nothing certain', () => {
    const found = identify({});
    expect(found.possible).toHaveLength(KEY.length);
    expect(found.certain).toBeUndefined();
    expect(found.separating.length).toBeGreaterThan(5);
  });

  it('one character is never certain', () => {
    for (const character of Object.keys(CHARACTERS) as Character[])
      for (const answer of CHARACTERS[character])
        expect(identify({ [character]: answer } as Seen).certain, `${character} ${answer}`).toBeUndefined();
  });

  it('every row is a taxon of the species table, with shares for each answer that add to 100', () => {
    for (const row of KEY) {
      expect(findSpecies(row.taxon), row.taxon).toBeDefined();
      for (const [character, shares] of Object.entries(row.shares)) {
        expect(shares, `${row.taxon} ${character}`).toHaveLength(CHARACTERS[character as Character].length);
        expect(
          shares.reduce((sum, each) => sum + each, 0),
          `${row.taxon} ${character}`,
        ).toBe(100);
      }
    }
  });

  it('each character has a question and each answer its words', () => {
    for (const character of Object.keys(CHARACTERS) as Character[]) {
      expect(say(`tortoise.key.ask.${character}`)).toMatch(/\?$/);
      for (const answer of CHARACTERS[character])
        expect(say(`tortoise.key.answer.${character}.${answer}` as Parameters<typeof say>[0])).toMatch(/^[A-Z]/);
    }
  });
});

import { describe, expect, it } from 'vitest';
import { findSpecies, mayEverHibernate, nearestSpecies } from '../../src/tortoise/species.ts';
import { SPECIES } from '../../src/tortoise/species-table.ts';

describe('species table', () => {
  it('holds at least eighteen taxa, each once and with a source', () => {
    const taxa = SPECIES.filter((row) => row.hibernation !== 'unidentified');
    expect(taxa.length).toBeGreaterThanOrEqual(18);
    expect(new Set(SPECIES.map((row) => row.name)).size).toBe(SPECIES.length);
    for (const row of SPECIES) expect(row.source.cite.length, row.name).toBeGreaterThan(5);
  });

  it.each([
    'Testudo hermanni',
    'Testudo hermanni hermanni',
    'Testudo hermanni boettgeri',
    'Testudo graeca',
    'Testudo graeca ibera',
    'Testudo ibera',
    'Testudo horsfieldii',
    'Testudo marginata',
    'Gopherus agassizii',
    'Gopherus morafkai',
  ])('%s hibernates', (name) => {
    expect(findSpecies(name)?.hibernation).toBe('hibernates');
    expect(mayEverHibernate(name)).toBe(true);
  });

  it.each([
    'Testudo kleinmanni',
    'Stigmochelys pardalis',
    'Centrochelys sulcata',
    'Chelonoidis carbonarius',
    'Chelonoidis denticulatus',
    'Geochelone elegans',
    'Kinixys belliana',
    'Malacochersus tornieri',
    'Indotestudo elongata',
    'Astrochelys radiata',
    'unknown',
    'hybrid',
    'Testudo hermani',
    '',
  ])('"%s" never gets a plan to sleep', (name) => {
    expect(mayEverHibernate(name)).toBe(false);
  });

  it('asks for the form of a North African lowland animal first, and then six weeks at most', () => {
    expect(findSpecies('Testudo graeca graeca')).toMatchObject({ hibernation: 'identify-first', longestDays: 42 });
  });

  it.each([
    ['Testudo hermani', 'Testudo hermanni'],
    ['testudo horsfeldi', 'Testudo horsfieldii'],
    ['Hermann’s tortoise', 'Testudo hermanni'],
    ['leopard tortoise', 'Stigmochelys pardalis'],
    ['sulcata', 'Centrochelys sulcata'],
  ])('%s is nearest to %s', (typed, meant) => {
    expect(nearestSpecies(typed)[0]).toBe(meant);
  });

  it('names nothing when nothing is near', () => {
    expect(nearestSpecies('goldfish bowl 7')).toEqual([]);
  });

  it('knows a name whatever its capitals and spaces', () => {
    expect(findSpecies('  testudo   HERMANNI ')?.name).toBe('Testudo hermanni');
  });
});

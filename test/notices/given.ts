import type { Database } from '../../src/records/database.ts';
import { make, type Scope } from '../../src/records/entries.ts';
import { BOX, MEASUREMENT, PLACE, PROBE, STAY } from '../../src/records/kinds.ts';
import { appendReadings } from '../../src/records/readings.ts';
import { GROUP, id, SEDGE, smallGroup } from '../records/given.ts';

/** Ids of the scene. */
export const TUTOR = id(20);
export const KEEPER = id(21);
export const BOX_PROBE = id(30);
export const SLEEP_FROM_MS = Date.parse('2026-12-01T12:00:00Z');

/**
 * Sedge asleep since 1 December at noon in a fish box in the shed, a probe every ten minutes; a keeper who looks after her, and a tutor.
 * Nothing here has happened anywhere.
 */
export async function sleepingSedge(database: Database): Promise<void> {
  await smallGroup(database);
  const person = (personId: string, role: 'tutor' | 'keeper') => ({
    id: personId,
    groupId: GROUP.id,
    name: role,
    signInName: role,
    role,
    passphraseHash: 'none',
    createdAtMs: SLEEP_FROM_MS,
    removedAtMs: null,
  });
  await database.kysely
    .insertInto('people')
    .values([person(TUTOR, 'tutor'), person(KEEPER, 'keeper')])
    .execute();
  await database.kysely.updateTable('animals').set({ keeperId: KEEPER }).where('id', '=', SEDGE.id).execute();
  const scope = scopeAt(SLEEP_FROM_MS + 1000);
  await make(database, scope, PLACE, {
    id: id(10),
    name: 'Tool shed',
    description: { kind: 'building', preset: 'timber-shed' },
  });
  await make(database, scope, BOX, {
    id: id(11),
    name: 'Fish box',
    placeId: id(10),
    description: {
      shells: [
        {
          insideLengthMm: 500,
          insideWidthMm: 350,
          insideHeightMm: 280,
          walls: [{ material: 'polystyrene', thicknessMm: 30 }],
        },
      ],
    },
  });
  await make(database, scope, PROBE, {
    id: BOX_PROBE,
    name: 'In the fish box',
    boxId: id(11),
    offsetC: 0,
    expectedIntervalS: 600,
  });
  await make(database, scope, MEASUREMENT, {
    id: id(40),
    animalId: SEDGE.id,
    at: new Date(SLEEP_FROM_MS).toISOString(),
    massG: 812,
    kind: 'start',
  });
  await make(database, scope, STAY, {
    id: id(12),
    animalId: SEDGE.id,
    boxId: id(11),
    placeId: id(10),
    fromDay: '2026-12-01',
  });
}

export const scopeAt = (nowMs: number): Scope => ({ groupId: GROUP.id, personId: null, nowMs });

/** Stores readings of the box, one every ten minutes from an instant. */
export async function readBox(database: Database, fromMs: number, temperatures: readonly number[]): Promise<number> {
  const readings = temperatures.map((tempC, number) => ({
    probeId: BOX_PROBE,
    at: new Date(fromMs + number * 600_000).toISOString(),
    tempC,
    quality: 'good' as const,
    source: 'mqtt' as const,
  }));
  await appendReadings(database, scopeAt(fromMs + temperatures.length * 600_000), readings);
  return fromMs + (temperatures.length - 1) * 600_000;
}

/** Empties the tables a scene touches, children first, so that tests can share one database. */
export async function emptied(database: Database): Promise<void> {
  for (const table of [
    'deliveries',
    'channels',
    'listenings',
    'notices',
    'readings',
    'readingHours',
    'readingCorrections',
    'maxMinReadings',
    'batteryLevels',
    'probeNumbers',
    'probes',
    'measurements',
    'diaryEntries',
    'stays',
    'boxes',
    'places',
    'animals',
    'people',
    'changes',
    'settings',
    'groups',
  ] as const)
    await database.kysely.deleteFrom(table).execute();
}

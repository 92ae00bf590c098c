import type { Database } from '../../src/records/database.ts';
import { make, type Scope } from '../../src/records/entries.ts';
import { saveGroup } from '../../src/records/groups.ts';
import { ANIMAL, PROBE } from '../../src/records/kinds.ts';
import type { Animal } from '../../src/schema/animal.ts';
import type { Group } from '../../src/schema/group.ts';

export const NOW_MS = Date.parse('2026-12-10T12:00:00Z');

/** An identifier that a test can write and read: `id(1)`. */
export const id = (number: number): string => `01980d2e-7c00-7000-8000-${String(number).padStart(12, '0')}`;

export const GROUP: Group = {
  id: id(1),
  name: 'Orchard End',
  zone: 'Europe/London',
  latitudeDeg: 52,
  longitudeDeg: -1,
  temperatureUnit: 'C',
  massUnit: 'g',
  lengthUnit: 'mm',
  lengthAdvice: 'uk-joint-2016',
};
export const SCOPE: Scope = { groupId: GROUP.id, personId: null, nowMs: NOW_MS };
export const SEDGE: Animal = { id: id(2), name: 'Sedge', species: 'Testudo hermanni boettgeri', sex: 'female' };

/** A group with one animal and one outdoor probe `id(3)`. */
export async function smallGroup(database: Database): Promise<void> {
  await saveGroup(database, GROUP, null, NOW_MS);
  await make(database, SCOPE, ANIMAL, SEDGE);
  await make(database, SCOPE, PROBE, {
    id: id(3),
    name: 'Outdoors',
    outdoors: true,
    offsetC: 0,
    expectedIntervalS: 600,
  });
}

export const SHED = { id: id(50), name: 'Shed', description: { kind: 'building', preset: 'timber-shed' } } as const;
export const FISH_BOX = {
  id: id(51),
  name: 'Fish box',
  placeId: SHED.id,
  description: {
    shells: [
      {
        insideLengthMm: 500,
        insideWidthMm: 350,
        insideHeightMm: 300,
        walls: [{ material: 'polystyrene' as const, thicknessMm: 30 }],
      },
    ],
  },
};

import { index, type Migration, table } from './build.ts';

/** How warm an animal was after its last meal. */
export const gutWarmth: Migration = {
  name: '0008-gut-warmth',
  async up(kysely, kind) {
    await table(kysely, kind, 'gutWarmths', {
      id: 'text!',
      groupId: 'text! -> groups.id',
      revision: 'integer!',
      recordedBy: 'text',
      recordedAtMs: 'integer!',
      changedBy: 'text',
      changedAtMs: 'integer!',
      deletedAtMs: 'integer',
      animalId: 'text! -> animals.id',
      atMs: 'integer!',
      mealDay: 'text!',
      lampHours: 'real!',
      lampBodyTempC: 'real!',
      nightTempC: 'real!',
      probeId: 'text -> probes.id',
    });
    await index(kysely, 'gut_warmths_animal', 'gutWarmths', ['animalId', 'atMs']);
  },
};

import type { Migration } from './build.ts';

/** Why a stay ended, and the diary entry that ended it. */
export const endOfStay: Migration = {
  name: '0007-end-of-stay',
  async up(kysely) {
    await kysely.schema.alterTable('stays').addColumn('endReason', 'text').execute();
    await kysely.schema.alterTable('stays').addColumn('endEntryId', 'text').execute();
  },
};

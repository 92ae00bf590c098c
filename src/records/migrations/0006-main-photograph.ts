import type { Migration } from './build.ts';

/** The photograph an animal is shown by. */
export const mainPhotograph: Migration = {
  name: '0006-main-photograph',
  async up(kysely) {
    await kysely.schema.alterTable('animals').addColumn('photographId', 'text').execute();
  },
};

import type { Migration } from './build.ts';

/** When and how an animal died or left. */
export const leaving: Migration = {
  name: '0011-leaving',
  async up(kysely) {
    for (const column of ['leftOn', 'leftHow', 'leftNote'])
      await kysely.schema.alterTable('animals').addColumn(column, 'text').execute();
  },
};

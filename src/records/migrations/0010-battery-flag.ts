import { sql } from 'kysely';
import { type Migration, table } from './build.ts';

/** Thermometers that say only whether the battery is low, in no per cent. SQLite can loosen no column in place, so the table is made anew. */
export const batteryFlag: Migration = {
  name: '0010-battery-flag',
  async up(kysely, kind) {
    if (kind === 'postgres') {
      await kysely.schema
        .alterTable('batteryLevels')
        .alterColumn('percent', (column) => column.dropNotNull())
        .execute();
      await kysely.schema.alterTable('batteryLevels').addColumn('low', 'bigint').execute();
      return;
    }
    await kysely.schema.alterTable('batteryLevels').renameTo('batteryLevelsBefore').execute();
    await table(
      kysely,
      kind,
      'batteryLevels',
      { probe: 'integer!', atMs: 'integer!', percent: 'integer', low: 'integer' },
      { key: ['probe', 'atMs'], withoutRowid: true },
    );
    await sql`insert into battery_levels (probe, at_ms, percent) select probe, at_ms, percent from battery_levels_before`.execute(
      kysely,
    );
    await kysely.schema.dropTable('batteryLevelsBefore').execute();
  },
};

import { type Migration, table } from './build.ts';

/** What thermometers said of their batteries. A row is never changed: a new one is added when the level has changed, or once a day. */
export const batteries: Migration = {
  name: '0009-batteries',
  async up(kysely, kind) {
    await table(
      kysely,
      kind,
      'batteryLevels',
      { probe: 'integer!', atMs: 'integer!', percent: 'integer!' },
      { key: ['probe', 'atMs'], withoutRowid: true },
    );
  },
};

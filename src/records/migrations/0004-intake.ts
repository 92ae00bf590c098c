import { index, type Migration, table } from './build.ts';

/** What came in and could not be taken. */
export const intake: Migration = {
  name: '0004-intake',
  async up(kysely, kind) {
    await table(
      kysely,
      kind,
      'quarantine',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        source: 'text!',
        sender: 'text!',
        what: 'text!',
        why: 'text!',
        firstAtMs: 'integer!',
        lastAtMs: 'integer!',
        count: 'integer!',
      },
      { unique: [['groupId', 'source', 'sender', 'why']] },
    );
    await index(kysely, 'quarantine_group', 'quarantine', ['groupId', 'lastAtMs']);
  },
};

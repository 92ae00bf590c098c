import { type Migration, table } from './build.ts';

/** Addresses that a calendar program subscribes to. */
export const calendars: Migration = {
  name: '0005-calendars',
  async up(kysely, kind) {
    await table(
      kysely,
      kind,
      'calendarLinks',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        tokenHash: 'text!',
        forWhom: 'text!',
        madeBy: 'text',
        madeAtMs: 'integer!',
        revokedAtMs: 'integer',
      },
      { unique: [['tokenHash']] },
    );
  },
};

import { index, type Migration, table } from './build.ts';

/** How people are told of notices, and every message on its way. */
export const notices: Migration = {
  name: '0003-notices',
  async up(kysely, kind) {
    await table(kysely, kind, 'channels', {
      id: 'text!',
      groupId: 'text! -> groups.id',
      personId: 'text! -> people.id',
      kind: 'text!',
      body: 'text!',
      secret: 'text',
      addedAtMs: 'integer!',
      failedAtMs: 'integer',
      lastError: 'text',
    });
    await table(kysely, kind, 'listenings', { personId: 'text! -> people.id', body: 'text!' }, { key: ['personId'] });
    await table(
      kysely,
      kind,
      'deliveries',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        noticeId: 'text!',
        personId: 'text! -> people.id',
        channelId: 'text! -> channels.id',
        step: 'text!',
        letter: 'text',
        dueAtMs: 'integer!',
        queuedAtMs: 'integer!',
        nextAtMs: 'integer!',
        leasedUntilMs: 'integer',
        attempts: 'integer!',
        sentAtMs: 'integer',
        givenUpAtMs: 'integer',
        lastError: 'text',
      },
      { unique: [['noticeId', 'channelId', 'step']] },
    );
    await index(kysely, 'channels_person', 'channels', ['personId']);
    await index(kysely, 'deliveries_open', 'deliveries', ['sentAtMs', 'givenUpAtMs', 'nextAtMs']);
    await index(kysely, 'deliveries_notice', 'deliveries', ['noticeId']);
  },
};

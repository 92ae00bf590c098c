import { sql } from 'kysely';
import { type Migration, table } from './build.ts';

const values = { tempC: 'real!', humidity: 'real', quality: 'integer!', source: 'integer!' };

/**
 * Readings, lean: a small whole number for each probe, one tree ordered by probe and instant. On PostgreSQL the readings are
 * partitioned by month; the bounds are epoch ms, so that no session's time zone can move them.
 */
export const readings: Migration = {
  name: '0002-readings',
  async up(kysely, kind) {
    const make = (name: string, columns: Record<string, string>, key: readonly string[]) =>
      table(kysely, kind, name, columns, { key, withoutRowid: true });

    await table(
      kysely,
      kind,
      'probeNumbers',
      { number: 'integer!', probeId: 'text! -> probes.id', groupId: 'text!', tokenHash: 'text' },
      { key: ['number'], unique: [['probeId']] },
    );
    if (kind === 'postgres')
      await sql`create table readings (
        probe integer not null, at_ms bigint not null, temp_c double precision not null, humidity double precision,
        quality smallint not null, source smallint not null, primary key (probe, at_ms)
      ) partition by range (at_ms)`.execute(kysely);
    else await make('readings', { probe: 'integer!', atMs: 'integer!', ...values }, ['probe', 'atMs']);
    await make(
      'readingCorrections',
      {
        probe: 'integer!',
        atMs: 'integer!',
        part: 'integer!',
        ...values,
        reason: 'text!',
        byPerson: 'text',
        recordedAtMs: 'integer!',
      },
      ['probe', 'atMs', 'part'],
    );
    await make(
      'readingHours',
      {
        probe: 'integer!',
        hour: 'integer!',
        count: 'integer!',
        minC: 'real!',
        sumC: 'real!',
        maxC: 'real!',
        humiditySum: 'real!',
        humidityCount: 'integer!',
      },
      ['probe', 'hour'],
    );
    await make(
      'maxMinReadings',
      {
        probe: 'integer!',
        toAtMs: 'integer!',
        part: 'integer!',
        fromAtMs: 'integer!',
        maxC: 'real!',
        minC: 'real!',
        byPerson: 'text',
        recordedAtMs: 'integer!',
      },
      ['probe', 'toAtMs', 'part'],
    );
    await make(
      'weatherHours',
      { groupId: 'text!', atMs: 'integer!', tempC: 'real!', cloud: 'real', humidity: 'real', source: 'text!' },
      ['groupId', 'atMs'],
    );
    await make('weatherForecasts', { groupId: 'text!', madeAtMs: 'integer!', body: 'text!' }, ['groupId', 'madeAtMs']);
  },
};

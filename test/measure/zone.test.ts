import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/measure/day.ts';
import { dayInZone, instantInZone, isZone, zoneOffsetMs } from '../../src/measure/zone.ts';

const HOUR = 3_600_000;
// Clock changes of the IANA time zone database (2025c), as instants in UTC.
const changes: [string, string, number, number][] = [
  ['Europe/London', '2026-10-25T01:00:00Z', 1, 0],
  ['Europe/London', '2027-03-28T01:00:00Z', 0, 1],
  ['America/New_York', '2026-11-01T06:00:00Z', -4, -5],
  ['Australia/Lord_Howe', '2026-10-03T15:30:00Z', 10.5, 11],
  ['Pacific/Auckland', '2027-04-03T14:00:00Z', 13, 12],
];

describe('days and instants in the keeper’s zone', () => {
  it.each(changes)('%s changes its clock at %s', (zone, at, before, after) => {
    const ms = Date.parse(at);
    expect(zoneOffsetMs(ms - 1000, zone)).toBe(before * HOUR);
    expect(zoneOffsetMs(ms, zone)).toBe(after * HOUR);
  });

  it('takes the first pass of a repeated hour and the change itself for a skipped one', () => {
    expect(new Date(instantInZone('2026-10-25', 'Europe/London', 1.5)).toISOString()).toBe('2026-10-25T00:30:00.000Z');
    expect(new Date(instantInZone('2027-03-28', 'Europe/London', 1.5)).toISOString()).toBe('2027-03-28T01:00:00.000Z');
  });

  it('gives every day a start that lies in that day and not a second earlier', () => {
    const zones = fc.constantFrom(
      'Europe/London',
      'America/Santiago',
      'Australia/Lord_Howe',
      'Africa/Cairo',
      'Pacific/Auckland',
      'UTC',
    );
    fc.assert(
      fc.property(zones, fc.integer({ min: 0, max: 1500 }), (zone, offset) => {
        const day = addDays('2025-01-01', offset);
        const start = instantInZone(day, zone);
        expect(dayInZone(start, zone)).toBe(day);
        expect(dayInZone(start - 1000, zone)).toBe(addDays(day, -1));
      }),
      { numRuns: 300 },
    );
  });

  it('knows which names are zones', () => {
    expect(isZone('Europe/Lisbon')).toBe(true);
    expect(isZone('Mars/Olympus')).toBe(false);
  });
});

import { describe, expect, it } from 'vitest';
import { problemsOf } from '../../src/schema/problems.ts';
import { monthlyNormalsSchema, weatherSourceSchema } from '../../src/schema/weather.ts';
import { HEATHROW } from '../weather/published-normals.ts';

function complaints(value: unknown): string[] {
  const found = weatherSourceSchema.safeParse(value);
  return found.success ? [] : problemsOf(found.error).map(({ where, what }) => `${where}: ${what}`);
}

describe('weather as JSON', () => {
  it('takes each of the three sources', () => {
    expect(complaints({ kind: 'normals', normals: HEATHROW, winters: 40, seed: 3 })).toEqual([]);
    expect(complaints({ kind: 'daily', days: [{ day: '2026-11-05', maxC: 9, minC: 1, cloudShare: 0.5 }] })).toEqual([]);
    const series = { startAt: '2026-11-05T00:00:00Z', stepS: 3600, airTempC: [1, null], cloudShare: [0, null] };
    expect(complaints({ kind: 'hourly', series })).toEqual([]);
  });

  it.each([
    ['eleven months', { kind: 'normals', normals: HEATHROW.slice(1) }, /^normals: /],
    [
      'a month turned round',
      { kind: 'normals', normals: [{ maxC: 1, minC: 5 }, ...HEATHROW.slice(1)] },
      /^normals\[0\]\.minC: .*swapped/,
    ],
    [
      'a day twice',
      {
        kind: 'daily',
        days: [
          { day: '2026-11-05', maxC: 9, minC: 1 },
          { day: '2026-11-05', maxC: 9, minC: 1 },
        ],
      },
      /^days\[1\]\.day: Days must be in order/,
    ],
    [
      'a column too short',
      { kind: 'hourly', series: { startAt: '2026-11-05T00:00:00Z', stepS: 3600, airTempC: [1, 2], cloudShare: [0] } },
      /^series\.cloudShare: .*as many values/,
    ],
    ['a field too many', { kind: 'daily', days: [{ day: '2026-11-05', maxC: 9, minC: 1, rain: 2 }] }, /rain/],
  ])('refuses %s and says where', (_name, value, sentence) => {
    expect(complaints(value).join()).toMatch(sentence);
  });

  it('holds the group’s normals to the same rule', () => {
    expect(monthlyNormalsSchema.safeParse(HEATHROW).success).toBe(true);
  });
});

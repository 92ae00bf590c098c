import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { stillwinter, stillwinterJson } from './stillwinter.ts';

const file = 'docs/examples/seattle-simulate.json';
const seattle = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;

interface Simulated {
  results: {
    place: string;
    box: string;
    boxFigures: { slowestH: number };
    overWinters: { winters: number; coldestC: { low: number }; meanDailySwingK: { median: number } } | null;
    winters: { winter: string; hours: number; unknownHours: number; coldestAt: string; under: { limitC: number }[] }[];
  }[];
  notes: string[];
}

/** Forty days of a cold spell of our own invention, the same in two winters. */
const days = ['2020', '2021'].flatMap((year) =>
  Array.from({ length: 40 }, (_, i) => ({
    day: new Date(Date.UTC(Number(year), 11, 1 + i)).toISOString().slice(0, 10),
    maxC: 6,
    minC: -2,
  })),
);
const invented = (change: Record<string, unknown> = {}) =>
  JSON.stringify({
    ...seattle,
    site: { latitudeDeg: 52, longitudeDeg: 0, zone: 'Europe/London' },
    weather: { days },
    from: '12-20',
    to: '01-05',
    ...change,
  });

describe('stillwinter simulate', () => {
  it('runs two boxes in two places through the Seattle winters of the NOAA record', async () => {
    const { code, json, stderr } = await stillwinterJson(['simulate', file]);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    const { results, notes } = json as Simulated;
    expect(results.map(({ place, box }) => `${place}: ${box}`)).toEqual([
      'timber shed: 30 mm polystyrene',
      'timber shed: 30 mm polystyrene, 5 l water',
      'brick outbuilding: 30 mm polystyrene',
      'brick outbuilding: 30 mm polystyrene, 5 l water',
    ]);
    const [bareInShed, waterInShed, bareInBrick, waterInBrick] = results;
    for (const each of results) {
      expect(each.overWinters?.winters).toBe(3);
      // The record runs from 2012-01-01 to 2015-12-31: three whole winters and a part of two.
      expect(each.winters.map((winter) => winter.winter)).toEqual([
        '2011-12',
        '2012-13',
        '2013-14',
        '2014-15',
        '2015-16',
      ]);
      expect(each.winters[1]).toMatchObject({ hours: 93 * 24, unknownHours: 0 });
      expect(each.winters[0]!.unknownHours).toBeGreaterThan(1000);
      expect(each.winters[0]!.coldestAt).toMatch(/^\d{4}-\d\d-\d\dT.*Z$/);
    }
    const swing = (each: Simulated['results'][number] | undefined) => each!.overWinters!.meanDailySwingK.median;
    expect(swing(waterInShed)).toBeLessThan(swing(bareInShed));
    expect(swing(waterInBrick)).toBeLessThan(swing(bareInBrick));
    expect(swing(bareInBrick)).toBeLessThan(swing(bareInShed));
    expect(waterInShed!.boxFigures.slowestH).toBeGreaterThan(bareInShed!.boxFigures.slowestH);
    expect(waterInBrick!.overWinters!.coldestC.low).toBeGreaterThan(bareInShed!.overWinters!.coldestC.low);
    expect(notes.join(' ')).toContain('no cloud cover');
  });

  it('prints what the README shows of it', async () => {
    const readme = readFileSync('README.md', 'utf8');
    const { stdout } = await stillwinter(['simulate', file]);
    const lines = stdout.split('\n').filter((line) => /^(timber shed|brick outbuilding) .*\(/.test(line));
    expect(lines).toHaveLength(4);
    for (const line of lines) expect(readme).toContain(line);
  });

  it('sets a refrigerator beside the other places, with the hours after a power cut', async () => {
    const tub = {
      shells: [
        {
          insideLengthMm: 320,
          insideWidthMm: 220,
          insideHeightMm: 190,
          walls: [{ material: 'plastic', thicknessMm: 2 }],
          holes: { count: 8, diameterMm: 8 },
        },
      ],
      bedding: { material: 'shredded-paper', depthMm: 60 },
      animal: { massG: 900 },
    };
    const refrigerator = { preset: 'under-counter', fan: true, onAtC: 6, offAtC: 4, shelf: 'lower', ballastL: 4.5 };
    const input = (more: object = {}) =>
      invented({
        places: [
          { name: 'shed', description: { kind: 'building', preset: 'timber-shed' } },
          {
            name: 'kitchen',
            description: {
              kind: 'refrigerator',
              refrigerator: { ...refrigerator, ...more },
              kitchenC: 20,
              doorsPerDay: 2,
            },
          },
        ],
        boxes: [{ name: 'tub', description: tub }],
      });
    const { code, json } = await stillwinterJson(['simulate', '-'], input());
    expect(code).toBe(0);
    const [shed, kitchen] = (json as { results: object[] }).results;
    expect(shed).not.toHaveProperty('refrigerator');
    expect(kitchen).toMatchObject({ overWinters: { steadiness: { median: 1 } } });
    const { refrigerator: cut } = kitchen as {
      refrigerator: { hoursTo8AfterPowerCut: number; hoursTo10AfterPowerCut: number };
    };
    expect(cut.hoursTo8AfterPowerCut).toBeGreaterThan(2);
    expect(cut.hoursTo10AfterPowerCut).toBeGreaterThan(cut.hoursTo8AfterPowerCut);
    const told = await stillwinter(['simulate', '-'], input());
    expect(told.stdout).toMatch(/fails and the door\s+stays shut, the animal is at 8 °C after/);
    const small = await stillwinter(['simulate', '-'], input({ preset: 'table-top' }));
    expect(small.code).toBe(1);
    expect(small.stderr).toContain('does not go into this place');
  });

  it('prints a table in words, and never a promise', async () => {
    const ran = await stillwinter(['simulate', '-'], invented());
    expect(ran.code).toBe(0);
    expect(ran.stdout).toContain('3-8 °C %');
    expect(ran.stdout).toContain('not a promise');
    expect(ran.stdout).not.toMatch(/NaN|undefined|\bsafe\b/i);
  });

  it.each<[string, string, string]>([
    ['a day of the year that is none', invented({ from: '13-01' }), 'from'],
    [
      'a preset that is none',
      invented({ places: [{ name: 'x', description: { kind: 'building', preset: 'castle' } }] }),
      'places[0].description.preset',
    ],
    ['a day twice', invented({ weather: { days: [days[0], days[0]] } }), 'weather.days[1].day'],
    [
      'a maximum under its minimum',
      invented({ weather: { days: [{ ...days[0], maxC: -5 }, days[1]] } }),
      'weather.days[0].maxC',
    ],
    ['a weather file that is not there', invented({ weather: { file: 'no-weather.csv' } }), 'no-weather.csv'],
    ['a weather file that is none', invented({ weather: { file: 'package.json' } }), 'package.json'],
    ['days that no record reaches', invented({ from: '06-01', to: '06-20' }), 'weather'],
  ])('%s: refused with its place', async (_, input, where) => {
    const { code, json } = await stillwinterJson(['simulate', '-'], input);
    expect(code).toBe(1);
    expect((json as { errors: { where: string }[] }).errors[0]?.where).toContain(where);
  });
});

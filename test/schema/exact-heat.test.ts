import { describe, expect, it } from 'vitest';
import { refrigeratorAnswer } from '../../src/heat/refrigerator.ts';
import { simulateRefrigerator } from '../../src/heat/refrigerator-exact.ts';
import { calibrateSchema } from '../../src/schema/calibrate.ts';
import { problemsOf } from '../../src/schema/problems.ts';
import { exactRefrigeratorSchema, refrigeratorSchema } from '../../src/schema/refrigerator.ts';

type Json = Record<string, unknown>;
const example = (schema: { meta: () => unknown }) =>
  structuredClone((schema.meta() as { examples: Json[] }).examples[0]!);
const where = (schema: { safeParse: (value: unknown) => { success: boolean; error?: unknown } }, value: unknown) => {
  const result = schema.safeParse(value);
  expect(result.success).toBe(false);
  const problems = problemsOf(result.error as never);
  for (const { what } of problems) expect(what.length).toBeGreaterThan(10);
  return problems.map((one) => one.where);
};

describe('exact inputs of heat', () => {
  it.each([calibrateSchema, refrigeratorSchema, exactRefrigeratorSchema])('take their own example', (schema) => {
    expect(schema.safeParse(example(schema)).error).toBeUndefined();
  });

  it('an exact refrigerator runs as the closed form says', () => {
    const asked = exactRefrigeratorSchema.parse({
      ...example(exactRefrigeratorSchema),
      initialC: 4,
      watches: [{ node: 'cabinet', limitC: 5, rising: true }],
    });
    const result = simulateRefrigerator(asked);
    expect(result.events[0]!.atS).toBeCloseTo(40_000 * Math.log(16 / 14), 3);
    expect(result.watchedAtS[0]).toBeCloseTo(40_000 * Math.log(16 / 15), 3);
    expect(result.temperatureC.cabinet!.length).toBe(1441);
    expect(() => simulateRefrigerator({ ...asked, compressor: { node: 'attic', coolingW: 9 } })).toThrow(
      /none of the nodes/,
    );
  });

  it('a described refrigerator runs', () => {
    const fridge = refrigeratorSchema.parse(example(refrigeratorSchema));
    expect(
      refrigeratorAnswer(fridge, { room: { stepS: 3600, tempC: [18] }, spanS: 86_400, startC: 6 }).run.duty,
    ).toBeGreaterThan(0);
  });

  it.each<[string, (asked: Json) => void, string]>([
    [
      'a link to nothing',
      (a) => {
        (a.links as Json[])[0]!.to = 'attic';
      },
      'links[0].to',
    ],
    [
      'a compressor nowhere',
      (a) => {
        (a.compressor as Json).node = 'attic';
      },
      'compressor.node',
    ],
    [
      'no hysteresis',
      (a) => {
        (a.thermostat as Json).offAtC = 6;
      },
      'thermostat.onAtC',
    ],
    [
      'a node without capacity',
      (a) => {
        (a.nodes as Json[])[0]!.heatCapacityJK = 0;
      },
      'nodes[0].heatCapacityJK',
    ],
    [
      'two nodes of one name',
      (a) => {
        (a.nodes as Json[]).push((a.nodes as Json[])[0]!);
      },
      'nodes',
    ],
    [
      'too many samples',
      (a) => {
        a.sampleS = 0.01;
      },
      'sampleS',
    ],
    [
      'a door share above 1',
      (a) => {
        a.doors = [{ atS: 0, share: 2, nodes: ['cabinet'] }];
      },
      'doors[0].share',
    ],
  ])('an exact refrigerator with %s is refused at its place', (_, spoil, place) => {
    const asked = example(exactRefrigeratorSchema);
    spoil(asked);
    expect(where(exactRefrigeratorSchema, asked)).toContain(place);
  });

  it.each<[string, (asked: Json) => void, string]>([
    [
      'a factor named twice',
      (a) => {
        a.free = ['loss', 'loss'];
      },
      'free',
    ],
    [
      'nothing free',
      (a) => {
        a.free = [];
      },
      'free',
    ],
    [
      'sun of another length',
      (a) => {
        a.sun = { irradianceWm2: [1, 2], apertureM2: 1 };
      },
      'sun.irradianceWm2',
    ],
    [
      'a temperature no thermometer shows',
      (a) => {
        (a.readings as Json[])[0]!.tempC = 400;
      },
      'readings[0].tempC',
    ],
    [
      'a layer of negative thickness',
      (a) => {
        (a.case as { shell: { layers: Json[] } }).shell.layers[0]!.thicknessM = -1;
      },
      'case.shell.layers[0].thicknessM',
    ],
  ])('a calibration with %s is refused at its place', (_, spoil, place) => {
    const asked = example(calibrateSchema);
    spoil(asked);
    expect(where(calibrateSchema, asked)).toContain(place);
  });
});

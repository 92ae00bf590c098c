import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NetworkBuilder } from '../../src/heat/network.ts';
import { runThermostat } from '../../src/heat/thermostat.ts';

function oneNode(capacityJK: number, lossWK: number) {
  const builder = new NetworkBuilder();
  const node = builder.node('cabinet', capacityJK);
  const room = builder.input('room');
  const compressorInput = builder.input('compressor');
  builder.boundary(room, node, lossWK);
  builder.source(compressorInput, node);
  return { network: builder.build(), compressorInput, sensorNode: node };
}

const usual = { ...oneNode(60_000, 1.5), coolingW: 90, onAtC: 6, offAtC: 4, room: { stepS: 3600, tempC: [20] } };

describe('a thermostat', () => {
  it('keeps its sensor between the two temperatures once it has got there', () => {
    const run = runThermostat(usual, { spanS: 86_400, startC: 5, sampleS: 60 });
    for (const tempC of run.sampledC[0]!) {
      expect(tempC).toBeGreaterThanOrEqual(4 - 1e-6);
      expect(tempC).toBeLessThanOrEqual(6 + 1e-6);
    }
    expect(run.events.filter((event) => event.kind === 'on').length).toBeGreaterThan(10);
  });

  it('does nothing in a room colder than the temperature it starts at, and follows the room into the frost', () => {
    const run = runThermostat(
      { ...usual, room: { stepS: 86_400, tempC: [4, -4] } },
      { spanS: 10 * 86_400, startC: 5, sampleS: 3600, watches: [{ node: 0, limitC: 0, direction: -1 }] },
    );
    expect(run.duty).toBe(0);
    expect(run.endC[0]).toBeCloseTo(-4, 3);
    expect(run.crossedAtS[0]).toBeGreaterThan(43_200);
  });

  it('never cools while the current is off and resumes after', () => {
    const run = runThermostat(usual, {
      spanS: 86_400,
      startC: 5,
      running: true,
      sampleS: 600,
      powerCuts: [{ fromS: 600, toS: 40_000 }],
    });
    const stopped = run.events.findIndex((event) => event.kind === 'power-off');
    const back = run.events.findIndex((event) => event.kind === 'power-on');
    expect(run.events.slice(stopped, back).map((event) => event.kind)).toEqual(['power-off', 'off']);
    expect(run.events[back + 1]).toEqual({ atS: 40_000, kind: 'on' });
    expect(run.sampledC[0]![66]).toBeGreaterThan(10);
  });

  it('lets a share of the room in at each opening of the door', () => {
    const run = runThermostat(
      { ...usual, network: usual.network, onAtC: 30 },
      { spanS: 100, startC: 4, sampleS: 10, doors: [{ atS: 50, share: 0.25, airNodes: [0] }] },
    );
    expect(run.sampledC[0]![5]! - run.sampledC[0]![4]!).toBeGreaterThan(0.25 * 15.9);
    expect(run.energyJ.doors).toBeCloseTo(60_000 * 0.25 * (20 - 4.02), -3);
  });

  it('starts at once when the door has let it past its limit', () => {
    const run = runThermostat(usual, {
      spanS: 200,
      startC: 5.9,
      sampleS: 10,
      doors: [{ atS: 50, share: 0.1, airNodes: [0] }],
    });
    expect(run.events).toEqual([
      { atS: 50, kind: 'door' },
      { atS: 50, kind: 'on' },
    ]);
  });

  it('closes its energy balance to 1e-9 whatever happens', () => {
    fc.assert(
      fc.property(
        fc.record({
          roomC: fc.array(fc.double({ min: -10, max: 30, noNaN: true }), { minLength: 1, maxLength: 30 }),
          doorAtS: fc.array(fc.double({ min: 0, max: 80_000, noNaN: true }), { maxLength: 5 }),
          cutS: fc.double({ min: 1, max: 40_000, noNaN: true }),
          startC: fc.double({ min: -5, max: 25, noNaN: true }),
        }),
        ({ roomC, doorAtS, cutS, startC }) => {
          const run = runThermostat(
            { ...usual, room: { stepS: 3600, tempC: roomC } },
            {
              spanS: 86_400,
              startC,
              sampleS: 3600,
              doors: doorAtS.map((atS) => ({ atS, share: 0.3, airNodes: [0] })),
              powerCuts: [{ fromS: cutS, toS: 2 * cutS }],
            },
          );
          const { walls, doors, sources, removed, stored } = run.energyJ;
          const size = Math.abs(walls) + Math.abs(doors) + removed + Math.abs(stored) + 1;
          expect(Math.abs(walls + doors + sources - removed - stored) / size).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });

  it.each([
    ['no hysteresis', { ...usual, onAtC: 4 }, {}],
    ['no cooling', { ...usual, coolingW: 0 }, {}],
    ['a door that lets in more than all the air', usual, { doors: [{ atS: 1, share: 1.2, airNodes: [0] }] }],
    ['a power cut that ends before it begins', usual, { powerCuts: [{ fromS: 5, toS: 4 }] }],
    ['two temperatures a millionth apart', { ...usual, onAtC: 5.0000001, offAtC: 5 }, {}],
  ])('refuses %s', (_, setup, extra) => {
    expect(() => runThermostat(setup, { spanS: 5 * 86_400, startC: 5, sampleS: 3600, ...extra })).toThrow(RangeError);
  });
});

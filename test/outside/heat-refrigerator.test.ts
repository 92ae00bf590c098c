import { describe, expect, it } from 'vitest';
import { networkMatrices } from '../../src/heat/modes.ts';
import { NetworkBuilder } from '../../src/heat/network.ts';
import { hoursAfterPowerCut, refrigeratorNetwork } from '../../src/heat/refrigerator.ts';
import { runThermostat } from '../../src/heat/thermostat.ts';
import { solveAdaptively } from './adaptive-solver.ts';

// Closed form of the on-off cycle of one heat capacity: t_off = τ ln((Ta - Tl)/(Ta - Th)), t_on = τ ln((Th - Teq)/(Tl - Teq)),
// Teq = Ta - P/UA. The durations below were computed from it apart from this code, to the digits shown.
const cycles = [
  { roomC: 20, capacityJK: 60_000, onAtC: 6, offAtC: 4, offMin: 89.021, onMin: 29.635, duty: 0.249753, meanC: 5.01484 },
  {
    roomC: 20,
    capacityJK: 102_000,
    onAtC: 6,
    offAtC: 4,
    offMin: 151.336,
    onMin: 50.379,
    duty: 0.249753,
    meanC: 5.01484,
  },
  { roomC: 10, capacityJK: 60_000, onAtC: 6, offAtC: 4, offMin: 270.31, onMin: 24.245, duty: 0.082311, meanC: 5.06135 },
  { roomC: 20, capacityJK: 60_000, onAtC: 5.05, offAtC: 4.95, offMin: 4.44446, onMin: 1.48148, duty: 0.25, meanC: 5 },
];

function cabinet(capacityJK: number, lossWK: number) {
  const builder = new NetworkBuilder();
  const node = builder.node('cabinet', capacityJK);
  const room = builder.input('room');
  const compressorInput = builder.input('compressor');
  builder.boundary(room, node, lossWK);
  builder.source(compressorInput, node);
  return { network: builder.build(), compressorInput, sensorNode: node };
}

describe('thermostat cycle against its closed form', () => {
  it.each(cycles)('room $roomC °C, $capacityJK J/K, $offAtC to $onAtC °C', (expected) => {
    const { roomC, capacityJK, onAtC, offAtC } = expected;
    const setup = { ...cabinet(capacityJK, 1.5), coolingW: 90, onAtC, offAtC, room: { stepS: 3600, tempC: [roomC] } };
    const long = runThermostat(setup, { spanS: 3 * 86_400, startC: offAtC, sampleS: 3600 });
    const tau = capacityJK / 1.5;
    const offS = tau * Math.log((roomC - offAtC) / (roomC - onAtC));
    const onS = tau * Math.log((onAtC - (roomC - 60)) / (offAtC - (roomC - 60)));
    const at = long.events.map((event) => event.atS);
    expect(Math.abs(at[0]! - offS)).toBeLessThan(1e-3);
    expect(Math.abs(at[1]! - at[0]! - onS)).toBeLessThan(1e-3);
    expect(Math.abs(at[11]! - 6 * (offS + onS))).toBeLessThan(1e-3);
    expect(at[0]! / 60).toBeCloseTo(expected.offMin, 3);
    expect((at[1]! - at[0]!) / 60).toBeCloseTo(expected.onMin, 3);
    const period = at[1]!;
    const whole = runThermostat(setup, { spanS: 6 * period, startC: offAtC, sampleS: 60 });
    expect(whole.duty).toBeCloseTo(expected.duty, 5);
    expect(whole.meanC[0]).toBeCloseTo(expected.meanC, 4);
    // Exact identity: mean = Ta - duty P / UA.
    expect(whole.meanC[0]).toBeCloseTo(roomC - (whole.duty * 90) / 1.5, 6);
  });

  it('a small band gives duty UA (Ta - T)/P and period C dT/(P duty (1 - duty))', () => {
    const setup = {
      ...cabinet(60_000, 1.5),
      coolingW: 90,
      onAtC: 5.05,
      offAtC: 4.95,
      room: { stepS: 3600, tempC: [20] },
    };
    const { events } = runThermostat(setup, { spanS: 3600, startC: 4.95, sampleS: 60 });
    expect((events[3]!.atS - events[1]!.atS) / ((60_000 * 0.1) / (90 * 0.25 * 0.75))).toBeCloseTo(1, 3);
  });
});

describe('warm-up without current', () => {
  // One capacity from 4 °C in a room at 20 °C, UA 1.5 W/K: 8 °C after 3.20 h and 10 °C after 5.22 h; with 10 kg of water 5.43 and 8.88 h.
  it.each([
    [60_000, 3.2, 5.22],
    [102_000, 5.43, 8.88],
  ])('%d J/K', (capacityJK, to8, to10) => {
    const run = runThermostat(
      { ...cabinet(capacityJK, 1.5), coolingW: 90, onAtC: 6, offAtC: 4, room: { stepS: 3600, tempC: [20] } },
      {
        spanS: 86_400,
        startC: 4,
        sampleS: 3600,
        powerCuts: [{ fromS: 0, toS: 1e6 }],
        watches: [8, 10].map((limitC) => ({ node: 0, limitC, direction: 1 as const })),
      },
    );
    expect(run.crossedAtS[0]! / 3600).toBeCloseTo(to8, 2);
    expect(run.crossedAtS[1]! / 3600).toBeCloseTo(to10, 2);
  });

  // Scarcelli and Nelson 2013, FIU Hospitality Review 31(2), abstract: shut, with ice added, food took about 10 h to 5 °C, which in a
  // room at 22 °C is a time constant of 28 h (from 1 °C) to 54 h (from 3 °C). Official advice: 4 h. A full refrigerator must lie there.
  it('a full refrigerator warms about as slowly as measured ones', () => {
    const full = {
      preset: 'under-counter',
      fan: false,
      onAtC: 4,
      offAtC: 2,
      shelf: 'lower',
      load: { massKg: 35, specificHeatJkgK: 3700, lossWK: 4 },
    } as const;
    const { hoursTo8, hoursTo10 } = hoursAfterPowerCut(full, 22, 2);
    const tauH = (hoursTo10! - hoursTo8!) / Math.log((22 - 8) / (22 - 10));
    expect(tauH).toBeGreaterThan(28);
    expect(tauH).toBeLessThan(54);
  });
});

describe('a whole refrigerator against an adaptive solver', () => {
  it('agrees within 0.01 K over two days of cycles, the switching times taken over', () => {
    const built = refrigeratorNetwork({
      preset: 'under-counter',
      fan: false,
      onAtC: 6,
      offAtC: 4,
      shelf: 'upper',
      ballastL: 6,
      load: { massKg: 4, specificHeatJkgK: 3200, lossWK: 0.5 },
    });
    const roomC = [20, 23, 17, 19, 21];
    const stepS = 43_200;
    const spanS = 2 * 86_400;
    const run = runThermostat(
      { ...built, coolingW: 80, sensorNode: built.upperAir, onAtC: 6, offAtC: 4, room: { stepS, tempC: roomC } },
      { spanS, startC: 9, sampleS: 3600 },
    );
    const { conductance, drive, capacity } = networkMatrices(built.network);
    const n = capacity.length;
    let state = Array.from({ length: n }, () => 9);
    let from = 0;
    let cooling = 0;
    const stops = [...run.events, { atS: 43_200 }, { atS: 86_400 }, { atS: 129_600 }, { atS: spanS }].sort(
      (a, b) => a.atS - b.atS,
    );
    for (const stop of stops) {
      const k = Math.min(Math.floor(from / stepS + 1e-9), 3);
      const derivative = (t: number, y: number[]) => {
        const room = roomC[k]! + ((t - k * stepS) / stepS) * (roomC[k + 1]! - roomC[k]!);
        return y.map((_, i) => {
          let watts = drive.get(i, 0) * room - drive.get(i, 1) * cooling;
          for (let j = 0; j < n; j++) watts -= conductance.get(i, j) * y[j]!;
          return watts / capacity[i]!;
        });
      };
      if (stop.atS > from) state = solveAdaptively(derivative, from, state, stop.atS, 1e-8);
      from = stop.atS;
      if ('kind' in stop) {
        // At each switching the solver's own sensor must stand at the thermostat's limit.
        expect(Math.abs(state[built.upperAir]! - (stop.kind === 'on' ? 6 : 4))).toBeLessThan(
          stop === run.events[0] ? 4 : 0.001,
        );
        cooling = stop.kind === 'on' ? 80 : 0;
      }
    }
    for (let i = 0; i < n; i++) expect(Math.abs(state[i]! - run.endC[i]!)).toBeLessThan(0.01);
  });
});

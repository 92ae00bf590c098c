import { describe, expect, it } from 'vitest';
import { findModes } from '../../../src/heat/modes.ts';
import { NetworkBuilder } from '../../../src/heat/network.ts';
import { makeRecursion, run } from '../../../src/heat/run.ts';

interface Room {
  r1: number;
  rest: number;
  c1: number;
  r2: number;
  c2: number;
}
const heavy: Room = {
  r1: 0.00436791293674,
  rest: 0.03895919557,
  c1: 1600848.94,
  r2: 0.000595693407511,
  c2: 14836354.6282,
};
const light: Room = { r1: 0.00404935160802, rest: 0.039330865, c1: 47900, r2: 0.003237138, c2: 7297100 };

function roomNetwork(room: Room) {
  const b = new NetworkBuilder();
  const outside = b.input('outside');
  const heat = b.input('heat');
  const air = b.node('air', 0);
  const wall = b.node('wall', room.c1);
  const mass = b.node('mass', room.c2);
  const wallSurface = b.node('wall surface', 0);
  const massSurface = b.node('mass surface', 0);
  b.boundary(outside, wall, 1 / (room.rest + 1 / (25 * 10.5)));
  b.link(wall, wallSurface, 1 / room.r1);
  b.link(mass, massSurface, 1 / room.r2);
  b.link(wallSurface, air, 2.7 * 10.5);
  b.link(massSurface, air, 2.24 * 75.5);
  b.link(wallSurface, massSurface, 5 * 10.5);
  b.source(heat, air);
  return { modes: findModes(b.build()), air };
}

/** Hourly means, hour ending, of 60 days with 1000 W from 06:00 to 18:00; the heat is held in steps of a quarter minute. */
function hourlyMeans(room: Room): (day: number, hour: number) => number {
  const { modes, air } = roomNetwork(room);
  // A square wave is not linear between samples: short steps make the ramp at each switch a matter of seconds.
  const stepS = 20;
  const perHour = 3600 / stepS;
  const n = 60 * 24 * perHour + 1;
  const heat = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const second = (k * stepS) % 86_400;
    heat[k] = second > 6 * 3600 && second <= 18 * 3600 ? 1000 : 0;
  }
  const out = new Float64Array(n);
  const start = new Float64Array(modes.nodeCount).fill(22);
  run(makeRecursion(modes, air, stepS, { accuracyK: 0 }), [Float64Array.of(22), heat], out, start);
  return (day, hour) => {
    const from = ((day - 1) * 24 + hour - 1) * perHour;
    let sum = 0;
    for (let k = 0; k < perHour; k++) sum += (out[from + k]! + out[from + k + 1]!) / 2;
    return sum / perHour;
  };
}

const hours = [6, 7, 12, 18, 19, 24] as const;
const published: [string, Room, [number, number[]][]][] = [
  [
    'case 1, heavy',
    heavy,
    [
      [1, [22.0, 27.7, 28.8, 30.0, 24.5, 24.5]],
      [10, [37.3, 43.0, 43.8, 44.7, 39.1, 38.8]],
      [60, [49.3, 54.9, 55.5, 56.2, 50.6, 50.0]],
    ],
  ],
  [
    'case 3, light',
    light,
    [
      [1, [22.0, 30.2, 32.4, 34.7, 26.9, 26.6]],
      [10, [42.9, 50.9, 52.3, 53.7, 45.8, 44.7]],
      [60, [47.7, 55.7, 56.9, 58.1, 50.1, 48.9]],
    ],
  ],
];

describe('test rooms of VDI 6007-1 (as carried by the Modelica Buildings library)', () => {
  it.each(published)('%s: every hour within the criterion of 0.1 K', (_name, room, days) => {
    const mean = hourlyMeans(room);
    for (const [day, expected] of days)
      hours.forEach((hour, i) => {
        expect(Math.abs(mean(day, hour) - expected[i]!), `day ${day} hour ${hour}`).toBeLessThan(0.1);
      });
  });
  it('have the time constants of the two-state solution (derived)', () => {
    const h = (room: Room) => Array.from(roomNetwork(room).modes.rates, (rate) => 1 / rate / 3600);
    expect(h(heavy)[0]!).toBeCloseTo(264.07, 1);
    expect(h(heavy)[1]!).toBeCloseTo(5.339, 2);
    expect(h(light)[0]!).toBeCloseTo(129.0, 1);
    expect(h(light)[1]!).toBeCloseTo(0.1832, 3);
  });
});

import { openWatch, type Watch, watchClock, watchEntry, watchReading } from '../../src/winter/watch.ts';
import type { MakeRows } from '../row.ts';

const STAYS = 10_000;
const STEP_MS = 300_000;
const DAY = 288;
const START = Date.UTC(2026, 10, 28);

/** Box temperatures at five minutes: a daily swing on a slow drift that leaves the band on some days. */
const boxC = Float64Array.from(
  { length: 14 * DAY },
  (_, i) => 5 + 0.8 * Math.sin((2 * Math.PI * i) / DAY) + 3.4 * Math.sin(i / 700),
);
const at = (stay: number, i: number) => boxC[(i + stay * 37) % boxC.length]!;

/**
 * The rules by looking back over the readings at each new one, as a plain reading of the table would do it: the longest run past
 * each limit, the change within two hours and the warm hours of a week.
 */
function byLookingBack(stay: number, count: number): number {
  const temps: number[] = [];
  let spoke = 0;
  const limits = [
    [-1, 2, 6],
    [-1, 3, 48],
    [1, 8, 144],
    [1, 10, 48],
    [-1, 0, 0],
  ] as const;
  for (let i = 0; i < count; i++) {
    temps.push(at(stay, i));
    for (const [sign, limit, steps] of limits) {
      let run = 0;
      for (let k = temps.length - 1; k >= 0 && sign * (temps[k]! - limit) > 0; k--) run++;
      if (run > steps) spoke++;
    }
    const twoHours = temps.slice(-25);
    if (Math.max(...twoHours) - Math.min(...twoHours) > 3) spoke++;
    let warm = 0;
    for (let k = Math.max(0, temps.length - 7 * DAY); k < temps.length; k++) if (temps[k]! > 10) warm++;
    if (warm > DAY) spoke++;
  }
  return spoke;
}

/** 10,000 stays: a day of readings at five minutes each, a forecast and a weigh-in; then one new reading and a tick of the clock. */
export const rows: MakeRows = () => {
  const watches: Watch[] = [];
  const openFrom = performance.now();
  for (let stay = 0; stay < STAYS; stay++) {
    watches.push(openWatch({ stayId: String(stay), fromMs: START, expectedIntervalS: 300, startMassG: 800 }));
  }
  for (let stay = 0; stay < STAYS; stay++) {
    const watch = watches[stay]!;
    for (let i = 0; i < DAY; i++) watchReading(watch, START + i * STEP_MS, at(stay, i));
    const nowMs = START + DAY * STEP_MS;
    const timesMs = Float64Array.from({ length: 73 }, (_, hour) => nowMs + hour * 3_600_000);
    watchEntry(watch, {
      kind: 'forecast',
      atMs: nowMs,
      timesMs,
      tempsC: timesMs.map((_, hour) => at(stay, DAY + hour * 12)),
    });
    watchEntry(watch, { kind: 'weigh-in', atMs: nowMs, massG: 795, expectedLowG: 790 });
  }
  const fullS = (performance.now() - openFrom) / 1000;

  const liveFrom = performance.now();
  const nowMs = START + (DAY + 1) * STEP_MS;
  for (let stay = 0; stay < STAYS; stay++) {
    watchReading(watches[stay]!, nowMs, at(stay, DAY + 1));
    watchClock(watches[stay]!, nowMs + 60_000);
  }
  const liveS = (performance.now() - liveFrom) / 1000;

  const count = 7 * DAY;
  const watch = openWatch({ stayId: 'one', fromMs: START, expectedIntervalS: 300 });
  const oneFrom = performance.now();
  for (let i = 0; i < count; i++) watchReading(watch, START + i * STEP_MS, at(0, i));
  const ours = performance.now() - oneFrom;
  const peerFrom = performance.now();
  byLookingBack(0, count);
  const peer = performance.now() - peerFrom;
  const notices = watches.reduce((sum, one) => sum + one.notices.length, 0);
  return [
    {
      name: 'watch-pass',
      value: fullS,
      unit: 's',
      peer: '',
      ratio: null,
      note: `${STAYS} stays from nothing: a day of readings at 5 minutes, a forecast and a weigh-in each; ${notices} notices; budget 2 s`,
    },
    {
      name: 'watch-pass',
      value: liveS,
      unit: 's',
      peer: '',
      ratio: null,
      note: `${STAYS} stays, one new reading and a tick each`,
    },
    {
      name: 'watch-pass',
      value: peer / 1000,
      unit: 's',
      peer: 'looking back over the readings',
      ratio: peer / ours,
      note: 'one stay, a week of readings at 5 minutes',
    },
  ];
};

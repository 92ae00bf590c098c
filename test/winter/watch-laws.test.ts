import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openWatch, replayWatch, watchClock, watchEntry } from '../../src/winter/watch.ts';
import { LIMIT_RULES } from '../../src/winter/watch-limits.ts';
import type { WatchEntry, WatchNotice, WatchSetup } from '../../src/winter/watch-types.ts';
import { changeReading, openChange, openWarmHours, warmAdd, warmClock } from '../../src/winter/watch-windows.ts';

const MIN = 60_000;
const H = 60 * MIN;
const D = 24 * H;
const START = Date.UTC(2026, 10, 28, 12);
const setup: WatchSetup = {
  stayId: 's',
  fromMs: START,
  startMassG: 800,
  expectedIntervalS: 900,
  plannedWakeMs: START + 77 * D,
};

/** A winter of odd readings: a walk through the temperatures with jumps, gaps and everything else that happens. */
const entries = fc
  .array(
    fc.record({
      gapMin: fc.oneof(
        { weight: 9, arbitrary: fc.constant(15) },
        { weight: 1, arbitrary: fc.integer({ min: 1, max: 3000 }) },
      ),
      stepC: fc.oneof(
        { weight: 8, arbitrary: fc.double({ min: -0.6, max: 0.6, noNaN: true }) },
        { weight: 1, arbitrary: fc.double({ min: -5, max: 5, noNaN: true }) },
      ),
      also: fc.oneof(
        { weight: 12, arbitrary: fc.constant('') },
        { weight: 1, arbitrary: fc.constantFrom('weigh', 'lid', 'urine', 'signs', 'touch', 'battery') },
      ),
      massG: fc.integer({ min: 690, max: 805 }),
    }),
    { minLength: 1, maxLength: 250 },
  )
  .map((steps) => {
    const out: WatchEntry[] = [];
    let atMs = START;
    let tempC = 5;
    for (const { gapMin, stepC, also, massG } of steps) {
      atMs += gapMin * MIN;
      tempC = Math.max(-4, Math.min(14, tempC + stepC));
      out.push({ kind: 'reading', atMs, tempC });
      if (also === 'weigh') out.push({ kind: 'weigh-in', atMs, massG, expectedLowG: 760 });
      if (also === 'battery') out.push({ kind: 'battery', atMs, percent: massG / 10 - 60 });
      if (also === 'lid') out.push({ kind: 'diary', atMs, diary: 'lid-opened' });
      if (also === 'urine') out.push({ kind: 'diary', atMs, diary: 'urine' });
      if (also === 'signs') out.push({ kind: 'diary', atMs, diary: 'awake-signs' });
      if (also === 'touch') out.push({ kind: 'diary', atMs, diary: 'touch-response' });
    }
    return out;
  });
const endOf = (list: readonly WatchEntry[]) => Math.max(START, ...list.map((entry) => entry.atMs)) + H;
const byKey = (notices: readonly WatchNotice[]) =>
  notices.toSorted((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.raisedMs - b.raisedMs));

describe('laws of the watch', () => {
  it('the order in which batches arrive changes nothing', () => {
    fc.assert(
      fc.property(entries, fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })), (list, dice) => {
        const shuffled = list
          .map((entry) => ({ entry, rank: dice.next().value as number }))
          .sort((a, b) => a.rank - b.rank)
          .map(({ entry }) => entry);
        expect(replayWatch(setup, shuffled, endOf(list)).notices).toEqual(
          replayWatch(setup, list, endOf(list)).notices,
        );
      }),
      { numRuns: 60 },
    );
  });

  it('ticks of the clock between readings change nothing, so a server that was down says the same afterwards', () => {
    fc.assert(
      fc.property(entries, fc.integer({ min: 1, max: 400 }), (list, tickMin) => {
        const live = openWatch(setup);
        const replayed = replayWatch(setup, list, endOf(list));
        const ordered = list.slice();
        for (const entry of ordered) {
          for (let tick = live.nowMs + tickMin * MIN; tick < entry.atMs; tick += tickMin * MIN) watchClock(live, tick);
          expect(watchEntry(live, entry)).toBe(true);
        }
        watchClock(live, endOf(list));
        expect(byKey(live.notices)).toEqual(byKey(replayed.notices));
      }),
      { numRuns: 60 },
    );
  });

  it('an older entry is not taken but asks for a replay', () => {
    const watch = openWatch(setup);
    expect(watchEntry(watch, { kind: 'reading', atMs: START + H, tempC: 5 })).toBe(true);
    expect(watchEntry(watch, { kind: 'reading', atMs: START + H - 1, tempC: -5 })).toBe(false);
    expect(watch.notices).toEqual([]);
  });

  it('never chatters: a rule that cleared has been inside for its clearing time before it speaks again', () => {
    fc.assert(
      fc.property(entries, (list) => {
        const { notices } = replayWatch(setup, list, endOf(list));
        for (const rule of LIMIT_RULES) {
          const own = notices.filter((notice) => notice.ruleId === rule.id);
          for (const [i, notice] of own.entries()) {
            expect(notice.raisedMs - notice.fromMs).toBeGreaterThanOrEqual(rule.durationS * 1000);
            if (i === 0) continue;
            const clearedMs = own[i - 1]!.clearedMs!;
            expect(notice.fromMs).toBeGreaterThanOrEqual(clearedMs);
            const before = list.filter(
              (entry) =>
                entry.kind === 'reading' && entry.atMs > clearedMs - rule.clearS * 1000 && entry.atMs <= clearedMs,
            );
            for (const entry of before)
              if (entry.kind === 'reading')
                expect(rule.compare === 'over' ? entry.tempC <= rule.clearLimit : entry.tempC >= rule.clearLimit).toBe(
                  true,
                );
          }
        }
      }),
      { numRuns: 80 },
    );
  });

  it('misses nothing: every stretch of readings past a limit for its time is announced while it lasts', () => {
    fc.assert(
      fc.property(entries, (list) => {
        const { notices } = replayWatch({ ...setup, settleS: 0 }, list, endOf(list));
        const readings = list.filter((entry) => entry.kind === 'reading');
        for (const rule of LIMIT_RULES) {
          const outside = (tempC: number) =>
            rule.compare === 'over'
              ? tempC > rule.limit
              : rule.compare === 'under'
                ? tempC < rule.limit
                : tempC <= rule.limit;
          let fromMs = Number.NaN;
          for (const reading of readings) {
            if (reading.kind !== 'reading') continue;
            if (!outside(reading.tempC)) {
              fromMs = Number.NaN;
              continue;
            }
            if (Number.isNaN(fromMs)) fromMs = reading.atMs;
            if (reading.atMs - fromMs < rule.durationS * 1000) continue;
            const dueMs = fromMs + rule.durationS * 1000;
            const told = notices.some(
              (notice) =>
                notice.ruleId === rule.id &&
                notice.raisedMs <= dueMs &&
                (notice.clearedMs ?? Number.POSITIVE_INFINITY) >= dueMs,
            );
            expect(told).toBe(true);
          }
        }
      }),
      { numRuns: 80 },
    );
  });

  it('tightening a limit never takes a notice away', () => {
    fc.assert(
      fc.property(entries, fc.double({ min: 0, max: 1, noNaN: true }), (list, byK) => {
        const count = (settings: WatchSetup['settings']) =>
          replayWatch({ ...setup, ...(settings ? { settings } : {}) }, list, endOf(list)).notices.some(
            (notice) => notice.ruleId === 'under-3',
          );
        if (count(undefined)) expect(count({ 'under-3': { limit: 3 + byK } })).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('the clock change is nothing to it: all is counted in UTC', () => {
    const around = Date.UTC(2027, 2, 28, 1) - 2 * H;
    const hold = Array.from(
      { length: 17 },
      (_, i): WatchEntry => ({ kind: 'reading', atMs: around + i * 15 * MIN, tempC: 2.9 }),
    );
    const notices = replayWatch({ ...setup, fromMs: around - D }, hold, around + 4 * H).notices.filter(
      (one) => one.ruleId === 'under-3',
    );
    expect(notices.map((one) => one.raisedMs - one.fromMs)).toEqual([4 * H]);
  });
});

describe('windows against a plain count', () => {
  it('the change within two hours equals the largest difference found by looking at all readings', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ gap: fc.integer({ min: 1, max: 50 }), tempC: fc.integer({ min: -50, max: 150 }) }), {
          maxLength: 120,
        }),
        (steps) => {
          const window = openChange(2 * H);
          const seen: { atMs: number; tempC: number }[] = [];
          let atMs = 0;
          for (const { gap, tempC } of steps) {
            atMs += gap * MIN;
            seen.push({ atMs, tempC });
            const inside = seen.filter((one) => one.atMs >= atMs - 2 * H).map((one) => one.tempC);
            const rise = tempC - Math.min(...inside);
            const fall = Math.max(...inside) - tempC;
            expect(Math.abs(changeReading(window, atMs, tempC))).toBe(Math.max(rise, fall));
          }
        },
      ),
    );
  });

  it('warm hours of a week equal the sum over the hours kept', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ gapMin: fc.integer({ min: 0, max: 5000 }), warmMin: fc.integer({ min: 0, max: 900 }) }), {
          maxLength: 40,
        }),
        (steps) => {
          const warm = openWarmHours(168);
          const spans: [number, number][] = [];
          let at = START;
          for (const { gapMin, warmMin } of steps) {
            at += gapMin * MIN;
            warmAdd(warm, at, at + warmMin * MIN);
            spans.push([at, at + warmMin * MIN]);
            at += warmMin * MIN;
            warmClock(warm, at);
            const oldest = (Math.floor(at / H) - 167) * H;
            const sum = spans.reduce((total, [from, to]) => total + Math.max(0, to - Math.max(from, oldest)), 0);
            expect(warm.totalMs).toBeCloseTo(sum, 3);
          }
        },
      ),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { openWatch, replayWatch, watchClock, watchReading } from '../../src/winter/watch.ts';
import type { RuleId, WatchEntry, WatchNotice, WatchSetup } from '../../src/winter/watch-types.ts';
import { say } from '../../src/wording/say.ts';

const MIN = 60_000;
const H = 60 * MIN;
const D = 24 * H;
const START = Date.UTC(2026, 10, 28, 12);
const typed: WatchSetup = { stayId: 's', fromMs: START, startMassG: 800 };
const setup: WatchSetup = { ...typed, expectedIntervalS: 300 };

/** Readings every five minutes for `lengthMs` at one temperature, the first at `fromMs`. */
const hold = (fromMs: number, lengthMs: number, tempC: number): WatchEntry[] =>
  Array.from({ length: Math.round(lengthMs / (5 * MIN)) }, (_, i) => ({
    kind: 'reading',
    atMs: fromMs + i * 5 * MIN,
    tempC,
  }));
/** A day of 5 °C, then `tempC` for `lengthMs`, then 5 °C for a day: readings every five minutes. */
const stretch = (tempC: number, lengthMs: number): WatchEntry[] => [
  ...hold(START, D, 5),
  ...hold(START + D, lengthMs, tempC),
  ...hold(START + D + lengthMs, D, 5),
];
const watched = (entries: WatchEntry[], own: Partial<WatchSetup> = {}): WatchNotice[] => {
  const last = Math.max(...entries.map((entry) => entry.atMs));
  return replayWatch({ ...typed, ...own }, entries, last).notices;
};
const said = (notices: readonly WatchNotice[], id: RuleId) => notices.filter((notice) => notice.ruleId === id);

describe('limits with a duration, from both sides', () => {
  it.each<[RuleId, number, number, boolean]>([
    ['frost', 0, 5 * MIN, true],
    ['frost', 0.1, 5 * MIN, false],
    ['under-2', 1.9, 30 * MIN, true],
    ['under-2', 1.9, 25 * MIN, false],
    ['under-2', 2, 3 * H, false],
    ['under-3', 2.9, 4 * H, true],
    ['under-3', 2.9, 4 * H - 5 * MIN, false],
    ['under-3', 3, 9 * H, false],
    ['over-8', 8.1, 12 * H, true],
    ['over-8', 8.1, 12 * H - 5 * MIN, false],
    ['over-8', 8, 20 * H, false],
    ['over-10', 10.1, 4 * H, true],
    ['over-10', 10.1, 4 * H - 5 * MIN, false],
    ['over-10', 10, 9 * H, false],
  ])('%s at %d °C for %d ms: %s', (id, tempC, lengthMs, expected) => {
    const notices = said(watched(stretch(tempC, lengthMs)), id);
    expect(notices).toHaveLength(expected ? 1 : 0);
    if (expected) {
      expect(notices[0]!.fromMs).toBe(START + D);
      expect(notices[0]!.clearedMs).toBeGreaterThan(START + D + lengthMs);
    }
  });

  it('speaks at the instant the duration is full, not at the next reading', () => {
    const entries: WatchEntry[] = [
      { kind: 'reading', atMs: START + D, tempC: 1.5 },
      { kind: 'reading', atMs: START + D + H, tempC: 5 },
    ];
    expect(said(watched(entries), 'under-2')[0]!.raisedMs).toBe(START + D + 30 * MIN);
  });

  it('speaks from a tick of the clock when no further reading comes', () => {
    const watch = openWatch(setup);
    watchReading(watch, START + D, 1.5);
    watchClock(watch, START + D + 29 * MIN);
    expect(said(watch.notices, 'under-2')).toHaveLength(0);
    watchClock(watch, START + D + 31 * MIN);
    expect(said(watch.notices, 'under-2')).toHaveLength(1);
  });

  it('adds up dips that never come back inside by the clearing margin', () => {
    const dips = Array.from(
      { length: 20 },
      (_, i): WatchEntry => ({
        kind: 'reading',
        atMs: START + D + i * 5 * MIN,
        tempC: i % 2 ? 2.1 : 1.9,
      }),
    );
    expect(said(watched([...dips, { kind: 'reading', atMs: START + D + 3 * H, tempC: 5 }]), 'under-2')).toHaveLength(1);
  });

  it('widens every limit by the stated accuracy of the probe', () => {
    expect(said(watched(stretch(2.5, H), { accuracyC: 1 }), 'under-2')).toHaveLength(1);
    expect(said(watched(stretch(3.1, H), { accuracyC: 1 }), 'under-2')).toHaveLength(0);
    expect(said(watched(stretch(7.5, 13 * H), { accuracyC: 1 }), 'over-8')).toHaveLength(1);
  });

  it('clears only after the clearing time inside, and not by silence', () => {
    const entries = [
      ...hold(START, D, 5),
      ...hold(START + D, H, 1),
      { kind: 'reading' as const, atMs: START + D + H, tempC: 5 },
    ];
    const watch = replayWatch(setup, entries, START + D + 9 * H);
    expect(said(watch.notices, 'under-2')[0]!.clearedMs).toBeUndefined();
    watchReading(watch, START + D + 9 * H, 5);
    expect(said(watch.notices, 'under-2')[0]!.clearedMs).toBe(START + D + 9 * H);
  });

  it('lets the box settle for six hours before warm rules count', () => {
    const warm = [...hold(START, 6 * H, 15), ...hold(START + 6 * H, D, 5)];
    expect(watched(warm)).toHaveLength(0);
    expect(said(watched([...hold(START, H, -1), ...hold(START + H, D, 5)]), 'frost')).toHaveLength(1);
  });
});

describe('change, warm week, silence, battery', () => {
  const ramp = (changeK: number, lengthMs: number): WatchEntry[] => [
    ...hold(START, D, 5),
    ...Array.from(
      { length: lengthMs / (5 * MIN) + 1 },
      (_, i): WatchEntry => ({
        kind: 'reading',
        atMs: START + D + i * 5 * MIN,
        tempC: 5 + (changeK * i * 5 * MIN) / lengthMs,
      }),
    ),
  ];
  it.each([
    [3.05, 2 * H, 1],
    [3, 2 * H, 0],
    [3.5, 4 * H, 0],
    [-3.05, 2 * H, 1],
    [-3, 2 * H, 0],
  ])('a change of %d K in %d ms speaks %d times', (changeK, lengthMs, times) => {
    expect(said(watched(ramp(changeK, lengthMs)), 'fast-change')).toHaveLength(times);
  });

  it('names the direction of a fast change', () => {
    expect(said(watched(ramp(4, H)), 'fast-change')[0]!.message.key).toBe('winter.watch.fastRise');
    expect(said(watched(ramp(-4, H)), 'fast-change')[0]!.message.key).toBe('winter.watch.fastFall');
  });

  const warmDays = (hoursADay: number, days: number): WatchEntry[] =>
    Array.from({ length: days }, (_, d) => [
      ...hold(START + (1 + d) * D, hoursADay * H, 10.5),
      ...hold(START + (1 + d) * D + hoursADay * H, D - hoursADay * H, 6),
    ]).flat();
  it('counts warm hours over a week: 24 h in seven days speak, 21 h do not', () => {
    expect(said(watched(warmDays(3.5, 7)), 'warm-week')).toHaveLength(1);
    expect(said(watched(warmDays(3, 7)), 'warm-week')).toHaveLength(0);
    expect(said(watched(warmDays(3, 30)), 'warm-week')).toHaveLength(0);
  });

  it.each([
    [300, 2 * H],
    [3600, 3 * H],
  ])('a probe expected every %d s is silent after %d ms', (expectedIntervalS, silentMs) => {
    const entries: WatchEntry[] = [{ kind: 'reading', atMs: START + D, tempC: 5 }];
    const at = (ms: number) =>
      replayWatch({ ...setup, expectedIntervalS }, entries, START + D + ms).notices.slice(-1)[0];
    expect(at(silentMs - 1)?.fromMs).not.toBe(START + D);
    expect(at(silentMs)).toMatchObject({ ruleId: 'silence', fromMs: START + D, level: 'look-today' });
  });

  it('silence after a cold reading is urgent', () => {
    const at = (tempC: number) =>
      replayWatch(setup, [{ kind: 'reading', atMs: START + H, tempC }], START + 4 * H).notices.find((n) =>
        n.ruleId.startsWith('silence'),
      );
    expect(at(2.9)).toMatchObject({ ruleId: 'silence-in-cold', level: 'act-now' });
    expect(at(3)).toMatchObject({ ruleId: 'silence', level: 'look-today' });
  });

  it('typed readings are never silent', () => {
    const watch = replayWatch(typed, [{ kind: 'reading', atMs: START + H, tempC: 5 }], START + 7 * D);
    expect(watch.notices).toHaveLength(0);
  });

  it.each([
    [20, 0],
    [19, 1],
  ])('battery at %d %% speaks %d times', (percent, times) => {
    expect(said(watched([{ kind: 'battery', atMs: START + H, percent }]), 'battery')).toHaveLength(times);
  });

  it('a battery that the probe calls low speaks, is silent while it says so again, and clears when it says well', () => {
    const say = (hour: number, low: boolean, percent?: number) =>
      ({ kind: 'battery', atMs: START + hour * H, low, ...(percent === undefined ? {} : { percent }) }) as const;
    const watch = watched([say(1, false), say(2, true), say(3, true)]);
    expect(said(watch, 'battery')).toHaveLength(1);
    expect(said(watched([say(1, true), say(2, false), say(3, true)]), 'battery')).toHaveLength(2);
    expect(said(watched([say(1, true, 60)]), 'battery')).toHaveLength(1);
    expect(said(watched([say(1, true, 60), say(2, false, 25), say(3, true, 60)]), 'battery')).toHaveLength(1);
  });
});

describe('care and the animal', () => {
  it.each<[RuleId, number]>([
    ['lid-closed', 8],
    ['weigh-in-overdue', 9],
  ])('%s speaks when %d days are full and clears when it is done', (id, days) => {
    expect(said(replayWatch(typed, [], START + days * D - 1).notices, id)).toHaveLength(0);
    expect(said(replayWatch(typed, [], START + days * D).notices, id)).toHaveLength(1);
    const done: WatchEntry[] = [
      { kind: 'diary', atMs: START + 10 * D, diary: 'lid-opened' },
      { kind: 'weigh-in', atMs: START + 10 * D, massG: 795 },
    ];
    expect(said(replayWatch(typed, done, START + 11 * D).notices, id)[0]!.clearedMs).toBe(START + 10 * D);
  });

  it('urine passed stands until the animal is woken', () => {
    const urine: WatchEntry = { kind: 'diary', atMs: START + D, diary: 'urine' };
    const look: WatchEntry = { kind: 'diary', atMs: START + 3 * D, diary: 'lid-opened' };
    expect(watched([urine, look])[0]).toMatchObject({ ruleId: 'urine', level: 'act-now', page: 'urine-passed' });
    expect(watched([urine, look])[0]!.clearedMs).toBeUndefined();
    expect(watched([urine, look, { kind: 'woken', atMs: START + 4 * D }])[0]!.clearedMs).toBe(START + 4 * D);
  });

  it('signs of waking clear with a quiet look a day later, not the same day', () => {
    const sign: WatchEntry = { kind: 'diary', atMs: START + D, diary: 'awake-signs' };
    const look = (ms: number): WatchEntry => ({ kind: 'diary', atMs: START + ms, diary: 'lid-opened' });
    expect(watched([sign, look(D + H)])[0]!.clearedMs).toBeUndefined();
    expect(watched([sign, look(2 * D)])[0]!.clearedMs).toBe(START + 2 * D);
  });

  it.each<[number, RuleId[]]>([
    [737, []],
    [736, ['mass-8']],
    [721, ['mass-8']],
    [720, ['mass-10', 'mass-8']],
  ])('%d g of 800 g: %j', (massG, rules) => {
    const notices = watched([{ kind: 'weigh-in', atMs: START + 5 * D, massG }]);
    expect(notices.map((notice) => notice.ruleId)).toEqual(rules);
  });

  it('ten per cent asks for a second weighing and counts meanwhile', () => {
    const first: WatchEntry = { kind: 'weigh-in', atMs: START + 5 * D, massG: 700 };
    const again = (massG: number): WatchEntry => ({ kind: 'weigh-in', atMs: START + 5 * D + H, massG });
    expect(said(watched([first]), 'mass-10')[0]).toMatchObject({ level: 'act-now', secondWeighing: 'asked' });
    const confirmed = said(watched([first, again(705)]), 'mass-10')[0]!;
    expect(confirmed).toMatchObject({ secondWeighing: 'confirmed' });
    expect(confirmed.clearedMs).toBeUndefined();
    const doubted = watched([first, again(785)]);
    expect(said(doubted, 'mass-10')[0]!.clearedMs).toBe(START + 5 * D + H);
    expect(said(doubted, 'weighing-doubted')[0]).toMatchObject({ level: 'for-the-record' });
  });

  it('a better weight days later does not undo a limit that was never weighed again', () => {
    const notices = watched([
      { kind: 'weigh-in', atMs: START + 5 * D, massG: 700 },
      { kind: 'weigh-in', atMs: START + 8 * D, massG: 790 },
    ]);
    expect(said(notices, 'mass-10')[0]!.clearedMs).toBeUndefined();
  });

  it('less than the 90 % band speaks, a small gain does not', () => {
    const weigh = (massG: number): WatchEntry => ({
      kind: 'weigh-in',
      atMs: START + 7 * D,
      massG,
      expectedLowG: 792,
      expectedHighG: 800,
    });
    expect(said(watched([weigh(791)]), 'mass-band')).toHaveLength(1);
    expect(watched([weigh(792)])).toHaveLength(0);
    expect(watched([weigh(803)])).toHaveLength(0);
  });

  it('a forecast of mass loss speaks only when it passes before the planned waking', () => {
    const plannedWakeMs = START + 77 * D;
    const forecast = (passesMs: number): WatchEntry => ({ kind: 'mass-forecast', atMs: START + D, passesMs });
    expect(watched([forecast(plannedWakeMs - D)], { plannedWakeMs })[0]!.ruleId).toBe('mass-forecast');
    expect(watched([forecast(plannedWakeMs)], { plannedWakeMs })).toHaveLength(0);
  });
});

describe('forecasts and max-min readings', () => {
  const forecast = (madeMs: number, fromH: number, lengthH: number, tempC: number): WatchEntry => ({
    kind: 'forecast',
    atMs: madeMs,
    timesMs: Array.from({ length: 96 }, (_, h) => madeMs + h * H),
    tempsC: Array.from({ length: 96 }, (_, h) => (h >= fromH && h < fromH + lengthH ? tempC : 5)),
  });
  it('announces a breach within 72 h, not a later one and not one too short', () => {
    expect(watched([forecast(START + D, 30, 6, 1)])[0]).toMatchObject({ ruleId: 'forecast-cold', worstC: 1 });
    expect(watched([forecast(START + D, 73, 10, 1)])).toHaveLength(0);
    expect(watched([forecast(START + D, 30, 3, 2.5)])).toHaveLength(0);
    expect(watched([forecast(START + D, 30, 4, 2.5)])).toHaveLength(1);
    expect(watched([forecast(START + D, 10, 13, 9)])[0]).toMatchObject({ ruleId: 'forecast-warm' });
  });
  it('goes on from the excursion that is open now', () => {
    const now: WatchEntry[] = [{ kind: 'reading', atMs: START + D - 3 * H, tempC: 2.5 }];
    expect(said(watched([...now, forecast(START + D, 0, 2, 2.5)]), 'forecast-cold')).toHaveLength(1);
  });
  it('does not flap with the weather service', () => {
    const entries = Array.from({ length: 24 }, (_, i) => forecast(START + D + i * H, i % 2 ? 200 : 30, 6, 1));
    expect(said(watched(entries), 'forecast-cold')).toHaveLength(1);
    const clean = [forecast(START + D, 30, 6, 1), ...[1, 4, 7].map((h) => forecast(START + D + h * H, 200, 1, 1))];
    expect(said(watched(clean), 'forecast-cold')[0]!.clearedMs).toBe(START + D + 7 * H);
  });

  const span = (minC: number, maxC: number, hours = 24): WatchEntry => ({
    kind: 'span',
    fromMs: START + D,
    atMs: START + D + hours * H,
    minC,
    maxC,
  });
  it('reads a max-min span: frost at once, the others one level lower, nothing inside the band', () => {
    expect(said(watched([span(-0.5, 6)]), 'frost')[0]).toMatchObject({ level: 'act-now', fromMs: START + D });
    expect(said(watched([span(1.5, 6)]), 'under-2')[0]!.level).toBe('look-today');
    expect(said(watched([span(5, 10.5)]), 'over-10')[0]!.level).toBe('for-the-record');
    expect(watched([span(3, 8)])).toHaveLength(0);
    expect(said(watched([span(2.5, 6, 3)]), 'under-3')).toHaveLength(0);
  });
  it('frost on a max-min thermometer stands until somebody has looked', () => {
    const look: WatchEntry = { kind: 'diary', atMs: START + 3 * D, diary: 'touch-response' };
    expect(said(watched([span(-0.5, 6)]), 'frost')[0]!.clearedMs).toBeUndefined();
    expect(said(watched([span(-0.5, 6), look]), 'frost')[0]!.clearedMs).toBe(START + 3 * D);
  });
});

it('every notice can be said', () => {
  const entries: WatchEntry[] = [
    ...stretch(-1, 5 * H),
    ...stretch(11, 30 * H).map((entry) => ({ ...entry, atMs: entry.atMs + 5 * D })),
    { kind: 'weigh-in', atMs: START + 12 * D, massG: 700, expectedLowG: 780 },
    { kind: 'weigh-in', atMs: START + 12 * D + H, massG: 700, expectedLowG: 780 },
    { kind: 'diary', atMs: START + 13 * D, diary: 'urine' },
  ];
  for (const notice of watched(entries)) expect(say(notice.message)).not.toMatch(/\{\{|undefined|NaN/);
});

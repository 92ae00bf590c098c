import { describe, expect, it } from 'vitest';
import { type PastWinter, replayWinter } from '../../src/winter/replay.ts';
import { say } from '../../src/wording/say.ts';
import { HOUSES, type MadeWinter, madeWinter } from './support/real-winters.ts';
import { type Score, score } from './support/replay-score.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const at = (day: number, hour = 0) => day * DAY_MS + hour * HOUR_MS;
const steady = (days: number, tempC: (hour: number) => number) =>
  Array.from({ length: days * 24 + 1 }, (_, hour) => ({ atMs: hour * HOUR_MS, tempC: tempC(hour) }));
const setup = { stayId: 'box-1', fromMs: 0, startMassG: 1000, plannedWakeMs: at(60), expectedIntervalS: 3600 };
const weighIns = [0, 7, 14, 21].map((day) => ({ atMs: at(day), massG: 1000 - day * 0.33 }));
const diary = [7, 14, 21].map((day) => ({ atMs: at(day), kind: 'lid-opened' as const }));
const quiet: PastWinter = { setup, readings: steady(28, () => 5), weighIns, diary };

describe('a replayed winter', () => {
  it('says nothing of a quiet one but what the weigh-ins meant', () => {
    const replay = replayWinter(quiet, at(28));
    expect(replay.lines.map((line) => line.kind)).toEqual(['weigh-in', 'weigh-in', 'weigh-in']);
    expect(replay.counts).toEqual({ 'act-now': 0, 'look-today': 0, 'for-the-record': 0 });
  });

  it('says when a frost began and when it was over, in order of time, in words', () => {
    const replay = replayWinter(
      {
        ...quiet,
        readings: steady(28, (hour) => (hour >= 240 && hour < 246 ? -0.4 : 5)),
        diary: [...diary, { atMs: at(10, 9), kind: 'touch-response' as const }].sort((a, b) => a.atMs - b.atMs),
      },
      at(28),
    );
    const frost = replay.lines.filter((line) => line.kind !== 'weigh-in' && line.ruleId === 'frost');
    expect(frost.map(({ kind, atMs }) => [kind, atMs])).toEqual([
      ['begins', at(10)],
      ['ends', expect.any(Number)],
    ]);
    expect(replay.lines.map((line) => line.atMs)).toEqual(replay.lines.map((line) => line.atMs).sort((a, b) => a - b));
    for (const line of replay.lines) expect(say(line.say)).not.toMatch(/\{\{|undefined|NaN/);
    expect(replay.counts['act-now']).toBeGreaterThan(0);
  });

  it('explains a step by the diary, and asks for a second weighing without it', () => {
    const fallen = [...weighIns, { atMs: at(26), massG: 930 }];
    const told = replayWinter(
      { ...quiet, weighIns: fallen, diary: [...diary, { atMs: at(25), kind: 'urine' as const }] },
      at(28),
    );
    expect(told.notices.map((notice) => notice.ruleId)).toContain('urine');
    const last = (replay: typeof told) => replay.lines.filter((line) => line.kind === 'weigh-in').at(-1)!;
    expect(last(told).kind === 'weigh-in' && (last(told) as { weighAgain: boolean }).weighAgain).toBe(false);
    const untold = replayWinter({ ...quiet, weighIns: fallen }, at(28));
    expect((last(untold) as { weighAgain: boolean }).weighAgain).toBe(true);
    expect(untold.notices.map((notice) => notice.ruleId)).toContain('mass-band');
  });

  it('a figure typed in kilograms sets off no limit', () => {
    const replay = replayWinter({ ...quiet, weighIns: [...weighIns, { atMs: at(26), massG: 0.991 }] }, at(28));
    expect(replay.notices.map((notice) => notice.ruleId)).not.toContain('mass-10');
  });

  it('tells of a mass forecast that passes 8 % before the planned waking', () => {
    const thirsty = [0, 7, 14, 21].map((day) => ({ atMs: at(day), massG: 1000 - day * 1.8 }));
    const replay = replayWinter({ ...quiet, weighIns: thirsty }, at(28));
    expect(replay.notices.map((notice) => notice.ruleId)).toContain('mass-forecast');
    const ids = replayWinter(quiet, at(28)).notices.map((notice) => notice.ruleId);
    expect(ids).not.toContain('mass-forecast');
  });

  it('knows at each moment only what was known by then', () => {
    const whole = replayWinter({ ...quiet, readings: steady(28, (hour) => (hour > 500 ? 1 : 5)) }, at(20));
    expect(whole.notices).toEqual(replayWinter(quiet, at(20)).notices);
  });

  it('ends with the waking', () => {
    const replay = replayWinter(
      { ...quiet, readings: steady(28, (hour) => (hour > 480 ? 20 : 5)), wokenMs: at(20) },
      at(28),
    );
    expect(replay.lines.every((line) => line.atMs <= at(20))).toBe(true);
  });
});

describe('winters made from real weather by an independent solver', () => {
  // Six of the many that bench/prove/replay-winters.ts runs: frost, mild and mixed, light and heavy boxes.
  const made: MadeWinter[] = [
    madeWinter(101, 2013, HOUSES[0]!, -3),
    madeWinter(102, 2012, HOUSES[1]!, -3),
    madeWinter(103, 2013, HOUSES[2]!, 0),
    madeWinter(104, 2014, HOUSES[3]!, 0),
    madeWinter(105, 2012, HOUSES[2]!, -3),
    madeWinter(106, 2014, HOUSES[0]!, 0),
  ];
  const scores: Score[] = made.map(score);

  it('every act-now stretch is announced in time', () => {
    expect(scores.flatMap(({ missed }) => missed)).toEqual([]);
    expect(scores.reduce((sum, { due }) => sum + due, 0)).toBeGreaterThan(20);
  });

  it('at most one act-now without ground for each animal and winter', () => {
    for (const one of scores) expect(one.falseActNow.length, one.falseActNow.join('; ')).toBeLessThanOrEqual(1);
  });

  it('nine in ten breaches that the forecast had are announced at least 12 h before', () => {
    const foreseeable = scores.reduce((sum, one) => sum + one.foreseeable, 0);
    const announced = scores.reduce((sum, one) => sum + one.announced, 0);
    expect(foreseeable).toBeGreaterThan(10);
    expect(announced / foreseeable).toBeGreaterThanOrEqual(0.9);
  });

  it('the count itself notices a watch that sleeps', () => {
    const deaf = {
      ...made[0]!,
      past: { ...made[0]!.past, setup: { ...made[0]!.past.setup, settings: { 'under-2': { limit: -3 } } } },
    };
    expect(score(deaf).missed.length).toBeGreaterThan(0);
    const mute = {
      ...made[0]!,
      past: {
        ...made[0]!.past,
        forecasts: made[0]!.past.forecasts!.map((one) => ({ ...one, tempsC: one.tempsC })).slice(0, 0),
      },
    };
    expect(score(mute).announced).toBe(0);
  });
});

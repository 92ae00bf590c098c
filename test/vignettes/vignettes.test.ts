import { describe, expect, it } from 'vitest';
import { plannedBodyTemperature } from '../../src/physiology/body-temperature.ts';
import { gutOf, gutProgress, gutVerdict } from '../../src/physiology/gut-clearing.ts';
import { estimateMass } from '../../src/physiology/mass-estimator.ts';
import { assess } from '../../src/tortoise/assess.ts';
import type { GateName } from '../../src/tortoise/types.ts';
import { replayWatch } from '../../src/winter/watch.ts';
import { WATCH_RULES } from '../../src/winter/watch-rules.ts';
import { ANIMAL_CASES } from './animals.ts';
import { GUT_CASES, MASS_CASES } from './courses.ts';
import { NIGHT_CASES } from './nights.ts';

const DAY_MS = 86_400_000;

describe('whole animals', () => {
  it.each(ANIMAL_CASES)('$tale: $verdict ($ground)', ({ input, verdict, gate: [name, state], ceilingDays }) => {
    const found = assess(input);
    const gate = found.gates.find((each) => each.name === name);
    expect(gate?.state).toBe(state);
    expect(found.verdict).toBe(verdict);
    if (ceilingDays !== undefined) expect(found.length.ceilingDays).toBe(ceilingDays);
  });

  it('every gate is met from both sides', () => {
    const states = new Map<GateName, Set<boolean>>();
    for (const { input } of ANIMAL_CASES)
      for (const gate of assess(input).gates)
        states.set(gate.name, (states.get(gate.name) ?? new Set()).add(gate.state === 'passes'));
    for (const [name, sides] of states) expect([name, sides.size]).toEqual([name, 2]);
    expect(states.size).toBe(24);
  });
});

describe('nights of a sleeping animal', () => {
  const setup = { stayId: 'stay', fromMs: 0, startMassG: 1000, plannedWakeMs: 80 * DAY_MS, expectedIntervalS: 900 };

  it.each(NIGHT_CASES)('$tale ($ground)', ({ entries, nowMs, setup: change, said, silent }) => {
    const spoken = new Set(replayWatch({ ...setup, ...change }, entries, nowMs).notices.map((notice) => notice.ruleId));
    for (const rule of said) expect(spoken).toContain(rule);
    for (const rule of silent) expect(spoken).not.toContain(rule);
  });

  it('every rule on readings, weigh-ins and diary is met from both sides', () => {
    // The two that rest on the estimator stand among the courses of weigh-ins and in the tests of the replay.
    const elsewhere = ['mass-band', 'mass-forecast'];
    const said = new Set(NIGHT_CASES.flatMap((one) => one.said));
    const silent = new Set(NIGHT_CASES.flatMap((one) => one.silent));
    for (const { id } of WATCH_RULES) {
      if (elsewhere.includes(id)) continue;
      expect([id, said.has(id)]).toEqual([id, true]);
      expect([id, silent.has(id)]).toEqual([id, true]);
    }
  });
});

describe('courses of weigh-ins', () => {
  it.each(MASS_CASES)('$tale: $event ($ground)', ({ massesG, humidity, resolutionG, event, weighAgain }) => {
    const spans = (humidity ?? []).map((relativeHumidity, week) => ({
      fromMs: week * 7 * DAY_MS,
      toMs: (week + 1) * 7 * DAY_MS,
      tempC: 5,
      relativeHumidity,
    }));
    const weighIns = massesG.map((massG, week) => ({ atMs: week * 7 * DAY_MS, massG, resolutionG: resolutionG ?? 1 }));
    const last = estimateMass(weighIns, { spans }, humidity !== undefined).judged.at(-1)!;
    expect(last.event?.kind ?? 'none').toBe(event);
    expect(last.weighAgain).toBe(weighAgain);
  });
});

describe('autumns of the gut', () => {
  it.each(GUT_CASES)('$tale: $state ($ground)', ({ days, day, state }) => {
    const gut = gutOf(180);
    const series = plannedBodyTemperature(
      0,
      Array.from({ length: days }, () => day),
      1,
    );
    expect(gutVerdict(gutProgress(series, 0, gut), gut).state).toBe(state);
  });
});

it('the table holds well over forty cases, each with its ground', () => {
  const all = [...ANIMAL_CASES, ...NIGHT_CASES, ...MASS_CASES, ...GUT_CASES];
  expect(all.length).toBeGreaterThanOrEqual(40);
  expect(new Set(all.map((one) => one.tale)).size).toBe(all.length);
  for (const one of all) expect(one.ground.length).toBeGreaterThan(3);
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addWeighIn,
  estimateMass,
  massNow,
  startMassEstimate,
  type WeighIn,
} from '../../src/physiology/mass-estimator.ts';
import { forecastMass, longestSleepDays } from '../../src/physiology/mass-forecast.ts';
import { weighInMessage } from '../../src/physiology/weigh-in-message.ts';
import { say } from '../../src/wording/say.ts';

const DAY_MS = 86_400_000;
const AIR = { spans: [] };
const weekly = (masses: number[]): WeighIn[] => masses.map((massG, week) => ({ atMs: week * 7 * DAY_MS, massG }));
// A usual animal of 1 kg: about 2.3 g a week.
const COURSE = [1000, 998, 995, 993, 991, 988];
const last = (masses: number[], more: Partial<WeighIn> = {}) => {
  const weighIns = weekly(masses);
  weighIns[weighIns.length - 1] = { ...weighIns[weighIns.length - 1]!, ...more };
  const { estimate, judged } = estimateMass(weighIns, AIR, false);
  return { estimate, judged: judged[judged.length - 1]! };
};

describe('an ordinary course', () => {
  it('raises no event, learns a rate near the usual one and narrows', () => {
    const { estimate, judged } = estimateMass(weekly(COURSE), AIR, false);
    expect(judged.every(({ event, weighAgain }) => !event && !weighAgain)).toBe(true);
    const before = massNow(startMassEstimate({ atMs: 0, massG: 1000 }, false)).timesUsual;
    const now = massNow(estimate);
    expect(now.timesUsual.mid).toBeGreaterThan(0.7);
    expect(now.timesUsual.mid).toBeLessThan(1.4);
    expect(now.timesUsual.high / now.timesUsual.low).toBeLessThan(before.high / before.low / 2);
    expect(now.massG.low).toBeLessThan(988);
    expect(now.massG.high).toBeGreaterThan(988);
  });

  it('learns that one animal loses three times as much as another', () => {
    const thirsty = estimateMass(weekly([1000, 993, 986, 979, 972, 965]), AIR, false);
    const frugal = estimateMass(weekly(COURSE), AIR, false);
    expect(massNow(thirsty.estimate).timesUsual.mid / massNow(frugal.estimate).timesUsual.mid).toBeGreaterThan(2);
  });

  it('gives the same answer step by step as at once', () => {
    let estimate = startMassEstimate({ atMs: 0, massG: 1000 }, false);
    for (const weighIn of weekly(COURSE).slice(1)) ({ estimate } = addWeighIn(estimate, weighIn, AIR));
    expect(estimate).toEqual(estimateMass(weekly(COURSE), AIR, false).estimate);
    expect(JSON.parse(JSON.stringify(estimate))).toEqual(estimate);
  });

  it('is not misled about a coarse scale', () => {
    const { judged, estimate } = estimateMass(
      weekly([1000, 1000, 995, 995, 990, 990]).map((weighIn) => ({ ...weighIn, resolutionG: 5 })),
      AIR,
      false,
    );
    expect(judged.some(({ weighAgain }) => weighAgain)).toBe(false);
    expect(massNow(estimate).massG.high - massNow(estimate).massG.low).toBeGreaterThan(3);
  });
});

describe('a figure that does not fit', () => {
  it('urine: a drop of 5 % is an event, is not averaged away, and the worse value counts meanwhile', () => {
    const { estimate, judged } = last([...COURSE, 938]);
    expect(judged.event?.kind).toBe('drop');
    expect(judged.weighAgain).toBe(true);
    expect(judged.worseG).toBe(938);
    expect(massNow(estimate).massG.mid).toBeGreaterThan(980);
    expect(forecastMass(estimate, AIR, 1).p50G[0]).toBeLessThan(940);
  });

  it('urine: a second weighing that agrees confirms the step, keeps what was learnt of k, and the start stays the start', () => {
    const { estimate, judged } = last([...COURSE, 938, 936]);
    expect(judged.event?.kind).toBe('step-confirmed');
    expect(judged.weighAgain).toBe(false);
    expect(massNow(estimate).lossShare.mid).toBeCloseTo(0.063, 2);
    expect(massNow(estimate).timesUsual.mid).toBeLessThan(1.5);
  });

  it('urine told by the diary is taken at once', () => {
    const { estimate, judged } = last([...COURSE, 938], { since: 'urine' });
    expect(judged.event?.kind).toBe('urine');
    expect(judged.weighAgain).toBe(false);
    expect(massNow(estimate).massG.mid).toBeCloseTo(938, 0);
  });

  it('a drink told by the diary is taken at once, and untold asks for a second weighing', () => {
    expect(last([...COURSE, 1015], { since: 'drank' }).judged.weighAgain).toBe(false);
    const untold = last([...COURSE, 1015]).judged;
    expect(untold.event?.kind).toBe('rise');
    expect(untold.worseG).toBeLessThan(990);
  });

  it.each([
    ['one digit changed', 886],
    ['two digits swapped', 898],
    ['a digit left out', 86],
    ['a digit too many', 9866],
    ['the point moved', 98.6],
  ])('a mistyped figure (%s, %d) names what it may have been and is undone by the second weighing', (_what, typed) => {
    const first = last([...COURSE, typed]);
    expect(first.judged.weighAgain).toBe(true);
    expect(first.judged.event?.perhapsG.some((g) => g > 978 && g < 994)).toBe(true);
    const second = last([...COURSE, typed, 984]);
    expect(second.judged.event?.kind).toBe('misreading');
    expect(massNow(second.estimate).massG.mid).toBeCloseTo(985, -1);
    expect(second.judged.weighAgain).toBe(false);
  });

  it.each([
    ['kg', 0.986],
    ['oz', 34.8],
    ['lb', 2.17],
    ['g', 27_950],
  ])('a figure in %s (%d) is recognised and not learnt from', (unit, typed) => {
    const { judged, estimate } = last([...COURSE, typed]);
    expect(judged.event?.kind).toBe('wrong-unit');
    expect(judged.event?.unit).toBe(unit);
    expect(judged.worseG).toBeGreaterThan(970);
    expect(massNow(estimate).massG.mid).toBeGreaterThan(980);
  });

  it('the wrong animal on the scale is an event from both sides', () => {
    expect(last([...COURSE, 640]).judged.event?.kind).toBe('impossible');
    expect(last([...COURSE, 1420]).judged.event?.kind).toBe('impossible');
  });

  it('a drop just inside the model is none, just outside is one', () => {
    const { estimate } = estimateMass(weekly(COURSE), AIR, false);
    const at = (massG: number) => addWeighIn(estimate, { atMs: 42 * DAY_MS, massG }, AIR).judged;
    expect(at(979).event).toBeUndefined();
    expect(at(979).underExpected).toBe(true);
    expect(at(974).event?.kind).toBe('drop');
  });

  it('two odd figures that disagree leave the question open', () => {
    expect(last([...COURSE, 938, 905]).judged.weighAgain).toBe(true);
  });

  it('says each of them in a sentence', () => {
    for (const masses of [
      [...COURSE],
      [...COURSE, 938],
      [...COURSE, 938, 936],
      [...COURSE, 640],
      [...COURSE, 0.986],
      [...COURSE, 1015],
      [...COURSE, 979],
    ])
      expect(say(weighInMessage(last(masses).judged))).toMatch(/\d/);
    for (const since of ['urine', 'drank', 'other-scale'] as const)
      expect(say(weighInMessage(last([...COURSE, 980], { since }).judged, 'oz'))).toMatch(/oz/);
    expect(say(weighInMessage(last([...COURSE, 886]).judged))).toContain('986');
  });
});

describe('damp spells', () => {
  const spans = (humidities: number[]) =>
    humidities.map((relativeHumidity, week) => ({
      fromMs: week * 7 * DAY_MS,
      toMs: (week + 1) * 7 * DAY_MS,
      tempC: 5,
      relativeHumidity,
    }));

  it('a gain of 0.4 % after the humidity rose from 70 to 95 % is no error: for the record, and k is kept', () => {
    const climate = { spans: spans([0.7, 0.7, 0.7, 0.7, 0.7, 0.95]) };
    const before = estimateMass(weekly([1000, 996, 993, 989, 986, 982]), climate, true);
    const after = addWeighIn(before.estimate, { atMs: 42 * DAY_MS, massG: 986 }, climate);
    expect(after.judged.weighAgain).toBe(false);
    expect(after.judged.event?.kind).toBe('small-gain');
    const k = massNow(after.estimate).timesUsual.mid / massNow(before.estimate).timesUsual.mid;
    expect(k).toBeGreaterThan(0.85);
    expect(k).toBeLessThan(1.1);
  });
});

describe('forecast', () => {
  it('is ordered, falls, and its chances of passing a limit only grow', () => {
    const { estimate } = estimateMass(weekly(COURSE), AIR, false);
    const f = forecastMass(estimate, AIR, 60);
    for (let day = 0; day <= 60; day++) {
      expect(f.p05G[day]!).toBeLessThan(f.p25G[day]!);
      expect(f.p25G[day]!).toBeLessThan(f.p50G[day]!);
      expect(f.p50G[day]!).toBeLessThan(f.p75G[day]!);
      expect(f.p75G[day]!).toBeLessThan(f.p95G[day]!);
      if (day > 0) expect(f.p50G[day]!).toBeLessThan(f.p50G[day - 1]!);
      for (const limit of f.limits)
        if (day > 0) expect(limit.probability[day]!).toBeGreaterThanOrEqual(limit.probability[day - 1]!);
      expect(f.limits[0].probability[day]!).toBeGreaterThanOrEqual(f.limits[1].probability[day]!);
    }
  });

  it('names the days on which 8 and 10 % are reached', () => {
    const { estimate } = estimateMass(weekly([1000, 985, 970, 956, 941, 930]), AIR, false);
    const [plan, end] = forecastMass(estimate, AIR, 60).limits;
    expect(plan.earlyMs!).toBeLessThanOrEqual(plan.expectedMs!);
    expect(plan.expectedMs!).toBeLessThan(end.expectedMs!);
    expect((plan.expectedMs! - estimate.atMs) / DAY_MS).toBeLessThan(12);
  });

  it('the hatchling of 24.1 g that lost 4.7 % a month lies inside the band of a fresh estimate', () => {
    const f = forecastMass(startMassEstimate({ atMs: 0, massG: 24.1, resolutionG: 0.1 }, false), AIR, 92);
    expect(f.p05G[92]!).toBeLessThan(20.7);
    expect(f.p95G[92]!).toBeGreaterThan(20.7);
    const month = 24.1 * (1 - 0.047);
    expect(f.p05G[30]!).toBeLessThan(month);
    expect(f.p95G[30]!).toBeGreaterThan(month);
  });

  it('1 % a month at 1 kg, 5 °C and 80 % is the middle of a fresh estimate', () => {
    const f = forecastMass(startMassEstimate({ atMs: 0, massG: 1000 }, true), AIR, 30);
    expect(f.p50G[30]!).toBeGreaterThan(989);
    expect(f.p50G[30]!).toBeLessThan(991);
  });
});

describe('longest sleep', () => {
  const fresh = (massG: number) => startMassEstimate({ atMs: 0, massG, resolutionG: 0.1 }, false);

  it('is weeks for a hatchling and months for an adult, never over the ceiling', () => {
    expect(longestSleepDays(fresh(24), AIR, 91)).toBeLessThan(30);
    expect(longestSleepDays(fresh(1000), AIR, 91)).toBeGreaterThan(70);
    expect(longestSleepDays(fresh(1000), AIR, 28)).toBe(28);
  });

  it('ends the day before the upper end of the forecast loss reaches 8 %', () => {
    const days = longestSleepDays(fresh(50), AIR, 91);
    const f = forecastMass(fresh(50), AIR, days + 1);
    expect(1 - f.p05G[days]! / 50).toBeLessThan(0.08);
    expect(1 - f.p05G[days + 1]! / 50).toBeGreaterThanOrEqual(0.0799);
  });

  it('grows with damp air and with mass, shrinks with what was lost already', () => {
    const usual = (relativeHumidity: number, tempC = 5) => ({ spans: [], usual: { tempC, relativeHumidity } });
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 1500, noNaN: true }),
        fc.double({ min: 0.5, max: 0.9, noNaN: true }),
        (massG, humidity) => {
          const dry = longestSleepDays(fresh(massG), usual(humidity), 120);
          expect(longestSleepDays(fresh(massG), usual(humidity + 0.08), 120)).toBeGreaterThanOrEqual(dry);
          expect(longestSleepDays(fresh(massG * 1.3), usual(humidity), 120)).toBeGreaterThanOrEqual(dry);
          expect(longestSleepDays(fresh(massG), usual(humidity, 9), 120)).toBeLessThanOrEqual(dry);
        },
      ),
      { numRuns: 15 },
    );
    const thirsty = estimateMass(weekly([1000, 990, 980, 970]), AIR, false).estimate;
    expect(longestSleepDays(thirsty, AIR, 91)).toBeLessThan(longestSleepDays(fresh(1000), AIR, 91));
    const lost = estimateMass(weekly([1000, 960, 925, 915]), AIR, false).estimate;
    expect(longestSleepDays(lost, AIR, 91)).toBeLessThanOrEqual(21);
  });
});

describe('bad input', () => {
  it('refuses a mass of nothing and weigh-ins out of order', () => {
    expect(() => startMassEstimate({ atMs: 0, massG: 0 }, true)).toThrow(/above 0 g/);
    const { estimate } = estimateMass(weekly(COURSE), AIR, true);
    expect(() => addWeighIn(estimate, { atMs: 0, massG: 990 }, AIR)).toThrow(/order/);
    expect(() => addWeighIn(estimate, { atMs: 50 * DAY_MS, massG: Number.NaN }, AIR)).toThrow(/above 0 g/);
    expect(() => estimateMass([], AIR, true)).toThrow(/starting weigh-in/);
  });
});

import { describe, expect, it } from 'vitest';
import { meanKineticTemperatureC } from '../../../src/winter/mean-kinetic.ts';
import { replayWatch } from '../../../src/winter/watch.ts';
import { watchRule } from '../../../src/winter/watch-rules.ts';
import type { RuleId, RuleSettings, WatchEntry } from '../../../src/winter/watch-types.ts';

const MIN = 60_000;
const H = 60 * MIN;
const START = Date.UTC(2027, 0, 5);
/** Readings every `stepMin` minutes, the first an hour after the start. */
const readings = (tempsC: number[], stepMin: number): WatchEntry[] =>
  tempsC.map((tempC, i) => ({ kind: 'reading', atMs: START + H + i * stepMin * MIN, tempC }));
const spoke = (id: RuleId, entries: WatchEntry[], settings: RuleSettings = {}, accuracyC = 0) =>
  replayWatch(
    { stayId: 's', fromMs: START, settleS: 0, settings, accuracyC },
    entries,
    Math.max(...entries.map((entry) => entry.atMs)),
  ).notices.filter((one) => one.ruleId === id);

// WHO prequalification, category E006 (alarm rules of freeze indicators and 30-day recorders), as told in WHO's guide to 10-day
// electronic devices for international shipments (2007 to 2009) and in the humanitarian logistics handbook.
describe('the logic of alarms of WHO PQS E006', () => {
  const freeze: RuleSettings = { frost: { limit: -0.5, durationS: 3600 } };
  it('at or below −0.5 °C for 60 minutes, single event: alarms at the 60th minute, the threshold itself counts', () => {
    const at = (tempC: number, minutes: number) =>
      spoke('frost', readings([...Array(minutes / 10 + 1).fill(tempC), 4], 10), freeze);
    expect(at(-0.5, 60).map((one) => one.raisedMs - one.fromMs)).toEqual([H]);
    expect(at(-0.5, 40)).toHaveLength(0);
    expect(at(-0.4, 600)).toHaveLength(0);
  });

  it('separate dips shorter than the time do not alarm as a single event', () => {
    const dips = Array.from({ length: 12 }, () => [-1, -1, 4, 4]).flat();
    expect(spoke('frost', readings(dips, 10), freeze)).toHaveLength(0);
  });

  it('above 8 °C for 10 hours (from memory), continuous', () => {
    const rule: RuleSettings = { 'over-8': { limit: 8, durationS: 10 * 3600 } };
    const at = (hours: number) => spoke('over-8', readings([...Array(hours).fill(9), 5], 60), rule);
    expect(at(10)).toHaveLength(1);
    expect(at(9)).toHaveLength(0);
  });

  it('cumulative: warm hours in pieces add up, as with 20 h at or over 10 °C in all', () => {
    const rule: RuleSettings = { 'warm-week': { limit: 20 } };
    const pieces = (count: number) =>
      Array.from({ length: count }, () => [...Array(5).fill(11), ...Array(5).fill(5)]).flat();
    expect(spoke('warm-week', readings(pieces(4), 60), rule)).toHaveLength(1);
    expect(spoke('warm-week', readings(pieces(3), 60), rule)).toHaveLength(0);
  });

  it('the clock of a rule starts at the reading, not at its arrival: a late batch is replayed in time order', () => {
    const entries = readings([5, 5, 1, 1, 1, 1, 5, 5], 10);
    const late = [...entries.slice(4), ...entries.slice(0, 4)];
    expect(spoke('under-2', late)[0]).toMatchObject({ fromMs: START + H + 20 * MIN, raisedMs: START + H + 50 * MIN });
  });

  it('a low rule is short and tight, a high rule long', () => {
    expect(watchRule('under-2').durationS).toBeLessThan(watchRule('over-10').durationS);
    expect(watchRule('under-3').durationS).toBeLessThan(watchRule('over-8').durationS);
  });
});

// EN 12830, class 1: maximum error ±1 °C (from a compliance matrix to the 1999 text); class 0.5: ±0.5 °C (from memory).
describe('the stated accuracy of a probe, EN 12830', () => {
  it.each([
    [1, 2.5, true],
    [1, 3.1, false],
    [0.5, 2.4, true],
    [0.5, 2.6, false],
    [0, 2.1, false],
  ])('a probe of ±%d °C that reads %d °C leaves “under 2 °C” possible: %s', (accuracyC, tempC, possible) => {
    expect(spoke('under-2', readings(Array(8).fill(tempC), 10), {}, accuracyC)).toHaveLength(possible ? 1 : 0);
  });
});

// Mean kinetic temperature, formula of USP <1079> as given in an encyclopaedia; values computed by hand at dH/R = 10,000 K.
describe('mean kinetic temperature', () => {
  it.each([
    [[3, 5, 8, 12, 5, 4], undefined, 6.7724],
    [[5, 5, 5], undefined, 5],
    [[4, 10], [6, 2], 5.9518],
    [[20, 25, 30], undefined, 25.8582],
  ])('of %j weighted %j is %d °C', (tempsC, weights, expected) => {
    expect(meanKineticTemperatureC(tempsC, weights)).toBeCloseTo(expected, 3);
  });
  it('is never under the plain mean, whatever the order', () => {
    const temps = [2, 9, 4, 7, 5.5];
    const mean = temps.reduce((sum, one) => sum + one, 0) / temps.length;
    expect(meanKineticTemperatureC(temps)).toBeGreaterThan(mean);
    expect(meanKineticTemperatureC(temps.toReversed())).toBeCloseTo(meanKineticTemperatureC(temps), 9);
  });
});

// Costanzo & Claussen 1990 (supercooling of Terrapene carolina ends at −1.1 ± 0.3 °C within 0.1 to 2 h); Packard et al. 2000
// (body fluid of hatchling Emydoidea freezes near −0.7 °C).
it('frost speaks before ice can form in a turtle: at 0 °C, with the first reading', () => {
  const [notice] = spoke('frost', readings([2.2, 1, 0, -0.7, -1.1], 10));
  expect(notice).toMatchObject({ level: 'act-now', raisedMs: START + H + 20 * MIN });
});

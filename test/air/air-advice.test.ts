import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AirQuestion, adviseAir } from '../../src/air/air-advice.ts';
import { adviseHumidity } from '../../src/air/humidity-advice.ts';
import { say } from '../../src/wording/say.ts';

const question: AirQuestion = {
  freeVolumeM3: 0.03,
  tempC: 5,
  oxygenMlH: { low: 0.5, mid: 1.5, high: 5 },
  respiratoryQuotient: 0.71,
  holes: [{ count: 4, diameterMm: 10, depthMm: 3 }],
  newHole: { diameterMm: 10, depthMm: 3 },
  riseM: 0.2,
  differenceK: 0.5,
  boxLossWK: 0.5,
};

describe('holes against steadiness', () => {
  it('finds four thin holes enough for 1 kg, and the heat they take small', () => {
    const answer = adviseAir(question);
    expect(answer.state).toBe('enough');
    expect(answer.worst.oxygen).toBeGreaterThan(0.205);
    expect(answer.usual.oxygen).toBeGreaterThan(answer.worst.oxygen);
    expect(answer.holeLossShare).toBeLessThan(0.05);
    expect(answer.holesWanted).toEqual({ usual: 1, worst: 3 });
    expect(answer.supplyLH.likely).toBeGreaterThan(3 * answer.supplyLH.floor);
  });

  it('asks for more through a thick wall, and the number it asks for is enough and no more', () => {
    const thick = {
      ...question,
      holes: [{ count: 4, diameterMm: 10, depthMm: 60 }],
      newHole: { diameterMm: 10, depthMm: 60 },
    };
    const answer = adviseAir(thick);
    expect(answer.state).toBe('too-few');
    const drilled = (count: number) => adviseAir({ ...thick, holes: [{ count, diameterMm: 10, depthMm: 60 }] });
    expect(drilled(answer.holesWanted.worst).worst.oxygen).toBeGreaterThanOrEqual(0.205);
    expect(drilled(answer.holesWanted.worst - 1).worst.oxygen).toBeLessThan(0.205);
  });

  it('says when the holes cost more heat than the animal needs air', () => {
    const riddled = adviseAir({ ...question, holes: [{ count: 60, diameterMm: 20, depthMm: 3 }], differenceK: 3 });
    expect(riddled.state).toBe('more-than-needed');
    expect(riddled.holeLossShare).toBeGreaterThan(0.1);
  });

  it('a box without holes: too few, days of air, and the lid alone is reckoned', () => {
    const closed = adviseAir({ ...question, holes: [], lidEveryDays: 7, freeVolumeM3: 0.02 });
    expect(closed.state).toBe('too-few');
    expect(closed.sealedH.low / 24).toBeCloseTo(3.25, 1);
    expect(closed.beforeOpening!.oxygen).toBeLessThan(0.19);
    expect(closed.messages.map((one) => one.key)).toContain('air.low');
    expect(closed.holeLossWK).toBe(0);
  });

  it('says how damp the animal makes its own box: damper than around it, less so when air moves', () => {
    const { settledHumidity } = adviseAir({ ...question, damp: { evaporationM3S: 2.8e-6, humidityAround: 0.8 } });
    expect(settledHumidity!.floor).toBeGreaterThan(0.9);
    expect(settledHumidity!.likely).toBeLessThan(settledHumidity!.floor);
    expect(settledHumidity!.likely).toBeGreaterThan(0.8);
  });

  it('one set of holes or two equal halves are the same box', () => {
    const one = adviseAir(question);
    const two = adviseAir({
      ...question,
      holes: [
        { count: 2, diameterMm: 10, depthMm: 3 },
        { count: 2, diameterMm: 10, depthMm: 3 },
      ],
    });
    expect(two.supplyLH.likely).toBeCloseTo(one.supplyLH.likely, 9);
  });

  it('more holes never make the air worse nor the box steadier; every answer has words', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 30 }), fc.double({ min: 0.3, max: 10, noNaN: true }), (count, high) => {
        const ask = (n: number) =>
          adviseAir({
            ...question,
            oxygenMlH: { low: 0.1, mid: 0.2, high },
            holes: [{ count: n, diameterMm: 8, depthMm: 20 }],
            lidEveryDays: 7,
          });
        const fewer = ask(count);
        const more = ask(count + 1);
        expect(more.worst.oxygen).toBeGreaterThanOrEqual(fewer.worst.oxygen);
        expect(more.holeLossWK).toBeGreaterThanOrEqual(fewer.holeLossWK);
        for (const one of fewer.messages) expect(say(one)).not.toMatch(/\{\{|NaN|undefined/);
      }),
      { numRuns: 40 },
    );
  });
});

describe('damp and dry boxes', () => {
  it.each([
    [0.59, 'dry'],
    [0.6, 'middling'],
    [0.84, 'middling'],
    [0.85, 'damp'],
    [0.97, 'damp'],
    [0.98, 'dripping'],
  ])('%d is %s', (humidity, state) => {
    const advice = adviseHumidity(5, humidity);
    expect(advice.state).toBe(state);
    for (const { say: one, source } of advice.messages) {
      expect(say(one)).not.toMatch(/\{\{|NaN/);
      expect(source.cite.length).toBeGreaterThan(5);
    }
  });

  it('at 5 °C and 80 % the loss is the usual one; at 60 % twice that', () => {
    expect(say(adviseHumidity(5, 0.8).messages[0]!.say)).toContain('1.0 times');
    expect(say(adviseHumidity(5, 0.6).messages[0]!.say)).toContain('2.0 times');
    expect(adviseHumidity(5, 0.8).dewPointC).toBeCloseTo(1.84, 1);
    expect(adviseHumidity(5, 0).dewPointC).toBeLessThan(-40);
  });
});

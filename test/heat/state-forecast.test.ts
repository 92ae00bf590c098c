import { describe, expect, it } from 'vitest';
import { findModes } from '../../src/heat/modes.ts';
import { NetworkBuilder } from '../../src/heat/network.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';
import { forecastFromState, type RecentReading } from '../../src/heat/state-forecast.ts';
import { seededRandom } from '../../src/weather/random.ts';

function box() {
  const builder = new NetworkBuilder();
  const air = builder.input('place air');
  const heat = builder.input('heat of the animal');
  const wall = builder.node('wall', 3000);
  const lining = builder.node('lining', 0);
  const inner = builder.node('inner air', 200);
  const bottles = builder.node('bottles', 12_000);
  const animal = builder.node('animal', 5000);
  builder.boundary(air, wall, 1.4);
  builder.link(wall, lining, 1);
  builder.link(lining, inner, 2);
  builder.link(inner, bottles, 1.2);
  builder.link(inner, animal, 0.5);
  builder.source(heat, animal);
  const network = builder.build();
  return {
    network,
    inner,
    animal,
    model: { network, airInputs: [air], animalNode: animal, probeNodes: [inner, animal] },
  };
}

const hours = 48 + 72;

/** A box whose place differs from what is thought by a wandering amount and whose probes have offsets. */
function simulated(seed: number, awaySdK: number, weatherSdK24h: number) {
  const random = seededRandom(seed);
  const { network, inner, animal, model } = box();
  const thought = new Float64Array(hours + 1);
  const real = new Float64Array(hours + 1);
  let away = awaySdK * random.normal();
  let slow = 0;
  let miss = 0;
  for (let h = 0; h <= hours; h++) {
    slow = 0.985 * slow + 0.4 * random.normal();
    const fade = Math.exp(-1 / 12);
    away = fade * away + awaySdK * Math.sqrt(1 - fade * fade) * random.normal();
    const ahead = Math.max(0, h - 48) / 24;
    miss = fade * miss + weatherSdK24h * Math.sqrt(ahead) * Math.sqrt(1 - fade * fade) * random.normal();
    thought[h] = 5 + slow + 2.5 * Math.sin((h * Math.PI) / 12);
    real[h] = thought[h]! + away + miss;
  }
  const modes = findModes(network);
  const start = new Float64Array(5).fill(real[0]! + 2 * random.normal());
  const at = (node: number) => {
    const out = new Float64Array(hours + 1);
    run(makeRecursion(modes, node, 3600, { accuracyK: 0 }), [real, Float64Array.of(0)], out, start);
    return out;
  };
  const animalC = at(animal);
  const innerC = at(inner);
  const offset = 0.3 * random.normal();
  const readings: RecentReading[] = Array.from({ length: 48 }, (_, h) => ({
    probe: 0,
    atS: h * 3600,
    tempC: innerC[h]! + offset + 0.15 * random.normal(),
  }));
  return { model, thought, readings, animalC };
}

const ask = (case_: ReturnType<typeof simulated>, more = {}) =>
  forecastFromState(case_.model, {
    inputs: [case_.thought, Float64Array.of(0)],
    stepS: 3600,
    nowS: 47 * 3600,
    aheadS: 72 * 3600,
    readings: case_.readings,
    ...more,
  });

describe('forecast from the present state', () => {
  it('its 90 % band holds 85 to 95 % of the hours, near and far', () => {
    const bands = [0, 0, 0];
    const all = [0, 0, 0];
    let surprise = 0;
    const houses = 120;
    for (let seed = 1; seed <= houses; seed++) {
      const case_ = simulated(seed, 1, 1.5);
      const forecast = ask(case_);
      surprise += forecast.meanSquaredSurprise / houses;
      for (let k = 1; k <= 72; k++) {
        const part = k <= 12 ? 0 : k <= 36 ? 1 : 2;
        const truth = case_.animalC[47 + k]!;
        all[part]! += 1;
        if (truth >= forecast.low90C[k]! && truth <= forecast.high90C[k]!) bands[part]! += 1;
      }
    }
    bands.forEach((inside, part) => {
      expect(inside / all[part]!).toBeGreaterThan(0.85);
      expect(inside / all[part]!).toBeLessThan(0.955);
    });
    expect(surprise).toBeGreaterThan(0.7);
    expect(surprise).toBeLessThan(1.3);
  });

  it('knows more than the model alone, and less the further it looks', () => {
    let withReadings = 0;
    let without = 0;
    for (let seed = 200; seed < 240; seed++) {
      const case_ = simulated(seed, 1.5, 0.5);
      const forecast = ask(case_);
      const blind = ask(case_, { readings: case_.readings.slice(0, 1) });
      for (let k = 0; k < 12; k++) {
        withReadings += (forecast.meanC[k]! - case_.animalC[47 + k]!) ** 2;
        without += (blind.meanC[k]! - case_.animalC[47 + k]!) ** 2;
      }
      expect(forecast.sdK[0]!).toBeLessThan(forecast.sdK[36]!);
      expect(forecast.sdK[36]!).toBeLessThan(forecast.sdK[72]!);
    }
    expect(withReadings).toBeLessThan(0.5 * without);
  });

  it('sets aside a slip of the pen and says so', () => {
    const case_ = simulated(7, 0.5, 0.5);
    const slip = { probe: 0, atS: 30.5 * 3600, tempC: 52 };
    const forecast = ask(case_, { readings: [...case_.readings, slip] });
    expect(forecast.setAside).toEqual([slip]);
    const clean = ask(case_);
    for (let k = 0; k <= 72; k++) expect(forecast.meanC[k]!).toBeCloseTo(clean.meanC[k]!, 3);
  });

  it('does not care in what steps the time between readings was walked', () => {
    const case_ = simulated(3, 0.5, 0.5);
    const forecast = ask(case_);
    // A reading of no worth at odd moments splits the steps.
    const odd = Array.from({ length: 20 }, (_, i) => ({ probe: 1, atS: i * 7777.7, tempC: 400 }));
    const split = ask(case_, { readings: [...case_.readings, ...odd] });
    expect(split.setAside).toHaveLength(20);
    for (let k = 0; k <= 72; k++) {
      expect(split.meanC[k]!).toBeCloseTo(forecast.meanC[k]!, 6);
      expect(split.sdK[k]!).toBeCloseTo(forecast.sdK[k]!, 6);
    }
  });

  it('takes several probes and none of what was read after now', () => {
    const case_ = simulated(5, 1, 1);
    const both = ask(case_, { readings: [...case_.readings, { probe: 1, atS: 46 * 3600, tempC: case_.animalC[46]! }] });
    expect(both.sdK[0]!).toBeLessThan(ask(case_).sdK[0]!);
    const late = ask(case_, { readings: [...case_.readings, { probe: 1, atS: 60 * 3600, tempC: 0 }] });
    expect(late.meanC[0]).toBe(ask(case_).meanC[0]);
  });

  it('refuses weather that ends too soon and a box without a reading', () => {
    const case_ = simulated(1, 1, 1);
    expect(() => ask(case_, { aheadS: 200 * 3600 })).toThrow(/does not reach/);
    expect(() => ask(case_, { readings: [] })).toThrow(/at least one reading/);
  });
});

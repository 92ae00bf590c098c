import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RefrigeratorDescription } from '../../src/heat/description.ts';
import { NetworkBuilder } from '../../src/heat/network.ts';
import { hoursAfterPowerCut, refrigeratorAnswer, refrigeratorNetwork } from '../../src/heat/refrigerator.ts';
import { refrigeratorPresets } from '../../src/heat/refrigerator-data.ts';
import { say } from '../../src/wording/say.ts';

const fridge: RefrigeratorDescription = {
  preset: 'under-counter',
  fan: false,
  onAtC: 6,
  offAtC: 4,
  shelf: 'lower',
  ballastL: 5,
  load: { massKg: 3, specificHeatJkgK: 3000, lossWK: 0.6 },
};
const days = (n: number) => n * 86_400;
const kitchen = { room: { stepS: 3600, tempC: [19] }, spanS: days(4), startC: 8 };
const keys = (answer: { notes: readonly { key: string }[] }) => answer.notes.map((note) => note.key);

describe('a refrigerator', () => {
  it('holds the box steadier than its air', () => {
    const { run, nodes, settled } = refrigeratorAnswer(fridge, kitchen);
    const late = run.sampledC[nodes.upperAir]!.slice(-1440);
    expect(settled.highestC - settled.lowestC).toBeLessThan((Math.max(...late) - Math.min(...late)) / 2);
    expect(settled.duty).toBeGreaterThan(0.1);
    expect(settled.duty).toBeLessThan(0.5);
  });

  it('has shelves that differ without a fan and hardly with one', () => {
    const still = refrigeratorAnswer(fridge, kitchen);
    const stirred = refrigeratorAnswer({ ...fridge, fan: true }, kitchen);
    expect(still.shelfDifferenceK).toBeGreaterThan(1);
    expect(still.shelfDifferenceK).toBeLessThan(4);
    expect(Math.abs(stirred.shelfDifferenceK)).toBeLessThan(1);
    expect(keys(still)).toContain('heat.refrigerator.shelves');
  });

  it('says that it follows a cold room', () => {
    const answer = refrigeratorAnswer(fridge, { ...kitchen, room: { stepS: 3600, tempC: [2, -6] } });
    expect(keys(answer)).toContain('heat.refrigerator.cold-room');
    expect(keys(answer)).toContain('heat.refrigerator.too-cold');
    expect(answer.settled.lowestC).toBeLessThan(0);
    for (const note of answer.notes) expect(say(note).length).toBeGreaterThan(20);
  });

  it('says that it cannot cope with a hot kitchen', () => {
    const answer = refrigeratorAnswer({ ...fridge, coolingW: 25 }, { ...kitchen, room: { stepS: 3600, tempC: [35] } });
    expect(keys(answer)).toContain('heat.refrigerator.never-stops');
    expect(keys(answer)).toContain('heat.refrigerator.too-warm');
  });

  it('is hardly moved by opening the door for a look each day, and works harder for forty looks', () => {
    const doorsAtS = Array.from({ length: 40 }, (_, i) => days(2) + i * 3600);
    const shut = refrigeratorAnswer(fridge, kitchen);
    const opened = refrigeratorAnswer(fridge, { ...kitchen, doorsAtS });
    const daily = refrigeratorAnswer(fridge, { ...kitchen, doorsAtS: [days(2) + 3600, days(3) + 3600] });
    expect(opened.settled.duty).toBeGreaterThan(shut.settled.duty);
    expect(Math.abs(daily.settled.meanC - shut.settled.meanC)).toBeLessThan(0.05);
  });

  it('keeps its box cold longer in a power cut with more bottles, a better cabinet, or a cooler room', () => {
    const base = hoursAfterPowerCut(fridge, 20, 4);
    expect(base.hoursTo10!).toBeGreaterThan(base.hoursTo8!);
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 20, noNaN: true }), fc.double({ min: 1, max: 8, noNaN: true }), (l, k) => {
        expect(hoursAfterPowerCut({ ...fridge, ballastL: 5 + l }, 20, 4).hoursTo8!).toBeGreaterThan(base.hoursTo8!);
        expect(hoursAfterPowerCut(fridge, 20 - k, 4).hoursTo8!).toBeGreaterThan(base.hoursTo8!);
        expect(hoursAfterPowerCut({ ...fridge, lossWK: 1.3 / (1 + l / 10) }, 20, 4).hoursTo8!).toBeGreaterThan(
          base.hoursTo8!,
        );
      }),
      { numRuns: 15 },
    );
  });

  it('never reaches 8 °C in a room at 7 °C, and says so', () => {
    const answer = hoursAfterPowerCut(fridge, 7, 4);
    expect(answer.hoursTo8).toBeUndefined();
    expect(keys(answer)).toEqual(['heat.refrigerator.cut-never']);
  });

  it("takes a box's own network onto its shelf, heat of the animal included", () => {
    const box = new NetworkBuilder();
    const air = box.input('place air');
    const own = box.input('metabolic heat');
    const wall = box.node('wall', 500);
    const animal = box.node('animal', 9000);
    box.boundary(air, wall, 0.8);
    box.link(wall, animal, 0.4);
    box.source(own, animal);
    const shelved = { network: box.build(), animalNode: animal, heatW: [0, 0.5] };
    const { load: _, ...bare } = fridge;
    const built = refrigeratorNetwork(bare, shelved);
    expect(built.network.nodes[built.animal]!.name).toBe('animal');
    const warm = refrigeratorAnswer(bare, kitchen, shelved);
    const cold = refrigeratorAnswer(bare, kitchen, { ...shelved, heatW: [0, 0] });
    // 0.5 W over 0.4 W/K and 0.8 W/K in series.
    expect(warm.settled.meanC - cold.settled.meanC).toBeCloseTo(0.5 / 0.4 + 0.5 / 0.8, 0);
  });

  it.each(Object.keys(refrigeratorPresets) as (keyof typeof refrigeratorPresets)[])(
    '%s runs between 10 and 60 % of the time in a kitchen at 20 °C',
    (preset) => {
      const { settled } = refrigeratorAnswer({ ...fridge, preset }, { ...kitchen, room: { stepS: 3600, tempC: [20] } });
      expect(settled.duty).toBeGreaterThan(0.1);
      expect(settled.duty).toBeLessThan(0.6);
    },
  );

  it.each([{ lossWK: 0 }, { coolingW: -5 }, { volumeL: Number.NaN }])('refuses %j', (wrong) => {
    expect(() => refrigeratorNetwork({ ...fridge, ...wrong })).toThrow(/must be above 0/);
  });
});

import { describe, expect, it } from 'vitest';
import { checkBoxInPlace } from '../../src/heat/check.ts';
import type { BoxDescription, RefrigeratorPlace } from '../../src/heat/description.ts';
import { forecastRefrigerator } from '../../src/heat/refrigerator-forecast.ts';
import { placeDescriptionSchema } from '../../src/schema/place.ts';

const tub: BoxDescription = {
  shells: [
    {
      insideLengthMm: 320,
      insideWidthMm: 220,
      insideHeightMm: 190,
      walls: [{ material: 'plastic', thicknessMm: 2 }],
      lidFit: 'tight',
      holes: { count: 8, diameterMm: 8 },
    },
  ],
  bedding: { material: 'shredded-paper', depthMm: 60 },
  animal: { massG: 900 },
  probe: { at: 'beside-animal' },
};
const place = (change: Partial<RefrigeratorPlace> = {}, more: Partial<RefrigeratorPlace['refrigerator']> = {}) =>
  ({
    kind: 'refrigerator',
    refrigerator: { preset: 'under-counter', fan: true, onAtC: 6, offAtC: 4, shelf: 'lower', ballastL: 4.5, ...more },
    kitchenC: 20,
    doorsPerDay: 2,
    ...change,
  }) satisfies RefrigeratorPlace;
const sleep = { label: 'every winter', startMs: 0, days: 14 };
const settled = (of: RefrigeratorPlace) => forecastRefrigerator(of, tub, sleep);

describe('a box in a refrigerator', () => {
  it('is held between the thermostat’s ends for the whole sleep', () => {
    const { winter, animalC, stepS } = settled(place());
    expect(winter.hours).toBeCloseTo(14 * 24, 6);
    expect(animalC.length).toBe((14 * 86_400) / stepS + 1);
    expect(winter.steadiness).toBe(1);
    expect(winter.coldestC).toBeGreaterThan(4);
    expect(winter.warmestC).toBeLessThan(6);
  });

  it('follows the thermostat: a warmer setting is a warmer animal by as much', () => {
    const usual = settled(place()).winter.meanC;
    const warmer = settled(place({}, { onAtC: 8, offAtC: 6 })).winter.meanC;
    expect(warmer - usual).toBeGreaterThan(1.8);
    expect(warmer - usual).toBeLessThan(2.2);
  });

  it('holds longer in a power cut with water in it, and shorter in a warmer kitchen', () => {
    const dry = settled(place({}, { ballastL: 0 })).powerCut;
    const wet = settled(place({}, { ballastL: 12 })).powerCut;
    const warm = settled(place({ kitchenC: 26 }, { ballastL: 12 })).powerCut;
    expect(wet.hoursTo8!).toBeGreaterThan(1.3 * dry.hoursTo8!);
    expect(warm.hoursTo8!).toBeLessThan(wet.hoursTo8!);
    expect(wet.hoursTo10!).toBeGreaterThan(wet.hoursTo8!);
  });

  it('runs the compressor more when its door is opened often', () => {
    expect(settled(place({ doorsPerDay: 40 })).duty).toBeGreaterThan(settled(place({ doorsPerDay: 0 })).duty);
  });

  it('says so when the room is colder than the thermostat, and lets the box freeze with it', () => {
    const { winter, notes } = settled(place({ kitchenC: -3 }));
    expect(notes.map((note) => note.key)).toContain('heat.refrigerator.cold-room');
    expect(winter.coldestC).toBeLessThan(0);
  });

  it('takes no box that is larger than its shelf, and no thermostat that stops warmer than it starts', () => {
    expect(checkBoxInPlace(tub, place())).toEqual([]);
    // 45 litres: 31 cm wide inside.
    expect(checkBoxInPlace(tub, place({}, { preset: 'table-top' })).map((one) => one.message.key)).toEqual([
      'heat.check.largerThanPlace',
    ]);
    expect(placeDescriptionSchema.safeParse(place()).success).toBe(true);
    expect(placeDescriptionSchema.safeParse(place({}, { onAtC: 4, offAtC: 6 })).success).toBe(false);
  });
});

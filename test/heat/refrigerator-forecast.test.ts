import { describe, expect, it } from 'vitest';
import { checkBoxInPlace } from '../../src/heat/check.ts';
import type { BoxDescription, RefrigeratorPlace } from '../../src/heat/description.ts';
import { kitchenCourse } from '../../src/heat/kitchen.ts';
import { refrigeratorAnswer } from '../../src/heat/refrigerator.ts';
import { forecastRefrigerator } from '../../src/heat/refrigerator-forecast.ts';
import type { Day } from '../../src/measure/day.ts';
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
const sleep = { label: 'every winter', startMs: 0, firstDay: '2001-12-01', days: 14, latitudeDeg: 52 } as const;
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

describe('the kitchen’s day and year', () => {
  const warm = { kitchenC: 18, kitchenSummerC: 26, kitchenSwingK: 8 };
  const course = (firstDay: Day, latitudeDeg = 52) =>
    kitchenCourse(place(warm), { firstDay, days: 10, latitudeDeg }).tempC as Float64Array;
  const mean = (values: Float64Array) => values.slice(0, 240).reduce((sum, one) => sum + one, 0) / 240;

  it('runs from its midwinter to its midsummer mean, the other way round in the south', () => {
    expect(mean(course('2001-01-26'))).toBeCloseTo(18, 1);
    expect(mean(course('2001-07-27'))).toBeCloseTo(26, 1);
    expect(mean(course('2001-01-26', -35))).toBeCloseTo(26, 1);
    const day = course('2001-01-26');
    expect(day[17]! - day[5]!).toBeCloseTo(8, 1);
  });

  it('is one steady value where no day and no year are told', () => {
    expect(kitchenCourse(place(), { firstDay: '2001-01-01', days: 10, latitudeDeg: 52 }).tempC).toEqual(
      Float64Array.of(20),
    );
  });

  it('a warm afternoon makes the compressor run more than the night, at exact moments', () => {
    const room = kitchenCourse(place({ kitchenC: 20, kitchenSwingK: 14 }), {
      firstDay: '2001-01-20',
      days: 8,
      latitudeDeg: 52,
    });
    const fridge = place({}, { ballastL: 0 }).refrigerator;
    const { run, nodes } = refrigeratorAnswer(fridge, { room, spanS: 8 * 86_400, startC: 5, sampleS: 60 });
    // Running time from 14 to 20 o'clock, and from 2 to 8, over the last four days.
    const ran = (fromH: number, toH: number) => {
      let onS = 0;
      let sum = 0;
      for (const { atS, kind } of run.events) {
        if (kind === 'on') onS = atS;
        else if (kind === 'off')
          for (let day = 4; day < 8; day++) {
            const from = (day * 24 + fromH) * 3600;
            const to = (day * 24 + toH) * 3600;
            sum += Math.max(0, Math.min(atS, to) - Math.max(onS, from));
          }
      }
      return sum / (4 * (toH - fromH) * 3600);
    };
    const [afternoon, night] = [ran(14, 20), ran(2, 8)];
    // In balance the compressor takes out what the walls let in: loss x (room - inside) / cooling power.
    expect(afternoon / night).toBeGreaterThan(1.8);
    expect(afternoon).toBeCloseTo((1.3 * (26.2 - 5)) / 80, 1);
    expect(night).toBeCloseTo((1.3 * (13.8 - 5)) / 80, 1);
    // The sensor stands on the thermostat's limit at every switching, though the room bends every hour.
    const sensor = run.sampledC[nodes.upperAir]!;
    for (const { atS, kind } of run.events.slice(4, 60)) {
      if (kind !== 'on' && kind !== 'off') continue;
      const before = sensor[Math.floor(atS / 60)]!;
      const after = sensor[Math.ceil(atS / 60)]!;
      const limit = kind === 'on' ? 6 : 4;
      expect(Math.abs((before + after) / 2 - limit)).toBeLessThan(0.6);
      expect(kind === 'on' ? before : -before).toBeLessThanOrEqual(kind === 'on' ? 6 + 1e-9 : -4 + 1e-9);
    }
  });

  it('shortens the hours after a power cut, and raises the duty of an early autumn', () => {
    const steady = settled(place({ kitchenC: 18 }));
    const swinging = settled(place({ kitchenC: 18, kitchenSwingK: 8 }));
    expect(swinging.powerCut.hoursTo8!).toBeLessThan(steady.powerCut.hoursTo8!);
    const inMonth = (firstDay: Day) =>
      forecastRefrigerator(place({ kitchenC: 18, kitchenSummerC: 26 }), tub, { ...sleep, firstDay });
    expect(inMonth('2001-10-01').duty).toBeGreaterThan(inMonth('2001-01-20').duty + 0.02);
    expect(inMonth('2001-10-01').powerCut.hoursTo8!).toBeLessThan(inMonth('2001-01-20').powerCut.hoursTo8!);
  });
});

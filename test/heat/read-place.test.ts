import { describe, expect, it } from 'vitest';
import { isWhole } from '../../src/heat/answer.ts';
import { canSearch } from '../../src/heat/build-search.ts';
import type { BoxDescription } from '../../src/heat/description.ts';
import { forecastBox } from '../../src/heat/forecast.ts';
import { prepareWinters } from '../../src/heat/place-weather.ts';
import { airOfReadings, type HourMeans, placeOfReadings } from '../../src/heat/read-place.ts';
import { cutWinters } from '../../src/weather/winters.ts';

const HOUR_MS = 3_600_000;
const site = { zone: 'Europe/London', latitudeDeg: 52, longitudeDeg: -1 };
const sleep = { from: '12-01', days: 77 };
const box: BoxDescription = {
  shells: [
    {
      insideLengthMm: 500,
      insideWidthMm: 350,
      insideHeightMm: 300,
      walls: [{ material: 'polystyrene', thicknessMm: 30 }],
    },
  ],
  animal: { massG: 1000 },
};
/** Hour means from one day for some days. */
function read(from: string, days: number, tempC: (hour: number) => number, every = 1): HourMeans {
  const startMs = Date.parse(`${from}T00:00:00Z`);
  const hours = Array.from({ length: (days * 24) / every }, (_, k) => k * every);
  return { atMs: hours.map((hour) => startMs + hour * HOUR_MS), meanC: hours.map(tempC) };
}
const cellar = (hour: number) => 5 + 0.5 * Math.sin((2 * Math.PI * hour) / 24);
function placed(...thermometers: HourMeans[]) {
  const air = airOfReadings(thermometers)!;
  return placeOfReadings(prepareWinters(site, cutWinters(air, site.zone, { from: '09-22', days: 210 })), sleep);
}

describe('the air of a place by its readings', () => {
  it('stands in the middle of each hour, and is the mean where several thermometers read', () => {
    const air = airOfReadings([read('2025-12-01', 1, () => 4), read('2025-12-01', 2, () => 6)])!;
    expect(air.startMs).toBe(Date.parse('2025-12-01T00:30:00Z'));
    expect(air.airTempC).toHaveLength(48);
    expect(air.airTempC[3]).toBe(5);
    expect(air.airTempC[30]).toBe(6);
  });
  it('bridges the three hours between readings of a slow thermometer, and no longer hole', () => {
    const slow = airOfReadings([read('2025-12-01', 1, (hour) => hour, 4)])!;
    expect([...slow.airTempC.slice(0, 6)]).toEqual([0, 1, 2, 3, 4, 5]);
    const slower = airOfReadings([read('2025-12-01', 1, (hour) => hour, 5)])!;
    expect(slower.airTempC[5]).toBe(5);
    expect(slower.airTempC.slice(1, 5).every((tempC) => Number.isNaN(tempC))).toBe(true);
  });
  it('is none without a reading', () => {
    expect(airOfReadings([])).toBeUndefined();
    expect(airOfReadings([{ atMs: [], meanC: [] }])).toBeUndefined();
  });
});

describe('a place that goes by its readings', () => {
  it('gives a box the steady air that was read, in the winters in which it was read', () => {
    const { place } = placed(read('2023-10-01', 180, cellar), read('2024-10-01', 180, cellar));
    const found = forecastBox({ place: place!, box, sleep });
    expect(found.winters.map((one) => one.label)).toEqual(['2023-24', '2024-25']);
    expect(found.winters.every((one) => isWhole(one.answer) && one.answer.unknownHours === 0)).toBe(true);
    expect(found.answer.meanC.median).toBeCloseTo(5, 1);
    expect(found.answer.steadiness.low).toBe(1);
    expect(canSearch(place!, sleep)).toBe(true);
  });
  it('leaves what nobody read unknown, and widens the answer by it', () => {
    const { place } = placed(read('2025-12-20', 21, cellar));
    const { answer, animalC } = forecastBox({ place: place!, box, sleep }).winters[0]!;
    expect(isWhole(answer)).toBe(false);
    // The box takes the air's first days to follow it, and keeps its last ones a while.
    expect(answer.hours - answer.unknownHours).toBeGreaterThan(14 * 24);
    expect(answer.hours - answer.unknownHours).toBeLessThan(22 * 24);
    expect(Number.isNaN(animalC[0]!)).toBe(true);
    expect(answer.steadiness).toBe(1);
    expect(answer.steadinessRange[0]).toBeLessThan(0.3);
    expect(answer.steadinessRange[1]).toBe(1);
    expect(canSearch(place!, sleep)).toBe(false);
  });
  it('wants two weeks of the sleep, told by how many days there are', () => {
    const few = placed(read('2025-12-20', 13, cellar));
    expect(few.place).toBeUndefined();
    expect(few.mostDays).toBeCloseTo(13, 1);
    expect(few.leastDays).toBe(14);
    expect(placed(read('2025-12-20', 15, cellar)).place?.winters).toHaveLength(1);
    const summer = placed(read('2025-10-01', 40, cellar));
    expect(summer.place).toBeUndefined();
    expect(summer.mostDays).toBe(0);
  });
  it('takes a sleep shorter than that when nearly all of it was read', () => {
    const air = airOfReadings([read('2025-11-25', 12, cellar)])!;
    const winters = prepareWinters(site, cutWinters(air, site.zone, { from: '09-22', days: 210 }));
    expect(placeOfReadings(winters, { from: '12-01', days: 5 }).place).toBeDefined();
    expect(placeOfReadings(winters, { from: '12-05', days: 5 }).place).toBeUndefined();
  });
  it('leaves out a winter with too few and keeps the others', () => {
    const { place } = placed(read('2023-10-01', 180, cellar), read('2025-12-20', 5, cellar));
    expect(place!.winters.map(({ winter }) => winter.label)).toEqual(['2023-24']);
  });
});

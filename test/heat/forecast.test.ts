import { describe, expect, it } from 'vitest';
import type { BoxDescription, PlacePresetId, WeatherPlace } from '../../src/heat/description.ts';
import { answersOfBuild, forecastBox, forecastPlace, sleepStretches } from '../../src/heat/forecast.ts';
import { placePresets } from '../../src/heat/place-presets.ts';
import { prepareWinters } from '../../src/heat/place-weather.ts';
import { answerRange } from '../../src/heat/range.ts';
import type { Winter } from '../../src/weather/winters.ts';

const site = { zone: 'Europe/London', latitudeDeg: 52, longitudeDeg: -1 };
const HOURS = 24 * 90;
/** Invented weather: a winter that begins at local midnight of 1 December, with a daily and a slower wave. */
function winter(label: string, meanC: number, change: (t: number, k: number) => number = (t) => t): Winter {
  const airTempC = Float64Array.from({ length: HOURS }, (_, k) =>
    change(meanC + 3 * Math.sin((2 * Math.PI * (k - 9)) / 24) + 4 * Math.sin(k / 70), k),
  );
  return {
    label,
    origin: 'generated',
    fromDay: '2024-12-01',
    series: { startMs: Date.UTC(2024, 11, 1), stepS: 3600, airTempC, cloudShare: new Float64Array(HOURS).fill(0.8) },
    missingShare: 0,
  };
}
const fishBox: BoxDescription = {
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
const shed: WeatherPlace = { kind: 'building', preset: 'timber-shed' };
const prepared = prepareWinters(site, [winter('a', 5), winter('b', 2)]);
const mean = (values: Float64Array) => values.reduce((sum, t) => sum + t, 0) / values.length;
const spread = (values: Float64Array) => Math.max(...values) - Math.min(...values);

describe('places', () => {
  it.each(Object.keys(placePresets) as PlacePresetId[])(
    '%s: air between outdoors and house, no wilder than glass makes it',
    (preset) => {
      const place = forecastPlace({ kind: 'building', preset }, prepared);
      for (const one of place.winters) {
        expect(one.airC.every((t) => Number.isFinite(t))).toBe(true);
        expect(mean(one.airC)).toBeGreaterThan(mean(one.outdoorC) - 1.5);
        expect(mean(one.airC)).toBeLessThan(18);
        if (!['greenhouse', 'cold-frame'].includes(preset))
          expect(spread(one.airC)).toBeLessThan(spread(one.outdoorC) + 5);
      }
    },
  );
  it('an unheated room lies between outdoors and the house as EN 12831 has it (b 0.4 to 0.8)', () => {
    const place = forecastPlace(
      { kind: 'building', preset: 'unheated-room', glazing: { kind: 'double', areaM2: 0 } },
      prepared,
    );
    const one = place.winters[1]!;
    const b = (18 - mean(one.airC)) / (18 - mean(one.outdoorC));
    expect(b).toBeGreaterThan(0.4);
    expect(b).toBeLessThan(0.8);
  });
  it('a brick outbuilding is steadier than a shed, and a cellar than both', () => {
    const daily = (preset: PlacePresetId) => {
      const place = forecastPlace({ kind: 'building', preset, sunShare: 0 }, prepared);
      return forecastBox({ place, box: fishBox }).answer.meanDailySwingK.median;
    };
    expect(daily('brick-outbuilding')).toBeLessThan(daily('timber-shed'));
    expect(daily('cellar')).toBeLessThan(daily('brick-outbuilding'));
  });
  it('a window to the south warms a shed more than one to the north', () => {
    const air = (facingDeg: number) =>
      mean(
        forecastPlace({ ...shed, facingDeg, glazing: { kind: 'single', areaM2: 1.5 } } as WeatherPlace, prepared)
          .winters[0]!.airC,
      );
    expect(air(180)).toBeGreaterThan(air(0));
  });
  it('more draught brings the shed nearer to outdoors', () => {
    const offset = (airChangesPerHour: number) => {
      const one = forecastPlace({ ...shed, airChangesPerHour } as WeatherPlace, prepared).winters[0]!;
      return Math.abs(mean(one.airC) - mean(one.outdoorC));
    };
    expect(offset(10)).toBeLessThan(offset(1));
  });
  it('readings are taken as the air beside the box', () => {
    const place = forecastPlace({ kind: 'readings' }, prepared);
    expect(place.model).toBeUndefined();
    expect(place.winters[0]!.airC).toEqual(prepared.winters[0]!.airC);
  });
  it('says what was assumed: cloud, and the ground', () => {
    expect(prepared.cloudAssumed).toBe(false);
    expect(prepared.groundAssumed).toBe(true);
    const bare = winter('c', 4);
    const { cloudShare: _none, ...series } = bare.series;
    expect(prepareWinters(site, [{ ...bare, series }]).cloudAssumed).toBe(true);
  });
});

describe('forecast of a box', () => {
  const place = forecastPlace(shed, prepared);
  it('gives each winter, the worst by name, and the figures of the box', () => {
    const forecast = forecastBox({ place, box: fishBox });
    expect(forecast.winters.map((one) => one.label)).toEqual(['a', 'b']);
    expect(forecast.answer.worstWinter).toBe('b');
    expect(forecast.box.dampingOneIn).toBeGreaterThan(1);
    expect(forecast.box.animalHeatingK).toBeLessThan(0.2);
    expect(forecast.box.animalHeatingK).toBeGreaterThan(0);
  });
  it('answers for the nights of the sleep only', () => {
    const forecast = forecastBox({ place, box: fishBox, sleep: { from: '12-15', days: 30 } });
    expect(forecast.winters[0]!.answer.hours).toBe(30 * 24);
    expect(forecast.winters[0]!.startMs).toBe(Date.UTC(2024, 11, 15));
    const whole = forecastBox({ place, box: fishBox });
    const at = 14 * 24;
    expect(forecast.winters[0]!.animalC[0]).toBe(whole.winters[0]!.animalC[at]);
  });
  it('counts a sleep that runs past the record as not known, and refuses one outside it', () => {
    const forecast = forecastBox({ place, box: fishBox, sleep: { from: '02-20', days: 20 } });
    expect(forecast.winters[0]!.answer.unknownHours).toBeGreaterThan(10 * 24);
    expect(() => forecastBox({ place, box: fishBox, sleep: { from: '07-01', days: 20 } })).toThrow(RangeError);
  });
  it('gives a search the same answers as a drawing', () => {
    const sleep = { from: '12-20', days: 40 };
    const drawn = forecastBox({ place, box: fishBox, sleep }).winters.map((one) => one.answer);
    const searched = answersOfBuild(sleepStretches(place, sleep), fishBox);
    searched.forEach((answer, i) => {
      expect(answer.winter).toBe(drawn[i]!.winter);
      expect(answer.fromMs).toBe(drawn[i]!.fromMs);
      expect(answer.steadiness).toBeCloseTo(drawn[i]!.steadiness, 3);
      expect(answer.coldestC).toBeCloseTo(drawn[i]!.coldestC, 2);
    });
  });
  it('a probe in the outer space does not read the animal', () => {
    const nest: BoxDescription = {
      ...fishBox,
      shells: [
        { ...fishBox.shells[0]!, insideLengthMm: 700, insideWidthMm: 550, insideHeightMm: 500, fill: 'shredded-paper' },
        { ...fishBox.shells[0]!, walls: [{ material: 'plywood', thicknessMm: 9 }] },
      ],
      bedding: { material: 'shredded-paper', depthMm: 80 },
      probe: { at: 'outer-space' },
    };
    const one = forecastBox({ place, box: nest }).winters[0]!;
    expect(spread(one.probeC)).toBeGreaterThan(spread(one.animalC));
    const beside = forecastBox({ place, box: { ...nest, probe: { at: 'beside-animal' } } }).winters[0]!;
    expect(spread(beside.probeC)).toBeLessThan(spread(one.probeC));
  });
  it('without an animal shows where it would lie', () => {
    const { animal: _none, ...empty } = fishBox;
    const one = forecastBox({ place, box: empty });
    expect(one.box.heatW).toBe(0);
    expect(one.winters[0]!.animalC.length).toBe(HOURS);
  });
});

describe('what is known by words alone', () => {
  it('spreads the answer, around the middle one', () => {
    const range = answerRange(shed, fishBox, prepared);
    expect(range.doubts).toEqual(['air-change', 'materials']);
    const { coldestC } = forecastBox({ place: forecastPlace(shed, prepared), box: fishBox }).answer;
    expect(range.coldestC[0]).toBeLessThan(coldestC.median);
    expect(range.coldestC[1]).toBeGreaterThan(coldestC.median);
  });
  it('narrows to nothing once readings have told', () => {
    const known: WeatherPlace = { ...shed, airChangesPerHour: 2 } as WeatherPlace;
    const range = answerRange(known, { ...fishBox, tuning: { lossFactor: 1.1 } }, prepared);
    expect(range.doubts).toEqual([]);
    expect(range.steadiness[0]).toBe(range.steadiness[1]);
  });
});

describe('gaps in the weather', () => {
  const withGap = (from: number, hours: number) =>
    prepareWinters(site, [winter('gap', 5, (t, k) => (k >= from && k < from + hours ? Number.NaN : t))]);
  const unknown = (hours: number, box: BoxDescription = fishBox) =>
    forecastBox({ place: forecastPlace(shed, withGap(600, hours)), box }).winters[0]!.answer.unknownHours;
  it('leave hours not known, more the longer they are and the slower the box', () => {
    expect(unknown(24)).toBeGreaterThan(20);
    expect(unknown(72)).toBeGreaterThan(unknown(24));
    const slow = { ...fishBox, ballast: [{ bottles: 10, litresEach: 1.5 }] };
    expect(unknown(72, slow)).toBeGreaterThan(unknown(72));
  });
  it('leave the rest of the winter as it was', () => {
    const ground = { meanC: 10, amplitudeK: 7, coldestDay: 30 };
    const animal = (one: Winter) =>
      forecastBox({ place: forecastPlace(shed, prepareWinters(site, [one], { ground })), box: fishBox }).winters[0]!
        .animalC;
    const gap = animal(winter('gap', 5, (t, k) => (k >= 600 && k < 624 ? Number.NaN : t)));
    const whole = animal(winter('whole', 5));
    expect(Number.isNaN(gap[605]!)).toBe(true);
    expect(gap[590]).toBeCloseTo(whole[590]!, 2);
    expect(Math.abs(gap[1500]! - whole[1500]!)).toBeLessThan(0.1);
  });
  it('refuse a winter of nothing', () => {
    expect(() => prepareWinters(site, [winter('none', 5, () => Number.NaN)])).toThrow(RangeError);
    expect(() => prepareWinters(site, [])).toThrow(RangeError);
  });
});

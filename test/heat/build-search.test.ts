import { describe, expect, it } from 'vitest';
import { adviseBuild } from '../../src/heat/advice.ts';
import { BuildScorer, movedSleep, searchBuilds, withWallAndWater } from '../../src/heat/build-search.ts';
import type { BoxDescription, BuildingPlace } from '../../src/heat/description.ts';
import { forecastBox, forecastPlace, type PlaceForecast } from '../../src/heat/forecast.ts';
import { prepareWinters } from '../../src/heat/place-weather.ts';
import { CLIMATES } from '../../src/weather/climates.ts';
import { generateWinters } from '../../src/weather/generator.ts';
import { say } from '../../src/wording/say.ts';

const site = { zone: 'Europe/London', latitudeDeg: 52, longitudeDeg: -1 };
const normals = [7.6, 8, 10.5, 13, 16.5, 19.5, 21.5, 21, 18, 14.5, 10.5, 8].map((maxC, i) => ({
  maxC,
  minC: [2, 1.9, 3, 4.5, 7.5, 10.4, 12.5, 12.3, 10.3, 7.6, 4.5, 2.4][i]!,
}));
const prepared = prepareWinters(
  site,
  generateWinters({ normals, departures: CLIMATES[0]!, site, fromDay: '2025-11-01', days: 150, winters: 20, seed: 3 }),
  { normals },
);
const box: BoxDescription = {
  shells: [
    {
      insideLengthMm: 500,
      insideWidthMm: 400,
      insideHeightMm: 350,
      walls: [{ material: 'polystyrene', thicknessMm: 30 }],
    },
  ],
  bedding: { material: 'shredded-paper', depthMm: 150 },
  ballast: [{ bottles: 2, litresEach: 1.5 }],
  animal: { massG: 900 },
  stands: 'raised',
};
const sleep = { from: '12-08', days: 70 };
const building = (more: Partial<BuildingPlace> = {}) =>
  forecastPlace({ kind: 'building', preset: 'brick-outbuilding', ...more } as BuildingPlace, prepared);
const shifted = (place: PlaceForecast, byK: number, squeeze = 1): PlaceForecast => ({
  ...place,
  winters: place.winters.map((one) => {
    const bend = (values: Float64Array) => values.map((value) => 5.5 + (value - 5.5) * squeeze + byK);
    return { ...one, airC: bend(one.airC), floorC: bend(one.floorC) };
  }),
});
const shed = building();
const small = { wallMm: [30, 60, 100], litres: [3, 9], shiftWeeks: [0, 2] };
const keys = (messages: readonly { key: string }[]) => messages.map((one) => one.key);

describe('the score of a build', () => {
  it.each([
    [30, 3],
    [80, 0],
    [100, 18],
  ])('%d mm and %d l: is that of the full forecast within a thousandth of the hours and 0.05 K', (wallMm, litres) => {
    const tried = withWallAndWater(box, wallMm, litres);
    const score = new BuildScorer(shed).scores(tried, [sleep])[0]!;
    const full = forecastBox({ place: shed, box: tried, sleep }).winters.map((one) => one.answer);
    const hours = full.reduce((sum, one) => sum + one.hours, 0);
    const inBand = full.reduce((sum, one) => sum + one.inBandHours, 0);
    expect(Math.abs(score.inBandShare - inBand / hours)).toBeLessThan(0.002);
    expect(Math.abs(score.lowestC - Math.min(...full.map((one) => one.coldestC)))).toBeLessThan(0.05);
    expect(Math.abs(score.highestC - Math.max(...full.map((one) => one.warmestC)))).toBeLessThan(0.05);
    expect(Math.abs(score.meanC - full.reduce((sum, one) => sum + one.meanC, 0) / full.length)).toBeLessThan(0.02);
  });

  it('moves the sleep by whole weeks, over the new year too', () => {
    expect(movedSleep({ from: '12-27', days: 50 }, 2)).toEqual({ from: '01-10', days: 50 });
    expect(movedSleep({ from: '01-03', days: 50 }, -2)).toEqual({ from: '12-20', days: 50 });
  });
});

describe('the search', () => {
  it('finds the cheapest three builds in a place that suits, different in more than bottles', () => {
    const { best, tried } = searchBuilds({
      place: { id: 'pit', forecast: shifted(shed, 0, 0.4) },
      box,
      sleep,
      choices: small,
    });
    expect(tried).toBe(13);
    expect(best.length).toBeGreaterThan(0);
    for (const [i, build] of best.entries()) {
      expect(build.score.keptShare).toBeGreaterThanOrEqual(0.95);
      if (i > 0) expect(build.cost).toBeGreaterThanOrEqual(best[i - 1]!.cost);
    }
    expect(new Set(best.map((one) => `${one.wallMm}/${one.shiftWeeks}`)).size).toBe(best.length);
  });

  it('tries other places only when the present one will not do, and says they cost carrying', () => {
    const good = { id: 'cellar', forecast: shifted(shed, 0, 0.4) };
    const bad = { id: 'shed', forecast: shifted(shed, 6) };
    const moved = searchBuilds({ place: bad, otherPlaces: [good], box, sleep, choices: small });
    expect(moved.best[0]!.placeId).toBe('cellar');
    expect(moved.best[0]!.cost).toBeGreaterThanOrEqual(4);
    const stays = searchBuilds({ place: good, otherPlaces: [bad], box, sleep, choices: small });
    expect(stays.best.every((one) => one.placeId === 'cellar')).toBe(true);
  });
});

describe('the advice', () => {
  it('says that no box makes a warm place cold', () => {
    const advice = adviseBuild({ place: { id: 'hall', forecast: shifted(shed, 6) }, box, sleep, choices: small });
    expect(advice.trouble).toBe('place-too-warm');
    expect(keys(advice.messages)).toEqual(
      expect.arrayContaining(['heat.advice.place-too-warm', 'heat.advice.refrigerator', 'heat.advice.water-idle']),
    );
    expect(say(advice.messages.find((one) => one.key === 'heat.advice.place-too-warm')!)).toMatch(
      /No box makes a warm place cold/,
    );
  });

  it('says the same of a place whose warm spells outlast any box though its mean is right', () => {
    const advice = adviseBuild({ place: { id: 'loft', forecast: shifted(shed, 1, 1.6) }, box, sleep, choices: small });
    expect(['place-too-warm', 'place-too-cold']).toContain(advice.trouble);
  });

  it('says that a place is too cold', () => {
    const advice = adviseBuild({ place: { id: 'yard', forecast: shifted(shed, -6) }, box, sleep, choices: small });
    expect(advice.trouble).toBe('place-too-cold');
  });

  it('names another place when it helps most', () => {
    const advice = adviseBuild(
      {
        place: { id: 'shed', forecast: shifted(shed, 6) },
        otherPlaces: [{ id: 'cellar', forecast: shifted(shed, 0, 0.4) }],
        box,
        sleep,
        choices: small,
      },
      () => 'the cellar',
    );
    expect(advice.changes[0]!.change).toBe('place');
    expect(say(advice.messages.find((one) => one.key === 'heat.advice.change.place')!)).toMatch(/the cellar/);
    expect(keys(advice.messages)).toContain('heat.advice.build-elsewhere');
    for (const one of advice.messages) expect(say(one)).not.toMatch(/\{\{|undefined|NaN|\bsafe\b/);
  });

  it('is content with a build that keeps its winters', () => {
    const thick = withWallAndWater(box, 100, 18);
    const advice = adviseBuild({
      place: { id: 'pit', forecast: shifted(shed, 0, 0.4) },
      box: thick,
      sleep,
      choices: small,
    });
    expect(advice.trouble).toBe('none');
    expect(keys(advice.messages)).toContain('heat.advice.good');
  });

  it('promises nothing of a hundred winters when only one is known', () => {
    const place = shifted(shed, 0, 0.4);
    const advice = adviseBuild({
      place: { id: 'pit', forecast: { ...place, winters: place.winters.slice(0, 1) } },
      box: withWallAndWater(box, 100, 18),
      sleep,
      choices: small,
    });
    expect(say(advice.messages[0]!)).toMatch(/in the one winter that is known/);
  });

  it('its derivatives point the right way: a warmer place warms, thicker walls cut both sides where swings are the trouble', () => {
    const { sensitivities } = adviseBuild({
      place: { id: 'shed', forecast: building({ airChangesPerHour: 6 }) },
      // Without bottles: behind a thicker wall their ice lasts longer, and the hours under the band hardly change.
      box: withWallAndWater(box, 30, 0),
      sleep,
      choices: small,
    });
    const of = (name: string) => sensitivities.find((one) => one.of === name)!;
    expect(of('place-mean').hoursAboveBand).toBeGreaterThan(0);
    expect(of('place-mean').hoursBelowBand).toBeLessThan(0);
    expect(of('wall').hoursBelowBand).toBeLessThan(0);
    expect(of('wall').hoursBelowBand + of('wall').hoursAboveBand).toBeLessThan(0);
  });
});

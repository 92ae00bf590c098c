import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/measure/day.ts';
import { dayInZone, instantInZone } from '../../src/measure/zone.ts';
import { gapReport, lastSampleMs, resampleSeries, sliceSeries, type WeatherSeries } from '../../src/weather/series.ts';
import { seriesFromJson, seriesToJson } from '../../src/weather/series-json.ts';
import { cutWinters, windowOfDays } from '../../src/weather/winters.ts';

const HOUR = 3_600_000;
const hourly = (values: number[], startMs = 0): WeatherSeries => ({
  startMs,
  stepS: 3600,
  airTempC: Float64Array.from(values),
});
const years = (zone: string, fromDay: string, days: number): WeatherSeries => {
  const startMs = instantInZone(fromDay, zone);
  const count = (instantInZone(addDays(fromDay, days), zone) - startMs) / HOUR;
  return { startMs, stepS: 3600, airTempC: Float64Array.from({ length: count }, (_, i) => i % 24) };
};

describe('slices', () => {
  it('cover what was asked and show what is missing', () => {
    const slice = sliceSeries(hourly([1, 2, 3]), -2 * HOUR, 5 * HOUR);
    expect(slice.startMs).toBe(-2 * HOUR);
    expect([...slice.airTempC]).toEqual([Number.NaN, Number.NaN, 1, 2, 3, Number.NaN, Number.NaN]);
    expect(gapReport(slice).missingShare).toBeCloseTo(4 / 7, 12);
  });

  it('laid end to end give back the whole', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 50 }), fc.nat(60), (values, cut) => {
        const series = hourly(values);
        const end = lastSampleMs(series) + HOUR;
        const middle = Math.min(cut * HOUR, end);
        const parts = [sliceSeries(series, 0, middle), sliceSeries(series, middle, end)];
        expect(parts.flatMap((part) => [...part.airTempC])).toEqual(values);
      }),
    );
  });
});

describe('resampling', () => {
  it('draws a straight line between neighbours and none into a gap', () => {
    const finer = resampleSeries(hourly([0, 4, Number.NaN, 2]), 1800);
    expect([...finer.airTempC]).toEqual([0, 2, 4, Number.NaN, Number.NaN, Number.NaN, 2]);
  });

  it('takes the mean of whole stretches only, and none with a gap', () => {
    const daily = resampleSeries(hourly([1, 3, 5, Number.NaN, 9]), 7200, 'mean');
    expect([...daily.airTempC]).toEqual([2, Number.NaN]);
    expect(() => resampleSeries(hourly([1, 2]), 5000, 'mean')).toThrow(RangeError);
  });

  it('to a finer step and back changes nothing', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -40, max: 40, noNaN: true }), { minLength: 2, maxLength: 40 }),
        (values) => {
          const back = resampleSeries(resampleSeries(hourly(values), 900), 3600);
          expect([...back.airTempC]).toEqual(values);
        },
      ),
    );
  });
});

describe('gaps', () => {
  it('are told one by one, with the longest', () => {
    const report = gapReport(hourly([Number.NaN, 1, Number.NaN, Number.NaN, 2]));
    expect(report.gaps).toEqual([
      { fromMs: 0, toMs: HOUR },
      { fromMs: 2 * HOUR, toMs: 4 * HOUR },
    ]);
    expect(report.longestH).toBe(2);
    expect(report.missingShare).toBeCloseTo(0.6, 12);
  });

  it('survive the way through JSON as null', () => {
    const series = { ...hourly([1.25, Number.NaN]), cloudShare: Float64Array.of(0.5, 1) };
    const json = seriesToJson(series);
    expect(json.airTempC).toEqual([1.25, null]);
    expect(seriesFromJson(JSON.parse(JSON.stringify(json)))).toEqual(series);
    expect(() => seriesFromJson({ ...json, cloudShare: [1] })).toThrow(RangeError);
  });
});

describe('winters of a long record', () => {
  it('in the north cross the new year, in the south do not', () => {
    const north = cutWinters(years('Europe/London', '2012-01-01', 1461), 'Europe/London', { from: '11-15', days: 100 });
    // The first winter's start lies before the record: it is kept, with what is missing counted.
    expect(north.map((winter) => winter.label)).toEqual(['2011-12', '2012-13', '2013-14', '2014-15', '2015-16']);
    expect(north.map((winter) => Number(winter.missingShare.toFixed(2)))).toEqual([0.47, 0, 0, 0, 0.53]);
    const whole = cutWinters(
      years('Europe/London', '2012-01-01', 1461),
      'Europe/London',
      { from: '11-15', days: 100 },
      0.1,
    );
    expect(whole.map((winter) => winter.label)).toEqual(['2012-13', '2013-14', '2014-15']);
    const south = cutWinters(years('Pacific/Auckland', '2012-01-01', 1461), 'Pacific/Auckland', {
      from: '05-20',
      days: 90,
    });
    expect(south.map((winter) => winter.label)).toEqual(['2012', '2013', '2014', '2015']);
    expect(south.every((winter) => winter.missingShare === 0)).toBe(true);
  });

  it('begin and end at local midnight on either side of a clock change', () => {
    const zones = fc.constantFrom('Europe/London', 'America/Santiago', 'Australia/Lord_Howe', 'Pacific/Auckland');
    fc.assert(
      fc.property(zones, fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 200 }), (zone, month, days) => {
        const series = years(zone, '2024-01-01', 900);
        const from = `${String(month).padStart(2, '0')}-10`;
        for (const winter of cutWinters(series, zone, { from, days }, 0)) {
          expect(dayInZone(winter.series.startMs, zone)).toBe(winter.fromDay);
          expect(dayInZone(lastSampleMs(winter.series), zone)).toBe(addDays(winter.fromDay, days - 1));
          const span = instantInZone(addDays(winter.fromDay, days), zone) - instantInZone(winter.fromDay, zone);
          // Where the clock changes by half an hour the record's even hours fall between the new ones.
          expect(Math.abs(winter.series.airTempC.length - span / HOUR)).toBeLessThan(1);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('starting on a leap day start on 1 March where there is none', () => {
    const found = cutWinters(years('UTC', '2023-01-01', 800), 'UTC', { from: '02-29', days: 10 });
    expect(found.map((winter) => winter.fromDay)).toEqual(['2023-03-01', '2024-02-29', '2025-03-01']);
    expect(windowOfDays('2026-11-20', '2027-02-10')).toEqual({ from: '11-20', days: 83 });
    expect(() => windowOfDays('2026-11-20', '2026-11-19')).toThrow(RangeError);
  });
});

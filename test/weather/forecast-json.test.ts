import { describe, expect, it } from 'vitest';
import { readForecastJson } from '../../src/weather/forecast-json.ts';
import { say } from '../../src/wording/say.ts';

const lists = (hourly: object, units: object = {}, more: object = {}) => ({
  latitude: 52.52,
  longitude: -1.44,
  elevation: 96,
  utc_offset_seconds: 0,
  hourly_units: { time: 'unixtime', temperature_2m: '°C', ...units },
  hourly: { time: [1798761600, 1798765200, 1798768800], temperature_2m: [3.1, null, 2.4], ...hourly },
  ...more,
});
const entry = (time: string, details: object) => ({ time, data: { instant: { details } } });
const feature = (timeseries: object[], units: object = { air_temperature: 'celsius', relative_humidity: '%' }) => ({
  type: 'Feature',
  geometry: { type: 'Point', coordinates: [-1.44, 52.52, 96] },
  properties: { meta: { updated_at: '2027-01-01T05:20:11Z', units }, timeseries },
});
function answer(body: unknown) {
  const found = readForecastJson(body);
  if (!found.ok) throw new Error(found.problems.map((problem) => say(problem.what)).join());
  return found.value;
}
function refusal(body: unknown): string {
  const found = readForecastJson(body);
  if (found.ok) throw new Error('the answer was read');
  return found.problems.map((problem) => `${say(problem.where)}: ${say(problem.what)}`).join();
}

describe('hourly lists', () => {
  it('give a series with null as a gap, and the place the figures are for', () => {
    const found = answer(lists({}));
    expect(found.series.startMs).toBe(Date.parse('2027-01-01T00:00:00Z'));
    expect([...found.series.airTempC]).toEqual([3.1, Number.NaN, 2.4]);
    expect(found).toMatchObject({ latitudeDeg: 52.52, longitudeDeg: -1.44, elevationM: 96 });
  });

  it('convert Fahrenheit, per cent and kilometres an hour', () => {
    const found = answer(
      lists(
        { temperature_2m: [50, 32, 41], cloud_cover: [100, 0, 50], wind_speed_10m: [36, 0, null] },
        { temperature_2m: '°F', cloud_cover: '%', wind_speed_10m: 'km/h' },
      ),
    );
    expect([...found.series.airTempC]).toEqual([10, 0, 5]);
    expect([...found.series.cloudShare!]).toEqual([1, 0, 0.5]);
    expect(found.series.windMs![0]).toBeCloseTo(10, 12);
  });

  it('accept ISO times at Greenwich and refuse local ones', () => {
    const time = ['2027-01-01T00:00', '2027-01-01T01:00', '2027-01-01T02:00'];
    expect(answer(lists({ time }, { time: 'iso8601' })).series).toEqual(answer(lists({})).series);
    expect(refusal(lists({ time }, {}, { utc_offset_seconds: 3600 }))).toMatch(/local clock/);
  });

  it.each([
    ['unknown unit', lists({}, { temperature_2m: 'K' }), /temperature_2m in "K".*Ask for °C/],
    ['no unit', lists({}, { temperature_2m: undefined }), /Ask for °C/],
    ['lists of different length', lists({ temperature_2m: [1, 2] }), /as many values/],
    ['no temperature', lists({ temperature_2m: undefined }), /no air temperature/],
    ['text for a number', lists({ temperature_2m: [1, '2', 3] }), /entry 2 .*not a number/],
    ['times that do not rise', lists({ time: [1798765200, 1798761600, 1798768800] }), /entry 2 .*time/],
    ['an impossible temperature', lists({ temperature_2m: [1, 99, 3] }), /entry 2 .*no air has had/],
    ['nothing but gaps', lists({ temperature_2m: [null, null, null] }), /Every temperature/],
    ['an error of the service', { error: true, reason: 'Daily limit reached.' }, /refused: Daily limit reached/],
    ['another thing', [{ hello: 1 }], /not a weather forecast/],
    ['nothing', null, /not a weather forecast/],
  ])('with %s are refused', (_name, body, sentence) => {
    expect(refusal(body)).toMatch(sentence);
  });
});

describe('a time series of a place', () => {
  it('gives hours, six-hour steps as straight lines, longer ones as gaps', () => {
    const found = answer(
      feature([
        entry('2027-01-01T06:00:00Z', { air_temperature: -1.2, relative_humidity: 90 }),
        entry('2027-01-01T07:00:00Z', { air_temperature: -1.8, relative_humidity: 93 }),
        entry('2027-01-01T13:00:00Z', { air_temperature: 4.2, relative_humidity: 81 }),
        entry('2027-01-02T01:00:00Z', { air_temperature: 1 }),
      ]),
    );
    expect(found.series.airTempC.length).toBe(20);
    expect(found.series.airTempC[4]!).toBeCloseTo(1.2, 12);
    expect(found.series.relativeHumidity![1]).toBeCloseTo(0.93, 12);
    expect([...found.series.airTempC.subarray(8, 19)].every(Number.isNaN)).toBe(true);
    expect(found.series.airTempC[19]).toBe(1);
    expect(found).toMatchObject({ latitudeDeg: 52.52, longitudeDeg: -1.44, elevationM: 96 });
    expect(found.updatedAtMs).toBe(Date.parse('2027-01-01T05:20:11Z'));
  });

  it.each([
    [
      'a unit it does not know',
      feature([entry('2027-01-01T06:00:00Z', { air_temperature: 1 })], { air_temperature: 'K' }),
      /"K"/,
    ],
    ['a time without its zone', feature([entry('2027-01-01T06:00:00', { air_temperature: 1 })]), /entry 1 .*time/],
    ['no entries', feature([]), /not a weather forecast/],
    ['no temperature', feature([entry('2027-01-01T06:00:00Z', { relative_humidity: 1 })]), /no air temperature/],
  ])('with %s is refused', (_name, body, sentence) => {
    expect(refusal(body)).toMatch(sentence);
  });
});

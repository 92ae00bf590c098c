import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readWeatherCsv, type WeatherFileOptions } from '../../src/weather/weather-csv.ts';
import { say } from '../../src/wording/say.ts';

const london: WeatherFileOptions = { zone: 'Europe/London' };
function daily(text: string, options: WeatherFileOptions = london) {
  const found = readWeatherCsv(text, options);
  if (!found.ok)
    throw new Error(found.problems.map((problem) => `${say(problem.where)}: ${say(problem.what)}`).join('\n'));
  if (found.value.kind !== 'daily') throw new Error('hourly');
  return found.value;
}
function hourly(text: string, options: WeatherFileOptions = london) {
  const found = readWeatherCsv(text, options);
  if (!found.ok)
    throw new Error(found.problems.map((problem) => `${say(problem.where)}: ${say(problem.what)}`).join('\n'));
  if (found.value.kind !== 'hourly') throw new Error('daily');
  return found.value;
}
function problems(text: string, options: WeatherFileOptions = london): string[] {
  const found = readWeatherCsv(text, options);
  if (found.ok) throw new Error('the file was read');
  return found.problems.map((problem) => `${say(problem.where)}: ${say(problem.what)}`);
}

describe('a file of daily extremes', () => {
  it('is read as it comes: Seattle 2012-2015 (NOAA, in vega-datasets)', () => {
    const file = daily(readFileSync('node_modules/vega-datasets/data/seattle-weather.csv', 'utf8'));
    expect(file.days).toHaveLength(1461);
    expect(file.days[0]).toEqual({ day: '2012-01-01', maxC: 12.8, minC: 5 });
    expect(file.columns).toMatchObject({ day: 'date', max: 'temp_max', min: 'temp_min' });
    expect(file.unit).toBe('C');
    expect(file.gaps).toEqual([]);
  });

  it.each([
    ['semicolon, decimal comma, German', 'Datum;Max (°C);Min (°C)\n05.11.2026;9,5;1,2\n'],
    ['tab, byte order mark, CRLF', '\ufeffDate\tTmax\tTmin\r\n2026-11-05\t9.5\t1.2\r\n'],
    ['quotes, other order of columns', '"low","high","day"\n"1.2","9.5","2026-11-05"\n'],
    ['compact date, a real minus sign', 'date,maximum temperature,minimum temperature\n20261105,9.5,1.2\n'],
    ['French, unit in the cells', 'Jour;Température maxi;Température mini\n05/11/2026;9,5 °C;1,2 °C\n', 'day-first'],
    ['a lead-in line and wind columns', 'Own record\nDate,Wind max,Max,Min\n2026-11-05,30,9.5,1.2\n'],
  ])('%s', (_name, text, dateOrder?: string) => {
    const options = dateOrder === 'day-first' ? { ...london, dateOrder: 'day-first' as const } : london;
    const german = /^0?5\.11/m.test(text) ? { ...options, dateOrder: 'day-first' as const } : options;
    expect(daily(text, german).days).toEqual([{ day: '2026-11-05', maxC: 9.5, minC: 1.2 }]);
  });

  it('in Fahrenheit is turned into Celsius where the file says so, and asked about where it does not', () => {
    expect(daily('date,max °F,min °F\n2026-11-05,50,41\n').days[0]).toEqual({ day: '2026-11-05', maxC: 10, minC: 5 });
    expect(daily('date,max,min\n2026-11-05,50,41\n', { ...london, unit: 'F' }).days[0]!.minC).toBe(5);
    expect(problems('date,max,min\n2026-11-05,50,41\n')[0]).toMatch(/line 1 .*Fahrenheit, choose °F/);
  });

  it('keeps its gaps: missing values and missing days', () => {
    const file = daily('date,max,min\n2026-11-05,9,1\n2026-11-06,,1\n2026-11-07,9,-9999\n2026-11-09,8,2\n');
    expect(file.days.map((row) => row.day)).toEqual(['2026-11-05', '2026-11-09']);
    expect(file.gaps).toEqual([{ fromDay: '2026-11-06', toDay: '2026-11-08' }]);
  });

  it.each([
    [
      'a day twice',
      'date,max,min\n2026-11-05,9,1\n2026-11-06,9,1\n2026-11-05,8,1\n',
      /line 4 .*2026-11-05 stands here and on line 2/,
    ],
    [
      'a word for a number',
      'date,max,min\n2026-11-05,9,1\n2026-11-06,mild,1\n',
      /line 3 .*"mild" under "max" is not a number/,
    ],
    ['a day that is none', 'date,max,min\n2026-02-30,9,1\n', /line 2 .*no such day/],
    ['no date', 'date,max,min\nyesterday,9,1\n', /line 2 .*"yesterday" is not a date/],
    ['a short line', 'date,max,min\n2026-11-05,9\n', /line 2 .*stops before the column "min"/],
    ['maximum below minimum', 'date,max,min\n2026-11-05,1,9\n', /line 2 .*maximum, 1, lies below the minimum, 9/],
    ['no air that cold', 'date,max,min\n2026-11-05,9,-120\n', /line 2 .*-120 °C is a temperature no air has had/],
    ['no temperature column', 'date,rain,wind\n2026-11-05,9,1\n', /line 1 .*The headings are: date, rain, wind/],
    ['no date column', 'max,min\n9,1\n', /line 1 .*which column holds the date/],
    ['two columns for one thing', 'date,max,max 2 m,min\n2026-11-05,9,9,1\n', /More than one column .*max, max 2 m/],
    ['a mean a day', 'date,temperature\n2026-11-05,9\n2026-11-06,8\n', /line 1 .*one temperature a day/],
    ['ambiguous dates', 'date,max,min\n05/11/2026,9,1\n06/11/2026,9,1\n', /line 2 .*day first or with the month first/],
    ['nothing', '', /no readings/],
    ['headings only', 'date,max,min\n', /no readings/],
  ])('with %s is refused, and the line is named', (_name, text, sentence) => {
    expect(problems(text)[0]).toMatch(sentence);
  });

  it('is read wholly or not at all, and names every bad line up to twenty', () => {
    const bad = Array.from({ length: 30 }, (_, i) => `2026-11-${String(i + 1).padStart(2, '0')},x,1`).join('\n');
    expect(problems(`date,max,min\n${bad}\n`)).toHaveLength(20);
  });

  it('takes the columns the keeper names, by heading or by number', () => {
    const text = 'a,b,c\n2026-11-05,1.2,9.5\n';
    const options = { ...london, columns: { day: 'a', max: '3', min: 'B' } };
    expect(daily(text, options).days).toEqual([{ day: '2026-11-05', maxC: 9.5, minC: 1.2 }]);
    expect(problems(text, { ...london, columns: { day: 'when' } })[0]).toMatch(/no column "when".*a, b, c/);
  });

  it('tells day and month apart where one number is over 12', () => {
    expect(daily('date,max,min\n05/11/2026,9,1\n13/11/2026,9,1\n').days[0]!.day).toBe('2026-11-05');
    expect(daily('date,max,min\n11/05/2026,9,1\n11/13/2026,9,1\n').days[0]!.day).toBe('2026-11-05');
  });
});

describe('a file by the hour', () => {
  const rows = (times: string[], value = (i: number) => String(i)) =>
    `time,temperature\n${times.map((time, i) => `${time},${value(i)}`).join('\n')}\n`;

  it('with an offset, in UTC or in Unix seconds gives the same instants', () => {
    const offset = hourly(rows(['2026-11-05T01:00+01:00', '2026-11-05T02:00+01:00'])).series;
    const utc = hourly(rows(['2026-11-05 00:00Z', '2026-11-05 01:00Z'])).series;
    const unix = hourly(rows(['1793836800', '1793840400'])).series;
    expect(offset).toEqual(utc);
    expect(unix).toEqual(utc);
    expect(utc.startMs).toBe(Date.parse('2026-11-05T00:00:00Z'));
  });

  it('in local time takes the repeated hour of autumn twice, forwards and backwards', () => {
    const times = ['2026-10-25 00:00', '2026-10-25 01:00', '2026-10-25 01:00', '2026-10-25 02:00'];
    const { series } = hourly(rows(times));
    expect(series.startMs).toBe(Date.parse('2026-10-24T23:00:00Z'));
    expect([...series.airTempC]).toEqual([0, 1, 2, 3]);
    const backwards = hourly(rows([...times].reverse(), (i) => String(3 - i))).series;
    expect(backwards).toEqual(series);
  });

  it('with an hour that spring skipped is a question, not a guess', () => {
    const times = ['2027-03-28 00:00', '2027-03-28 01:00', '2027-03-28 02:00'];
    expect(problems(rows(times))[0]).toMatch(/line 3 .*clock of Europe\/London skipped this hour/);
    expect([...hourly(rows(times), { zone: 'UTC' }).series.airTempC]).toEqual([0, 1, 2]);
  });

  it('keeps a missing hour and a missing value missing', () => {
    const text =
      'date,time,temp C,cloud\n2026-11-05,00:00,1,8\n2026-11-05,01:00,,4\n2026-11-05,02:00,3,\n2026-11-05,05:00,6,0\n';
    const { series } = hourly(text);
    expect([...series.airTempC]).toEqual([1, Number.NaN, 3, Number.NaN, Number.NaN, 6]);
    expect([...series.cloudShare!]).toEqual([1, 0.5, Number.NaN, Number.NaN, Number.NaN, 0]);
  });

  it('reads the hourly normals of Seattle (NOAA, in vega-datasets) on the clock of its place', () => {
    const text = readFileSync('node_modules/vega-datasets/data/seattle-weather-hourly-normals.csv', 'utf8');
    const { series } = hourly(text, { zone: 'Etc/GMT+8' });
    expect(series.airTempC.length).toBe(8759);
    expect(series.windMs![0]).toBe(3.8);
    expect(problems(text, { zone: 'America/Los_Angeles' })[0]).toMatch(/skipped this hour/);
  });

  it.each([
    [
      'a time twice',
      ['2026-11-05 01:00', '2026-11-05 02:00', '2026-11-05 02:00', '2026-11-05 03:00'],
      /line 4 .*same time as line 3/,
    ],
    [
      'time going back',
      ['2026-11-05 01:00', '2026-11-05 03:00', '2026-11-05 02:00', '2026-11-05 04:00'],
      /line 4 .*goes back from line 3/,
    ],
    ['a clock that is none', ['2026-11-05 25:00'], /line 2 .*not a date or time/],
  ])('with %s is refused', (_name, times, sentence) => {
    expect(problems(rows(times))[0]).toMatch(sentence);
  });

  it('understands 24:00 and the twelve-hour clock', () => {
    const text = 'date,time,temp\n2026-11-05,11:00 pm,1\n2026-11-05,24:00,2\n2026-11-06,1:00 am,3\n';
    expect([...hourly(text).series.airTempC]).toEqual([1, 2, 3]);
  });
});

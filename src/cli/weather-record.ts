import { dirname, resolve } from 'node:path';
import type { Day } from '../measure/day.ts';
import type { SimulateBoxes } from '../schema/simulate-boxes.ts';
import { daysFromSeries, normalsOfDays } from '../weather/daily.ts';
import { hoursFromDays } from '../weather/day-curve.ts';
import type { MonthlyNormal } from '../weather/normals.ts';
import type { WeatherSeries } from '../weather/series.ts';
import { readWeatherCsv } from '../weather/weather-csv.ts';
import { say } from '../wording/say.ts';
import { readText } from './input.ts';
import { Refusal } from './outcome.ts';

export interface WeatherRecord {
  readonly series: WeatherSeries;
  /** From the record itself, where every month has days enough; they set the warmth of the ground. */
  readonly normals: readonly MonthlyNormal[] | undefined;
  readonly kind: 'daily' | 'hourly';
  readonly gaps: readonly { readonly fromDay: Day; readonly toDay: Day }[];
}

/** The weather of an input: its rows, or the file it names, whose path is taken from the folder of the input itself. */
export async function weatherRecord({ weather, site }: SimulateBoxes, inputFile: string): Promise<WeatherRecord> {
  if ('days' in weather)
    return {
      series: hoursFromDays(weather.days, site),
      normals: normalsOfDays(weather.days),
      kind: 'daily',
      gaps: [],
    };
  const { file, ...told } = weather;
  const path = resolve(inputFile === '-' ? '.' : dirname(inputFile), file);
  const read = readWeatherCsv(await readText(path), { zone: site.zone, ...told });
  if (!read.ok)
    throw new Refusal(
      say('cli.simulate.weatherRefused'),
      read.problems.map(({ where, what }) => ({ where: `${file}, ${say(where)}`, what: say(what) })),
    );
  const found = read.value;
  return found.kind === 'daily'
    ? { series: hoursFromDays(found.days, site), normals: normalsOfDays(found.days), kind: 'daily', gaps: found.gaps }
    : {
        series: found.series,
        normals: normalsOfDays(daysFromSeries(found.series, site.zone)),
        kind: 'hourly',
        gaps: [],
      };
}

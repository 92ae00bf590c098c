import { z } from 'zod';
import { isZone } from '../../measure/zone.ts';
import { keepWeather, type WeatherHour } from '../../records/weather.ts';
import { hoursFromDays } from '../../weather/day-curve.ts';
import { resampleSeries, sampleMs, type WeatherSeries } from '../../weather/series.ts';
import { say } from '../../wording/say.ts';
import { type Api, route } from '../api.ts';
import { bytesBody } from '../body.ts';
import type { ServerContext } from '../context.ts';
import { Refusal } from '../problem-answers.ts';

const MOST_BYTES = 30_000_000;
const HOUR_S = 3600;

/** Weather records of the place: what recorded winters are cut from. */
export function weatherRoutes(api: Api, context: ServerContext): void {
  const { database } = context;
  route(
    api,
    context,
    {
      method: 'post',
      path: '/api/v1/weather/records',
      needs: 'tutor',
      summary: 'Take in a weather file (CSV, daily extremes or hourly); all or nothing, and again without effect',
      query: z.object({
        zone: z.string().max(60).refine(isZone, { error: 'zone' }).optional(),
        unit: z.enum(['C', 'F']).optional(),
        dateOrder: z.enum(['day-first', 'month-first']).optional(),
      }),
      answer: z
        .strictObject({
          kind: z.enum(['daily', 'hourly']),
          unit: z.enum(['C', 'F']),
          hours: z.int(),
          columns: z.record(z.string(), z.string()),
        })
        .meta({ id: 'WeatherTakenIn', description: 'How the file was understood, and how many hours it gave' }),
      problems: ['too-large', 'wrong-content-type'],
    },
    async ({ query, who, scope, http }) => {
      if (!/^text\/(csv|plain)/.test(http.req.header('content-type') ?? ''))
        throw new Refusal('wrong-content-type', say('server.problem.wrong-content-type', { type: 'text/csv' }));
      const text = new TextDecoder().decode(await bytesBody(http, MOST_BYTES));
      const { group } = who;
      // The reader of tables is loaded with the first one.
      const { readWeatherCsv } = await import('../../weather/weather-csv.ts');
      const read = readWeatherCsv(text, {
        zone: query.zone ?? group.zone,
        ...(query.unit ? { unit: query.unit } : {}),
        ...(query.dateOrder ? { dateOrder: query.dateOrder } : {}),
      });
      if (!read.ok) {
        const problems = read.problems.map(({ where, what }) => ({ where: say(where), what: say(what) }));
        throw new Refusal('invalid', problems[0]!.what, problems);
      }
      const file = read.value;
      const site = { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone };
      const hours = hoursOf(file.kind === 'hourly' ? file.series : hoursFromDays(file.days, site));
      await keepWeather(database, scope.groupId, hours, 'file');
      return {
        kind: file.kind,
        unit: file.unit,
        hours: hours.length,
        columns: { ...file.columns } as Record<string, string>,
      };
    },
  );
}

/** The samples on whole hours; a missing one stays missing. */
function hoursOf(given: WeatherSeries): WeatherHour[] {
  const series = given.stepS === HOUR_S ? given : resampleSeries(given, HOUR_S);
  return Array.from(series.airTempC, (tempC, index): WeatherHour => {
    const [cloud, humidity] = [series.cloudShare?.[index], series.relativeHumidity?.[index]];
    return {
      atMs: sampleMs(series, index),
      tempC,
      ...(cloud === undefined || Number.isNaN(cloud) ? {} : { cloudShare: cloud }),
      ...(humidity === undefined || Number.isNaN(humidity) ? {} : { relativeHumidity: humidity }),
    };
  }).filter((hour) => !Number.isNaN(hour.tempC));
}

import { addDays, type Day } from '../measure/day.ts';
import { dayInZone } from '../measure/zone.ts';
import type { Group } from '../schema/group.ts';
import type { Winters } from '../schema/winters.ts';
import { CLIMATES } from '../weather/climates.ts';
import { generateWinters } from '../weather/generator.ts';
import { cutWinters, type Winter, windowOfDays } from '../weather/winters.ts';
import { winterFrom } from '../winter/season.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { RecordProblem } from './problem.ts';
import { weatherSeries } from './weather.ts';

/** A recorded winter with more hours missing than this does not stand for a winter. */
const MOST_MISSING = 0.1;
/** Fewer recorded winters than this say too little about the next; the normals then fill up. */
const ENOUGH_RECORDED = 4;

/**
 * Winters to run a place and a box through, from `fromDay` for `days` days: the recorded ones when there are at least four, else as
 * many as asked made from the group's normals, always the same ones for the same group and dates.
 */
export async function wintersOf(
  database: Database,
  group: Group,
  asked: { readonly fromDay: Day; readonly days: number; readonly winters: number },
): Promise<Winters> {
  const window = windowOfDays(asked.fromDay, addDays(asked.fromDay, asked.days - 1));
  const series = await weatherSeries(database, group.id);
  const recorded = cutWinters(series, group.zone, window, MOST_MISSING);
  if (recorded.length >= ENOUGH_RECORDED)
    return { source: 'recorded', winters: recorded.slice(-asked.winters).map(winterOut) };
  if (!group.climateNormals) {
    const what = say('records.noWeather');
    throw new RecordProblem('invalid', what, [{ where: 'group.climateNormals', what }]);
  }
  const made = generateWinters({
    normals: group.climateNormals,
    departures: CLIMATES[0]!,
    site: { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone },
    fromDay: asked.fromDay,
    days: asked.days,
    winters: asked.winters,
    seed: seedOf(group.id),
  });
  return { source: 'normals', ...(group.climateNote ? { note: group.climateNote } : {}), winters: made.map(winterOut) };
}

/** A whole number from an identifier, so that a group always sees the same made winters. */
const seedOf = (id: string): number => Number.parseInt(id.replaceAll('-', '').slice(-8), 16);

const hundredths = (values: Float64Array): (number | null)[] =>
  Array.from(values, (value) => (Number.isNaN(value) ? null : Math.round(value * 100) / 100));

function winterOut(winter: Winter): Winters['winters'][number] {
  const { series } = winter;
  return {
    label: winter.label,
    origin: winter.origin,
    fromDay: winter.fromDay,
    startMs: series.startMs,
    stepS: series.stepS,
    airTempC: hundredths(series.airTempC),
    ...(series.cloudShare ? { cloudShare: hundredths(series.cloudShare) } : {}),
    missingShare: winter.missingShare,
  };
}

/** Where a winter's weather is cut by default: the winter nearest to now. */
export function defaultWinterFrom(atMs: number, group: Group): Day {
  return winterFrom(dayInZone(atMs, group.zone), group.latitudeDeg);
}

import { addDays, type Day } from '../measure/day.ts';
import { instantInZone } from '../measure/zone.ts';
import type { Group } from '../schema/group.ts';
import type { GutWarmth } from '../schema/gut-warmth.ts';
import { gutCourse, readingSeries, warmthInForce, warmthSeries } from '../winter/gut-course.ts';
import type { Database } from './database.ts';
import { list, type Scope } from './entries.ts';
import { GUT_WARMTH } from './kinds.ts';
import { readingsBetween } from './readings.ts';

/** The warmth after the last meal that counts on `onDay`: written down by then, of a meal of this winter. */
export async function gutWarmthOf(
  database: Database,
  scope: Scope,
  group: Group,
  animalId: string,
  onDay: Day,
): Promise<GutWarmth | undefined> {
  const endMs = instantInZone(addDays(onDay, 1), group.zone);
  const written = await list(database, scope, GUT_WARMTH, { animalId });
  return warmthInForce(
    written.filter((one) => Date.parse(one.at) < endMs),
    onDay,
  );
}

/** Whether food is still in the gut on `onDay`, by the warmth written down or the readings of the thermometer named there. */
export async function foodInGut(
  database: Database,
  scope: Scope,
  group: Group,
  size: { readonly sclMm: number; readonly massG: number },
  warmth: GutWarmth,
  onDay: Day,
): Promise<boolean> {
  const mealMs = instantInZone(warmth.mealDay, group.zone, 12);
  const nowMs = Math.min(scope.nowMs, instantInZone(addDays(onDay, 1), group.zone));
  let series = warmthSeries(size, warmth, mealMs);
  if (warmth.probeId) {
    const readings = await readingsBetween(database, warmth.probeId, mealMs, nowMs);
    const good = readings.filter((one) => one.quality === 'good');
    series =
      readingSeries(
        good.map((one) => Date.parse(one.at)),
        good.map((one) => one.tempC),
      ) ?? series;
  }
  const { state } = gutCourse(size, series, mealMs, nowMs).verdict;
  return state === 'clearing' || state === 'too-cold-to-clear';
}

import { type BoxForecast, boxForecastOf, isFresh, keepBoxForecast } from '../records/box-forecasts.ts';
import type { Database } from '../records/database.ts';
import { groupById } from '../records/groups.ts';
import type { NoForecastReason } from '../schema/box-forecast.ts';
import { forecastNeeds, groupWeather } from './forecast-needs.ts';
import type { WatchService } from './watch-service.ts';
import { type WatchedStay, watchedStays } from './watched.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
/** Most forecasts kept for a replay: more than a week of hours. */
const MOST_WATCHED = 200;

/** The next three days in the box of every watched stay, each hour and whenever the weather forecast is a new one. */
export class BoxForecasts {
  private readonly database: Database;
  private readonly watch: WatchService;
  private lookedMs = Number.NEGATIVE_INFINITY;
  private readonly done = new Map<string, { weatherMs: number; atMs: number }>();

  constructor(database: Database, watch: WatchService) {
    this.database = database;
    this.watch = watch;
  }

  /** Works out what is due. Looks at the records at most once a minute. */
  async look(now: number, onError: (error: unknown) => void): Promise<void> {
    if (Math.abs(now - this.lookedMs) < MINUTE_MS) return;
    this.lookedMs = now;
    const stays = this.watch.stays().filter((stay) => stay.probeId !== undefined);
    for (const groupId of new Set(stays.map((stay) => stay.groupId))) {
      const weather = await groupWeather(this.database, groupId, now);
      if ('reason' in weather) continue;
      const group = await groupById(this.database, groupId);
      // The physics is loaded when there is weather to work with: many homes have none set up.
      const { forecastBox } = await import('./box-ahead.ts');
      for (const stay of stays) {
        if (stay.groupId !== groupId) continue;
        const last = this.done.get(stay.stayId);
        if (last?.weatherMs === weather.madeAtMs && now - last.atMs < HOUR_MS && now >= last.atMs) continue;
        try {
          const needs = await forecastNeeds(this.database, stay, weather, now);
          // What is missing may come: it is tried again at the next look.
          if ('reason' in needs) continue;
          const made = forecastBox(group, stay, needs, now);
          this.done.set(stay.stayId, { weatherMs: weather.madeAtMs, atMs: now });
          await this.tell(stay, made);
        } catch (error) {
          // One box that cannot be worked out must not silence the others.
          onError(error);
        }
      }
    }
  }

  private async tell(stay: WatchedStay, made: Omit<BoxForecast, 'watched'>): Promise<void> {
    const before = await boxForecastOf(this.database, stay.groupId, stay.stayId);
    const { atMs, stepMs, tempsC } = made;
    const told = await this.watch.forecast(stay.stayId, { atMs, stepMs, tempsC });
    if (!told) return;
    // While a notice stands, a replay needs the forecast that raised it and all since; otherwise the newest alone.
    const watched = [
      ...(told.standing ? (before?.watched ?? []) : []),
      { atMs, countsFromMs: told.atMs, stepMs, tempsC },
    ];
    await keepBoxForecast(this.database, stay.groupId, stay.stayId, { ...made, watched: watched.slice(-MOST_WATCHED) });
  }
}

/** The forecast of one stay as it stands now, or why there is none. */
export async function boxForecastNow(
  database: Database,
  groupId: string,
  stayId: string,
  now: number,
): Promise<BoxForecast | { readonly reason: NoForecastReason }> {
  const [stay] = await watchedStays(database, now, stayId);
  if (!stay) return { reason: 'not-asleep' };
  const needs = await forecastNeeds(database, stay, await groupWeather(database, groupId, now), now);
  if ('reason' in needs) return needs;
  const kept = await boxForecastOf(database, groupId, stayId);
  return kept && isFresh(kept, now) ? kept : { reason: 'in-work' };
}

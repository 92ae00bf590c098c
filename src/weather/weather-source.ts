import type { Day } from '../measure/day.ts';
import { CLIMATES, type Climate, type DayDepartures } from './climates.ts';
import { type DailyRow, hoursFromDays, type Site } from './day-curve.ts';
import { generateWinters } from './generator.ts';
import type { MonthlyNormals } from './normals.ts';
import type { WeatherSeries } from './series.ts';
import { cutWinters, type Winter } from './winters.ts';

/** Where the winters come from: a record by the hour, a record of daily extremes, or twelve monthly normals. */
export type WeatherSource =
  | { readonly kind: 'hourly'; readonly series: WeatherSeries }
  | { readonly kind: 'daily'; readonly days: readonly DailyRow[] }
  | {
      readonly kind: 'normals';
      readonly normals: MonthlyNormals;
      /** How days depart from the season: fitted from a record, or a climate of the table by name; the table's first when absent. */
      readonly departures?: DayDepartures;
      readonly climate?: Climate['id'];
      /** How many winters to make; 30 when absent. */
      readonly winters?: number;
      /** 1 when absent. */
      readonly seed?: number;
    };

/** Fewest winters from which a spread over winters is told. */
const USUAL_WINTERS = 30;

/**
 * The winters a source holds for the stretch of `days` days from `fromDay` on: of a record, the same stretch of the calendar in every year it
 * covers; of normals, winters made on those very days. Empty when a record never touches that stretch.
 */
export function wintersOf(source: WeatherSource, site: Site, fromDay: Day, days: number): Winter[] {
  const window = { from: fromDay.slice(5), days };
  if (source.kind === 'hourly') return cutWinters(source.series, site.zone, window);
  if (source.kind === 'daily') return cutWinters(hoursFromDays(source.days, site), site.zone, window);
  const departures = source.departures ?? CLIMATES.find((row) => row.id === source.climate) ?? CLIMATES[0]!;
  return generateWinters({
    normals: source.normals,
    departures,
    site,
    fromDay,
    days,
    winters: source.winters ?? USUAL_WINTERS,
    seed: source.seed ?? 1,
  });
}

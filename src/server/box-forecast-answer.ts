import { firstPassing, type OutlookLimits, outlookOf, sayPassing } from '../heat/box-outlook.ts';
import type { TemperatureUnit } from '../measure/figures.ts';
import { type BoxForecast, courseOf } from '../records/box-forecasts.ts';
import type { BoxForecastAnswer } from '../schema/box-forecast.ts';
import { say } from '../wording/say.ts';

/** Readings whose squared surprise is more than this on the mean say that place or box is not as described; 1 is as expected. */
const MOST_SURPRISE = 4;
/** So does a larger share than this of readings that had to be set aside. */
const MOST_SET_ASIDE = 0.05;

const iso = (atMs: number) => new Date(atMs).toISOString();

/** A kept forecast as the route answers it, held against the limits of its stay. */
export function boxForecastAnswer(kept: BoxForecast, limits: OutlookLimits, unit: TemperatureUnit): BoxForecastAnswer {
  const { readings, atMs, stepMs, tempsC, lowC, highC } = kept;
  const passed = firstPassing(outlookOf(courseOf(kept), limits));
  return {
    state: 'forecast',
    madeAt: iso(atMs),
    times: tempsC.map((_, index) => iso(atMs + index * stepMs)),
    tempC: [...tempsC],
    low: [...lowC],
    high: [...highC],
    limits: { coldC: [...limits.coldC], warmC: [...limits.warmC] },
    readings: {
      from: iso(readings.fromMs),
      to: iso(readings.toMs),
      used: readings.used,
      setAside: readings.setAside,
    },
    fits:
      readings.surprise <= MOST_SURPRISE && readings.setAside <= MOST_SET_ASIDE * (readings.used + readings.setAside),
    ...(passed
      ? {
          breach: {
            side: passed.side,
            likely: passed.likely,
            limitC: passed.limitC,
            at: iso(passed.atMs),
            what: say(sayPassing(passed, atMs, unit)),
          },
        }
      : {}),
  };
}

import { buildBox } from '../heat/box.ts';
import { forecastPlace, SLEEPING_HEAT_W_PER_KG } from '../heat/forecast.ts';
import { prepareWinters } from '../heat/place-weather.ts';
import { forecastFromState } from '../heat/state-forecast.ts';
import { dayInZone } from '../measure/zone.ts';
import type { BoxForecast } from '../records/box-forecasts.ts';
import type { Group } from '../schema/group.ts';
import { gapReport } from '../weather/series.ts';
import type { ForecastNeeds } from './forecast-needs.ts';
import type { WatchedStay } from './watched.ts';

const HOUR_MS = 3_600_000;
const HOUR_S = 3600;

/** The box of one stay from its last two days of readings on. Ice in the bottles is left out: a frost then comes early, not late. */
export function forecastBox(
  group: Group,
  stay: WatchedStay,
  needs: ForecastNeeds,
  now: number,
): Omit<BoxForecast, 'watched'> {
  const { series, from, readings, aheadH } = needs;
  const startMs = series.startMs + from * HOUR_MS;
  const site = { latitudeDeg: group.latitudeDeg, longitudeDeg: group.longitudeDeg, zone: group.zone };
  const { missingShare } = gapReport(series);
  const fromDay = dayInZone(series.startMs, group.zone);
  const winter = { label: fromDay, origin: 'recorded' as const, fromDay, series, missingShare };
  const normals = group.climateNormals;
  const place = forecastPlace(needs.place, prepareWinters(site, [winter], normals ? { normals } : undefined));
  const { airC, floorC } = place.winters[0]!;

  const massG = needs.box.animal?.massG ?? stay.setup.startMassG;
  const box = buildBox(massG === undefined ? needs.box : { ...needs.box, animal: { massG } });
  const inputs: ArrayLike<number>[] = [];
  inputs[box.inputs.placeAir] = airC.subarray(from);
  inputs[box.inputs.floor] = floorC.subarray(from);
  inputs[box.inputs.heat] = [((massG ?? 0) / 1000) * SLEEPING_HEAT_W_PER_KG];
  const forecast = forecastFromState(
    {
      network: box.network,
      airInputs: [box.inputs.placeAir, box.inputs.floor],
      animalNode: box.nodes.animal,
      probeNodes: [box.nodes.probe],
    },
    {
      inputs,
      stepS: HOUR_S,
      nowS: (now - startMs) / 1000,
      aheadS: aheadH * HOUR_S,
      readings: readings.map(({ atMs, tempC }) => ({ probe: 0, atS: (atMs - startMs) / 1000, tempC })),
    },
  );
  const hundredths = (values: Float64Array) => Array.from(values, (value) => Math.round(value * 100) / 100);
  return {
    atMs: now,
    stepMs: HOUR_MS,
    tempsC: hundredths(forecast.meanC),
    lowC: hundredths(forecast.low90C),
    highC: hundredths(forecast.high90C),
    readings: {
      fromMs: readings[0]!.atMs,
      toMs: readings.at(-1)!.atMs,
      used: forecast.used,
      setAside: forecast.setAside.length,
      surprise: Math.round(forecast.meanSquaredSurprise * 100) / 100,
    },
  };
}

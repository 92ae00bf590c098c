import type { BoxDescription } from '../src/heat/description.ts';
import { forecastPlace } from '../src/heat/forecast.ts';
import { prepareWinters } from '../src/heat/place-weather.ts';
import { CLIMATES } from '../src/weather/climates.ts';
import { generateWinters } from '../src/weather/generator.ts';

/** A fish box with bedding, bottles and an animal: ten nodes with a heat capacity. */
export const fishBox = (wallMm: number, bottles: number): BoxDescription => ({
  shells: [
    {
      insideLengthMm: 520,
      insideWidthMm: 380,
      insideHeightMm: 320,
      walls: [{ material: 'polystyrene', thicknessMm: wallMm }],
      holes: { count: 8, diameterMm: 8 },
    },
  ],
  bedding: { material: 'shredded-paper', depthMm: 120 },
  ...(bottles > 0 ? { ballast: [{ bottles, litresEach: 1.5 }] } : {}),
  animal: { massG: 1000 },
});

const site = { zone: 'Europe/London', latitudeDeg: 52, longitudeDeg: -1 };

/** Mean maximum and minimum of Oxford 1981-2010 (Met Office station file), months 1 to 12. */
const oxford = [
  [7.6, 2.1],
  [8, 1.8],
  [10.9, 3.7],
  [13.6, 5],
  [17.1, 7.9],
  [20.3, 10.9],
  [22.7, 13],
  [22.3, 12.9],
  [19.1, 10.7],
  [14.8, 7.8],
  [10.5, 4.6],
  [7.7, 2.3],
].map(([maxC, minC]) => ({ maxC: maxC!, minC: minC! }));

/** Thirty winters of 151 days made from those normals and the day-to-day departures of a maritime climate. */
export function thirtyWinters() {
  const climate = CLIMATES[0]!;
  return prepareWinters(
    site,
    generateWinters({
      normals: oxford,
      departures: climate,
      site,
      fromDay: '2025-11-01',
      days: 151,
      winters: 30,
      seed: 1,
    }),
    { normals: oxford },
  );
}

export const shed = (airChangesPerHour: number, prepared = thirtyWinters(), facingDeg = 180) =>
  forecastPlace({ kind: 'building', preset: 'brick-outbuilding', airChangesPerHour, facingDeg }, prepared);

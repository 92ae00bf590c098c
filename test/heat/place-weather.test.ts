import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildingPlace, PlacePresetId } from '../../src/heat/description.ts';
import { forecastPlace } from '../../src/heat/forecast.ts';
import { findModes } from '../../src/heat/modes.ts';
import { buildPlace, type PlaceModel } from '../../src/heat/place.ts';
import { placePresets } from '../../src/heat/place-presets.ts';
import { placeInputs, prepareWinters } from '../../src/heat/place-weather.ts';
import { makeRecursion, run } from '../../src/heat/run.ts';
import { surfaceSunWm2 } from '../../src/weather/irradiance.ts';
import { skyLongWaveLossWm2 } from '../../src/weather/sky.ts';
import { solarPosition } from '../../src/weather/sun.ts';
import type { Winter } from '../../src/weather/winters.ts';

const site = { zone: 'Europe/London', latitudeDeg: 52, longitudeDeg: -1 };
const HOURS = 24 * 30;
const wave = (k: number, hours: number) => Math.sin((2 * Math.PI * k) / hours);
/** Invented weather; two winters stand on the same instants, the third on its own. */
function winter(label: string, startMs: number, dewPoint: boolean): Winter {
  const column = (value: (k: number) => number) => Float64Array.from({ length: HOURS }, (_, k) => value(k));
  return {
    label,
    origin: 'recorded',
    fromDay: '2024-12-01',
    series: {
      startMs,
      stepS: 3600,
      airTempC: column((k) => 4 + 4 * wave(k - 9, 24) + 5 * wave(k, 200)),
      cloudShare: column((k) => (k % 50 === 0 ? Number.NaN : 0.5 + 0.5 * wave(k, 90))),
      ...(dewPoint ? { dewPointC: column((k) => 1 + 4 * wave(k, 200)) } : {}),
    },
    missingShare: 0,
  };
}
const start = Date.UTC(2024, 11, 1);
const prepared = prepareWinters(site, [
  winter('a', start, false),
  winter('b', start, true),
  winter('c', Date.UTC(2023, 1, 10), true),
]);

/** The inputs of a place sample by sample, straight from the published rules. */
function plainInputs(model: PlaceModel, one: (typeof prepared.winters)[number]): number[][] {
  const { series } = one;
  const wallM2 = model.walls.reduce((sum, { areaM2 }) => sum + areaM2, 0);
  return Array.from({ length: HOURS }, (_, k) => {
    const sun = solarPosition(series.startMs + k * 3_600_000, site.latitudeDeg, site.longitudeDeg);
    const airC = series.airTempC[k]!;
    const known = series.cloudShare![k]!;
    const cloud = Number.isNaN(known) ? 0.7 : known;
    const dew = series.dewPointC ? Math.min(series.dewPointC[k]!, airC) : airC - 3;
    const sunOn = (facing: Parameters<typeof surfaceSunWm2>[2]) =>
      sun.elevationDeg > 0 ? surfaceSunWm2(sun, cloud, facing) : 0;
    const lossK = 0.9 * skyLongWaveLossWm2(airC, dew, cloud) * model.outsideFilmM2KW;
    const wallK = model.walls.reduce((sum, { facing, areaM2 }) => sum + (sunOn(facing) * areaM2) / wallM2, 0);
    const roofK = model.roof.areaM2 > 0 ? sunOn(model.roof.facing) : 0;
    const warms = model.sunShare * model.outsideFilmM2KW;
    return [
      airC,
      airC + model.wallAbsorptance * warms * wallK,
      airC + model.roofAbsorptance * warms * roofK - (model.roof.areaM2 > 0 ? lossK : 0),
      airC - model.glassSkyShare * lossK,
      model.glass.reduce((sum, { facing, areaM2, gain }) => sum + sunOn(facing) * areaM2 * gain, 0),
    ];
  });
}

const presets = Object.keys(placePresets) as PlacePresetId[];
const anyPlace: fc.Arbitrary<BuildingPlace> = fc.record({
  kind: fc.constant('building' as const),
  preset: fc.constantFrom(...presets),
  facingDeg: fc.integer({ min: 0, max: 359 }),
  airChangesPerHour: fc.double({ min: 0.1, max: 8, noNaN: true }),
});

describe('weather on a place', () => {
  it('is what the published rules give hour by hour, whatever the place and its facing', () => {
    fc.assert(
      fc.property(anyPlace, (place) => {
        const model = buildPlace(place, prepared.meanAirC);
        const inputsOf = placeInputs(model, prepared.ground);
        for (const one of prepared.winters) {
          const fast = inputsOf(one);
          const plain = plainInputs(model, one);
          for (let k = 0; k < HOURS; k++)
            for (let j = 0; j < 5; j++) {
              const value = fast[j]!.length === 1 ? fast[j]![0]! : fast[j]![k]!;
              if (!(Math.abs(value - plain[k]![j]!) < 1e-8 * Math.max(1, Math.abs(value))))
                expect.fail(`input ${j} of hour ${k}: ${value}, by the rules ${plain[k]![j]}`);
            }
        }
      }),
      { numRuns: 15 },
    );
  });

  it('gives air and floor as two plain runs of every mode do', () => {
    fc.assert(
      fc.property(anyPlace, (place) => {
        const model = buildPlace(place, prepared.meanAirC);
        const modes = findModes(model.network);
        const inputsOf = placeInputs(model, prepared.ground);
        const found = forecastPlace(place, prepared);
        prepared.winters.forEach((one, w) => {
          for (const [node, fast] of [
            [model.nodes.air, found.winters[w]!.airC],
            [model.nodes.floor, found.winters[w]!.floorC],
          ] as const) {
            const plain = new Float64Array(HOURS);
            run(makeRecursion(modes, node, 3600, { accuracyK: 0 }), inputsOf(one), plain, 'settled');
            for (let k = 0; k < HOURS; k++) expect(Math.abs(plain[k]! - fast[k]!)).toBeLessThan(0.02);
          }
        });
      }),
      { numRuns: 8 },
    );
  });

  it('asked twice, or for another place in between, stays the same', () => {
    const shed: BuildingPlace = { kind: 'building', preset: 'timber-shed', facingDeg: 90 };
    const before = forecastPlace(shed, prepared).winters.map((one) => one.airC.slice());
    forecastPlace({ kind: 'building', preset: 'cellar', facingDeg: 10 }, prepared);
    expect(forecastPlace(shed, prepared).winters.map((one) => one.airC)).toEqual(before);
  });
});

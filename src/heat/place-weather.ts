import type { Site } from '../weather/day-curve.ts';
import { type GroundWave, groundSeriesC, groundWaveOfNormals } from '../weather/ground.ts';
import { addSun, type Exposure, exposureOf, type SkyLight, type SunVectors, skyLight } from '../weather/irradiance.ts';
import type { MonthlyNormals } from '../weather/normals.ts';
import { sampleMs, type WeatherSeries } from '../weather/series.ts';
import { skyLongWaveLossWm2 } from '../weather/sky.ts';
import { solarPosition } from '../weather/sun.ts';
import type { Winter } from '../weather/winters.ts';
import type { PlaceModel } from './place.ts';

/** Cloud where a record has none: a north-west European winter's usual cover (estimate; said wherever it was used). */
export const USUAL_CLOUD_SHARE = 0.7;
/** Dew point below the air where a record has none, K: about 80 % relative humidity (estimate). */
const USUAL_DEW_SPREAD_K = 3;
const EMISSIVITY = 0.9;
/** λ/(ρc) of the table's soil, m²/s. */
const SOIL_DIFFUSIVITY = 1.5 / (1800 * 1600);
const RAD = Math.PI / 180;

/** What all winters on one set of instants share: the sun's path, and what is known by its depth of the ground. */
interface Instants {
  readonly sun: SunVectors;
  readonly groundC: Map<string, Float64Array>;
}

/** One winter ready to drive places: gaps bridged for the arithmetic and marked. */
export interface PreparedWinter {
  readonly winter: Winter;
  readonly series: WeatherSeries;
  /** Air with gaps bridged by straight lines; the bridged stretches count for nothing but continuity. */
  readonly airC: Float64Array;
  /** 1 where the air temperature was missing; absent when nothing was. */
  readonly missing?: Float64Array;
  readonly instants: Instants;
  /** Light under this winter's clouds, and what a flat surface loses to its sky, W/m2: made for the first place that needs them. */
  readonly light: () => SkyLight;
  readonly skyLossWm2: () => Float64Array;
}

export interface PreparedWinters {
  readonly site: Site;
  readonly winters: readonly PreparedWinter[];
  readonly ground: GroundWave;
  readonly meanAirC: number;
  /** True when some cloud cover was not in the record. */
  readonly cloudAssumed: boolean;
  /** True when the ground's wave was guessed from the winters alone. */
  readonly groundAssumed: boolean;
}

function bridged(values: Float64Array): { airC: Float64Array; missing?: Float64Array } {
  const n = values.length;
  let gaps = 0;
  for (let i = 0; i < n; i++) if (Number.isNaN(values[i]!)) gaps++;
  if (gaps === 0) return { airC: values };
  if (gaps === n) throw new RangeError('a winter without a single temperature cannot be run');
  const airC = values.slice();
  const missing = new Float64Array(n);
  let before = -1;
  for (let i = 0; i < n; i++) {
    if (!Number.isNaN(values[i]!)) {
      before = i;
      continue;
    }
    let after = i;
    while (after < n && Number.isNaN(values[after]!)) after++;
    for (let k = i; k < after; k++) {
      missing[k] = 1;
      const left = before < 0 ? values[after]! : values[before]!;
      const right = after >= n ? left : values[after]!;
      airC[k] = before < 0 ? right : left + ((right - left) * (k - before)) / (after - before);
    }
    i = after - 1;
  }
  return { airC, missing };
}

function sunPath(series: WeatherSeries, site: Site): SunVectors {
  const n = series.airTempC.length;
  const [up, north, east] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i++) {
    const sun = solarPosition(sampleMs(series, i), site.latitudeDeg, site.longitudeDeg);
    if (sun.elevationDeg <= 0) continue;
    const level = Math.cos(sun.elevationDeg * RAD);
    up[i] = Math.sin(sun.elevationDeg * RAD);
    north[i] = level * Math.cos(sun.azimuthDeg * RAD);
    east[i] = level * Math.sin(sun.azimuthDeg * RAD);
  }
  return { up, north, east };
}

/** A yearly wave for the ground where no normals are known: the winters' mean is taken as its cold half (estimate). */
function guessedGround(meanAirC: number, latitudeDeg: number): GroundWave {
  const amplitudeK = 7;
  return { meanC: meanAirC + 0.8 * amplitudeK, amplitudeK, coldestDay: latitudeDeg >= 0 ? 30 : 212 };
}

/** Makes winters ready once for any number of places and boxes: gaps bridged and marked, the sun's path, the ground. */
export function prepareWinters(
  site: Site,
  winters: readonly Winter[],
  climate?: { readonly normals?: MonthlyNormals; readonly ground?: GroundWave },
): PreparedWinters {
  if (winters.length === 0) throw new RangeError('a forecast needs at least one winter');
  const stands = new Map<string, Instants>();
  let sum = 0;
  let count = 0;
  let cloudAssumed = false;
  const prepared = winters.map((winter): PreparedWinter => {
    const { series } = winter;
    const key = `${series.startMs}/${series.stepS}/${series.airTempC.length}`;
    let instants = stands.get(key);
    if (!instants) {
      instants = { sun: sunPath(series, site), groundC: new Map() };
      stands.set(key, instants);
    }
    const { airC, missing } = bridged(series.airTempC);
    for (const t of airC) sum += t;
    count += airC.length;
    if (!series.cloudShare || series.cloudShare.some((share) => Number.isNaN(share))) cloudAssumed = true;
    const { sun } = instants;
    const light = once(() => skyLight(sun, (i) => cloudAt(series, i)));
    const skyLossWm2 = once(() => skyLoss(series, airC));
    return { winter, series, airC, instants, light, skyLossWm2, ...(missing ? { missing } : {}) };
  });
  const meanAirC = sum / count;
  const known = climate?.ground ?? (climate?.normals ? groundWaveOfNormals(climate.normals) : undefined);
  return {
    site,
    winters: prepared,
    ground: known ?? guessedGround(meanAirC, site.latitudeDeg),
    meanAirC,
    cloudAssumed,
    groundAssumed: known === undefined,
  };
}

/** Makes something when it is first asked for, and keeps it. */
function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

const cloudAt = (series: WeatherSeries, i: number): number => {
  const known = series.cloudShare?.[i];
  return known === undefined || Number.isNaN(known) ? USUAL_CLOUD_SHARE : known;
};

/** Long-wave loss of a flat surface to the sky at every sample, W/m². */
function skyLoss(series: WeatherSeries, airC: Float64Array): Float64Array {
  return airC.map((t, i) => {
    const known = series.dewPointC?.[i];
    const dew = known === undefined || Number.isNaN(known) ? t - USUAL_DEW_SPREAD_K : Math.min(known, t);
    return EMISSIVITY * skyLongWaveLossWm2(t, dew, cloudAt(series, i));
  });
}

/** Depths whose temperatures are kept beside one set of instants. */
const MOST_DEPTHS = 12;

function groundAt(prepared: PreparedWinter, ground: GroundWave, depthM: number): Float64Array {
  const { instants, series, airC } = prepared;
  const key = `${depthM} ${ground.meanC}/${ground.amplitudeK}/${ground.coldestDay}`;
  let values = instants.groundC.get(key);
  if (!values) {
    if (instants.groundC.size >= MOST_DEPTHS) instants.groundC.clear();
    const at = { startMs: series.startMs, stepS: series.stepS, count: airC.length };
    values = groundSeriesC(ground, depthM, SOIL_DIFFUSIVITY, at);
    instants.groundC.set(key, values);
  }
  return values;
}

/** Adds `share` times `values` to `into`. */
function addShare(into: Float64Array, values: Float64Array, share: number): void {
  for (let i = 0; i < into.length; i++) into[i] = into[i]! + share * values[i]!;
}

/** What a place's surfaces see of the sun along one path: walls and roof as warming of their outside in K, glass in W. */
interface PlaceExposures {
  readonly walls: Exposure;
  readonly roof: Exposure;
  readonly glass: Exposure;
}

/**
 * Makes the input arrays of a place's network, winter by winter, in the order of its inputs. What the place's surfaces see of the sun is
 * worked out once for all winters on the same instants.
 */
export function placeInputs(
  model: PlaceModel,
  ground: GroundWave,
): (prepared: PreparedWinter) => readonly Float64Array[] {
  const film = model.outsideFilmM2KW;
  const wallM2 = model.walls.reduce((total, one) => total + one.areaM2, 0);
  const exposures = new Map<SunVectors, PlaceExposures>();
  const exposuresTo = (sun: SunVectors): PlaceExposures => {
    let known = exposures.get(sun);
    if (!known) {
      const wallK = (model.wallAbsorptance * model.sunShare * film) / wallM2;
      const roof = { facing: model.roof.facing, weight: model.roofAbsorptance * model.sunShare * film };
      known = {
        walls: exposureOf(
          sun,
          model.walls.map(({ facing, areaM2 }) => ({ facing, weight: wallK * areaM2 })),
        ),
        roof: exposureOf(sun, model.roof.areaM2 > 0 ? [roof] : []),
        glass: exposureOf(
          sun,
          model.glass.map(({ facing, areaM2, gain }) => ({ facing, weight: areaM2 * gain })),
        ),
      };
      exposures.set(sun, known);
    }
    return known;
  };
  const neighbourC = Float64Array.of(model.neighbourC);
  return (prepared) => {
    const { airC } = prepared;
    const see = exposuresTo(prepared.instants.sun);
    const light = prepared.light();
    const loss = prepared.skyLossWm2();
    // An outside surface in no sun is as warm as the air, and then is the same series to the run.
    let walls = airC;
    if (model.walls.length > 0) {
      walls = airC.slice();
      addSun(walls, see.walls, light);
    }
    let roof = airC;
    if (model.roof.areaM2 > 0) {
      roof = airC.slice();
      addSun(roof, see.roof, light);
      addShare(roof, loss, -film);
    }
    const inside = new Float64Array(model.glass.length > 0 ? airC.length : 1);
    if (model.glass.length > 0) addSun(inside, see.glass, light);
    let glass = airC;
    if (model.glassSkyShare > 0) {
      glass = airC.slice();
      addShare(glass, loss, -model.glassSkyShare * film);
    }
    return [airC, walls, roof, glass, inside, groundAt(prepared, ground, model.groundDepthM), neighbourC];
  };
}

import type { Site } from '../weather/day-curve.ts';
import { type GroundWave, groundSeriesC, groundWaveOfNormals } from '../weather/ground.ts';
import { type SurfaceFacing, surfaceSunWm2 } from '../weather/irradiance.ts';
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

/** The sun's path over one set of instants, shared by all winters that stand on them. */
interface SunPath {
  readonly elevationDeg: Float64Array;
  readonly azimuthDeg: Float64Array;
}

/** One winter ready to drive places: gaps bridged for the arithmetic and marked. */
export interface PreparedWinter {
  readonly winter: Winter;
  readonly series: WeatherSeries;
  /** Air with gaps bridged by straight lines; the bridged stretches count for nothing but continuity. */
  readonly airC: Float64Array;
  /** 1 where the air temperature was missing; absent when nothing was. */
  readonly missing?: Float64Array;
  readonly sun: SunPath;
  /** Weather series worked out for earlier places, by what they belong to: a moved value mostly needs the same again. */
  readonly known: Map<string, Float64Array>;
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

function sunPath(series: WeatherSeries, site: Site): SunPath {
  const n = series.airTempC.length;
  const elevationDeg = new Float64Array(n);
  const azimuthDeg = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const sun = solarPosition(sampleMs(series, i), site.latitudeDeg, site.longitudeDeg);
    elevationDeg[i] = sun.elevationDeg;
    azimuthDeg[i] = sun.azimuthDeg;
  }
  return { elevationDeg, azimuthDeg };
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
  const paths = new Map<string, SunPath>();
  let sum = 0;
  let count = 0;
  let cloudAssumed = false;
  const prepared = winters.map((winter): PreparedWinter => {
    const { series } = winter;
    const key = `${series.startMs}/${series.stepS}/${series.airTempC.length}`;
    let sun = paths.get(key);
    if (!sun) {
      sun = sunPath(series, site);
      paths.set(key, sun);
    }
    const { airC, missing } = bridged(series.airTempC);
    for (const t of airC) sum += t;
    count += airC.length;
    if (!series.cloudShare || series.cloudShare.some((share) => Number.isNaN(share))) cloudAssumed = true;
    return { winter, series, airC, sun, known: new Map(), ...(missing ? { missing } : {}) };
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

/** Most series kept beside one winter; a place needs at most seven. */
const MOST_KNOWN = 24;

function remembered(prepared: PreparedWinter, key: string, make: () => Float64Array): Float64Array {
  let values = prepared.known.get(key);
  if (!values) {
    if (prepared.known.size >= MOST_KNOWN) prepared.known.clear();
    values = make();
    prepared.known.set(key, values);
  }
  return values;
}

const cloudAt = (series: WeatherSeries, i: number): number => {
  const known = series.cloudShare?.[i];
  return known === undefined || Number.isNaN(known) ? USUAL_CLOUD_SHARE : known;
};

/** Sun on a surface at every sample, W/m². */
function sunOn(prepared: PreparedWinter, facing: SurfaceFacing): Float64Array {
  return remembered(prepared, `sun ${facing.tiltDeg}/${facing.azimuthDeg}`, () => {
    const { series, sun } = prepared;
    const out = new Float64Array(sun.elevationDeg.length);
    for (let i = 0; i < out.length; i++) {
      if (sun.elevationDeg[i]! <= 0) continue;
      const at = { elevationDeg: sun.elevationDeg[i]!, azimuthDeg: sun.azimuthDeg[i]! };
      out[i] = surfaceSunWm2(at, cloudAt(series, i), facing);
    }
    return out;
  });
}

/** Long-wave loss of a flat surface to the sky at every sample, W/m². */
function skyLoss(prepared: PreparedWinter): Float64Array {
  return remembered(prepared, 'sky', () => {
    const { series, airC } = prepared;
    return airC.map((t, i) => {
      const known = series.dewPointC?.[i];
      const dew = known === undefined || Number.isNaN(known) ? t - USUAL_DEW_SPREAD_K : Math.min(known, t);
      return EMISSIVITY * skyLongWaveLossWm2(t, dew, cloudAt(series, i));
    });
  });
}

/** Adds `share` times `values` to `into`. */
function addShare(into: Float64Array, values: Float64Array, share: number): void {
  for (let i = 0; i < into.length; i++) into[i] = into[i]! + share * values[i]!;
}

/** The input arrays of a place's network for one winter, in the order of its inputs. */
export function placeInputs(model: PlaceModel, prepared: PreparedWinter, ground: GroundWave): Float64Array[] {
  const { airC, series } = prepared;
  const film = model.outsideFilmM2KW;
  const loss = skyLoss(prepared);
  const wallM2 = model.walls.reduce((total, one) => total + one.areaM2, 0);
  const walls = airC.slice();
  for (const one of model.walls)
    addShare(walls, sunOn(prepared, one.facing), (model.wallAbsorptance * model.sunShare * film * one.areaM2) / wallM2);
  const roof = airC.slice();
  if (model.roof.areaM2 > 0) {
    addShare(roof, sunOn(prepared, model.roof.facing), model.roofAbsorptance * model.sunShare * film);
    addShare(roof, loss, -film);
  }
  const inside = new Float64Array(model.glass.length > 0 ? airC.length : 1);
  for (const one of model.glass) addShare(inside, sunOn(prepared, one.facing), one.areaM2 * one.gain);
  let glass = airC;
  if (model.glassSkyShare > 0) {
    glass = airC.slice();
    addShare(glass, loss, -model.glassSkyShare * film);
  }
  const groundC = remembered(
    prepared,
    `ground ${model.groundDepthM} ${ground.meanC}/${ground.amplitudeK}/${ground.coldestDay}`,
    () =>
      groundSeriesC(ground, model.groundDepthM, SOIL_DIFFUSIVITY, {
        startMs: series.startMs,
        stepS: series.stepS,
        count: airC.length,
      }),
  );
  return [airC, walls, roof, glass, inside, groundC, Float64Array.of(model.neighbourC)];
}

/**
 * Houses made apart from the product's own heat code: other equations, extra physics (air change driven by wind, radiation between
 * surfaces and to the sky by the fourth power, a door left open now and then, films that grow with the temperature difference) and
 * an adaptive solver. Readings carry the noise and the steps of a cheap logger.
 */
import type { BoxDescription, BuildingPlace } from '../../src/heat/description.ts';
import { prepareWinters } from '../../src/heat/place-weather.ts';
import { CLIMATES } from '../../src/weather/climates.ts';
import { generateWinters } from '../../src/weather/generator.ts';
import { seededRandom } from '../../src/weather/random.ts';
import { solarPosition } from '../../src/weather/sun.ts';
import { solveAdaptively } from '../outside/adaptive-solver.ts';

const site = { zone: 'Europe/London', latitudeDeg: 52, longitudeDeg: -1 };
// Made-up normals of a maritime place, °C.
const normals = [7.6, 8, 10.5, 13, 16.5, 19.5, 21.5, 21, 18, 14.5, 10.5, 8].map((maxC, i) => ({
  maxC,
  minC: [2, 1.9, 3, 4.5, 7.5, 10.4, 12.5, 12.3, 10.3, 7.6, 4.5, 2.4][i]!,
}));

export interface SimulatedHouse {
  readonly place: BuildingPlace;
  readonly box: BoxDescription;
  /** Hourly weather of the whole time. */
  readonly weather: ReturnType<typeof prepareWinters>;
  readonly hours: number;
  /** What loggers in the place and in the box showed each hour. */
  readonly placeC: Float64Array;
  readonly boxC: Float64Array;
}

const SIGMA = 5.670374e-8;

export function simulatedHouse(seed: number, days: number): SimulatedHouse {
  const random = seededRandom(seed);
  const spread = (low: number, high: number) => low * (high / low) ** random.uniform();
  const brick = random.uniform() < 0.5;
  const [winter] = generateWinters({
    normals,
    departures: CLIMATES[0]!,
    site,
    fromDay: '2025-11-10',
    days,
    winters: 1,
    seed: seed * 7 + 1,
  });
  const weather = prepareWinters(site, [winter!], { normals });
  const airC = winter!.series.airTempC;
  const hours = airC.length - 1;
  const cloud = winter!.series.cloudShare!;

  // The keeper's description: the preset, with sizes measured; the truth departs from it.
  const size = { lengthM: spread(2, 4), widthM: spread(1.8, 3), heightM: spread(2, 2.6) };
  const place: BuildingPlace = { kind: 'building', preset: brick ? 'brick-outbuilding' : 'timber-shed', ...size };
  const box: BoxDescription = {
    shells: [
      {
        insideLengthMm: 500,
        insideWidthMm: 350,
        insideHeightMm: 350,
        walls: [{ material: 'polystyrene', thicknessMm: 40 }],
      },
    ],
    bedding: { material: 'shredded-paper', depthMm: 150 },
    ballast: [{ bottles: 2, litresEach: 1.5 }],
    probe: { at: 'inner-air' },
    stands: 'raised',
  };

  const wallM2 = 2 * (size.lengthM + size.widthM) * size.heightM;
  const roofM2 = size.lengthM * size.widthM * 1.1;
  const volumeM3 = size.lengthM * size.widthM * size.heightM;
  const wallR = (brick ? 0.14 : 0.12) * spread(0.75, 1.4);
  const wallC = wallM2 * (brick ? 180_000 : 14_000) * spread(0.7, 1.4);
  const roofR = 0.16 * spread(0.7, 1.4);
  const floorC = size.lengthM * size.widthM * 220_000 * spread(0.6, 1.5);
  const goodsC = 250 * 1000 * spread(0.4, 2);
  const windChange = spread(0.15, 0.5);
  const stillChange = brick ? spread(0.4, 1) : spread(1, 3);
  const glassM2 = spread(0.2, 0.6);
  const absorptance = spread(0.45, 0.75);
  const boxUA = 0.62 * spread(0.75, 1.35);
  const boxC = (3 * 4200 + 4000) * spread(0.8, 1.3);
  const boxLag = spread(300, 900);

  const wind = new Float64Array(hours + 2);
  const door = new Float64Array(hours + 2);
  let gust = 0;
  for (let h = 0; h < wind.length; h++) {
    gust = 0.93 * gust + 0.37 * random.normal();
    wind[h] = Math.max(0.3, 3.5 + 1.6 * gust);
    door[h] = random.uniform() < 0.012 ? 1 : 0;
  }
  const sunOn = new Float64Array(hours + 2);
  const sunUp = new Float64Array(hours + 2);
  const sunAround = new Float64Array(hours + 2);
  for (let h = 0; h < sunOn.length; h++) {
    const sun = solarPosition(winter!.series.startMs + h * 3_600_000, site.latitudeDeg, site.longitudeDeg);
    const s = Math.sin((sun.elevationDeg * Math.PI) / 180);
    const through = 1 - 0.72 * (cloud[Math.min(h, hours)] ?? 0.7) ** 3.2;
    const level = s > 0.033 ? (910 * s - 30) * through : 0;
    const straight = s > 0.033 ? (0.75 * through ** 2 * level) / s : 0;
    const c = Math.sqrt(1 - s * s);
    const turn = ((sun.azimuthDeg - 180) * Math.PI) / 180;
    const diffuse = level - straight * s;
    sunUp[h] = 0.7 * level;
    sunOn[h] = 0.7 * (straight * c * Math.max(0, Math.cos(turn)) + diffuse / 2);
    sunAround[h] = 0.7 * ((straight * c * (Math.abs(Math.cos(turn)) + Math.abs(Math.sin(turn)))) / 4 + diffuse / 2);
  }
  const line = (column: Float64Array, t: number) => {
    const h = Math.min(Math.floor(t), column.length - 2);
    return column[h]! + (t - h) * (column[h + 1]! - column[h]!);
  };
  const groundC = 7.5;

  // Wall outside, wall inside, floor, goods, box contents, box wall: air and roof are quick and follow at once.
  const air = (t: number, y: readonly number[]) => {
    const out = line(airC, Math.min(t, hours));
    const change = stillChange + windChange * line(wind, t) + 12 * door[Math.floor(t)]!;
    const vent = 0.355 * volumeM3 * change;
    const solAir =
      out +
      (absorptance * sunUp[Math.floor(t)]! - 0.9 * skyLoss(out, cloud[Math.min(Math.floor(t), hours)] ?? 0.7)) * 0.045;
    const roofG = roofM2 / (roofR + 0.2);
    const film = 6.2 * wallM2;
    const floorG = size.lengthM * size.widthM * 5.5;
    const goodsG = 60;
    const glassG = 5.4 * glassM2;
    const sum =
      vent * out + roofG * solAir + glassG * out + film * y[1]! + floorG * y[2]! + goodsG * y[3]! + boxUA * y[5]!;
    return sum / (vent + roofG + glassG + film + floorG + goodsG + boxUA);
  };
  const derivative = (t: number, y: number[]): number[] => {
    const out = line(airC, Math.min(t, hours));
    const inner = air(t, y);
    const h = Math.floor(t);
    const outerFilm = (4 + 3.2 * line(wind, t) ** 0.8) * wallM2;
    const sky = 0.35 * 0.9 * skyLoss(y[0]!, cloud[Math.min(h, hours)] ?? 0.7) * wallM2;
    const between = wallM2 / wallR;
    const radiation = 0.9 * SIGMA * size.lengthM * size.widthM * ((y[1]! + 273.15) ** 4 - (y[2]! + 273.15) ** 4);
    const sunIn = 0.75 * glassM2 * line(sunOn, t);
    const boxFilm = boxUA * (1 + 0.02 * Math.abs(inner - y[4]!));
    return [
      (outerFilm * (out - y[0]!) + wallM2 * absorptance * line(sunAround, t) - sky + between * (y[1]! - y[0]!)) /
        (0.5 * wallC),
      (between * (y[0]! - y[1]!) + 6.2 * wallM2 * (inner - y[1]!) - radiation) / (0.5 * wallC),
      (size.lengthM * size.widthM * (5.5 * (inner - y[2]!) + 1.6 * (groundC - y[2]!)) + radiation + 0.6 * sunIn) /
        floorC,
      (60 * (inner - y[3]!) + 0.4 * sunIn) / goodsC,
      (boxFilm * 1.6 * (y[5]! - y[4]!)) / boxC,
      (boxUA * 2.67 * (inner - y[5]!) + boxFilm * 1.6 * (y[4]! - y[5]!)) / (boxLag * boxUA * 4),
    ].map((rate) => rate * 3600);
  };
  const placeC = new Float64Array(hours + 1);
  const inBox = new Float64Array(hours + 1);
  let y = Array.from({ length: 6 }, () => airC[0]! + 1.5);
  const read = (tempC: number, offset: number) => Math.round((tempC + offset + 0.12 * random.normal()) * 10) / 10;
  const placeOffset = 0.2 * random.normal();
  const boxOffset = 0.2 * random.normal();
  for (let h = 0; h <= hours; h++) {
    placeC[h] = read(air(h, y), placeOffset);
    inBox[h] = read(y[4]!, boxOffset);
    if (h < hours) y = solveAdaptively(derivative, h, y, h + 1, 1e-4);
  }
  return { place, box, weather, hours, placeC, boxC: inBox };
}

/** Net long-wave loss to the sky, W/m2, by the fourth power and Swinbank's clear sky. */
function skyLoss(surfaceC: number, cloudShare: number): number {
  const t = surfaceC + 273.15;
  const sky = 0.0552 * t ** 1.5;
  return SIGMA * (t ** 4 - sky ** 4) * (1 - 0.85 * cloudShare) * 0.9;
}

/** The same house with its weather cut to hours `from` to `to`. */
export function stretchOf(house: SimulatedHouse, from: number, to: number): SimulatedHouse['weather'] {
  const { series } = house.weather.winters[0]!;
  const startMs = series.startMs + from * 3_600_000;
  const cut = {
    startMs,
    stepS: 3600,
    airTempC: series.airTempC.slice(from, to + 1),
    cloudShare: series.cloudShare!.slice(from, to + 1),
  };
  const winter = { ...house.weather.winters[0]!.winter, series: cut };
  return prepareWinters(house.weather.site, [winter], { normals });
}

/** The hourly readings of a house at 5-minute spacing: straight lines between, with fresh noise, as a logger would keep them. */
export function fiveMinuteReadings(house: SimulatedHouse, fromHour: number, hours: number) {
  const random = seededRandom(77);
  const count = hours * 12;
  const atS = Float64Array.from({ length: count }, (_, i) => fromHour * 3600 + i * 300);
  const at = (column: Float64Array) =>
    atS.map((s) => {
      const k = Math.floor(s / 3600);
      return column[k]! + (s / 3600 - k) * (column[k + 1]! - column[k]!) + 0.1 * random.normal();
    });
  return {
    points: [
      { probe: 0, atS, tempC: at(house.placeC) },
      { probe: 1, atS, tempC: at(house.boxC) },
    ],
    spans: [],
  };
}

import { type Day, dayNumber } from '../measure/day.ts';
import { instantInZone } from '../measure/zone.ts';

const RAD = Math.PI / 180;
const DAY_MS = 86_400_000;
/** 2000-01-01 12:00 UTC, the epoch J2000 from which days are counted. */
const J2000_MS = Date.UTC(2000, 0, 1, 12);
/**
 * Altitude of the sun's centre at sunrise and sunset: half its diameter (16') and the refraction at the horizon (34') below.
 * Meeus, Astronomical Algorithms, 1998, chapter 15 (from memory).
 */
const HORIZON_DEG = -0.833;

/** Where the sun stands among the stars: right ascension and declination, and the sidereal time at Greenwich, all in radians. */
interface SunAmongStars {
  readonly rightAscension: number;
  readonly declination: number;
  readonly greenwichSidereal: number;
}

/**
 * Apparent place of the sun from its longitude: mean longitude, mean anomaly, equation of centre, aberration and the main term of
 * nutation. Meeus, Astronomical Algorithms, 1998, chapter 25 (low accuracy, 0.01°) and chapter 12 (from memory; checked
 * against an independent astronomy library). Dynamical and universal time are taken as one: about 70 s, 0.001°.
 */
function sunAmongStars(atMs: number): SunAmongStars {
  const days = (atMs - J2000_MS) / DAY_MS;
  const t = days / 36525;
  const meanLongitude = 280.46646 + (36000.76983 + 0.0003032 * t) * t;
  const anomaly = (357.52911 + (35999.05029 - 0.0001537 * t) * t) * RAD;
  const centre =
    (1.914602 - (0.004817 + 0.000014 * t) * t) * Math.sin(anomaly) +
    (0.019993 - 0.000101 * t) * Math.sin(2 * anomaly) +
    0.000289 * Math.sin(3 * anomaly);
  const node = (125.04 - 1934.136 * t) * RAD;
  const nutation = -0.00478 * Math.sin(node);
  const longitude = (meanLongitude + centre - 0.00569 + nutation) * RAD;
  const obliquity = (23.4392911 - 0.0130042 * t + 0.00256 * Math.cos(node)) * RAD;
  return {
    rightAscension: Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude)),
    declination: Math.asin(Math.sin(obliquity) * Math.sin(longitude)),
    greenwichSidereal: (280.46061837 + 360.98564736629 * days + nutation * Math.cos(obliquity)) * RAD,
  };
}

/** An angle in radians brought into -π to π. */
function turn(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}

/** The sun as seen from a place: height above the horizon without refraction, and bearing from north over east. */
export interface SolarPosition {
  /** -90 to 90°. */
  readonly elevationDeg: number;
  /** 0 to 360°: north 0, east 90. */
  readonly azimuthDeg: number;
}

/** Solar position at an instant (ms since 1970 UTC); latitude -90 to 90, longitude east positive. Within 0.02° from 1950 to 2100. */
export function solarPosition(atMs: number, latitudeDeg: number, longitudeDeg: number): SolarPosition {
  const sun = sunAmongStars(atMs);
  const hour = sun.greenwichSidereal + longitudeDeg * RAD - sun.rightAscension;
  const sinLat = Math.sin(latitudeDeg * RAD);
  const cosLat = Math.cos(latitudeDeg * RAD);
  const sinDec = Math.sin(sun.declination);
  const cosDec = Math.cos(sun.declination);
  const cosHour = Math.cos(hour);
  const sinElevation = sinLat * sinDec + cosLat * cosDec * cosHour;
  const east = -cosDec * Math.sin(hour);
  const north = cosLat * sinDec - sinLat * cosDec * cosHour;
  const azimuthDeg = Math.atan2(east, north) / RAD;
  return {
    elevationDeg: Math.asin(Math.min(1, Math.max(-1, sinElevation))) / RAD,
    azimuthDeg: azimuthDeg < 0 ? azimuthDeg + 360 : azimuthDeg,
  };
}

/** Cosine of the hour angle at which the sun's centre stands at `altitudeDeg`: above 1 it never rises so high, below -1 never sinks so low. */
function cosHourAngle(declination: number, latitudeDeg: number, altitudeDeg: number): number {
  const latitude = latitudeDeg * RAD;
  return (
    (Math.sin(altitudeDeg * RAD) - Math.sin(latitude) * Math.sin(declination)) /
    (Math.cos(latitude) * Math.cos(declination))
  );
}

/**
 * Hours from sunrise to sunset, 0 (polar night) to 24 (polar day), of a day at a latitude: upper limb with usual refraction, declination
 * from the sun's longitude at noon of the meridian. Within 1 minute of an almanac up to 60° of latitude.
 */
export function dayLengthH(day: Day, latitudeDeg: number, longitudeDeg = 0): number {
  const noonMs = dayNumber(day) * DAY_MS + DAY_MS / 2 - (longitudeDeg / 360) * DAY_MS;
  const cos = cosHourAngle(sunAmongStars(noonMs).declination, latitudeDeg, HORIZON_DEG);
  if (cos >= 1) return 0;
  if (cos <= -1) return 24;
  return (2 * Math.acos(cos) * 12) / Math.PI;
}

/** Sunrise, the sun's highest point and sunset of one day; without rise and set when the sun stays up or down. */
export interface SunTimes {
  readonly noonMs: number;
  readonly dayLengthH: number;
  readonly riseMs?: number;
  readonly setMs?: number;
}

/** The instant near `guessMs` at which the sun's hour angle is `target` (radians); the sun gains a turn a day. */
function whenHourAngle(guessMs: number, longitudeDeg: number, target: (declination: number) => number): number {
  let at = guessMs;
  for (let i = 0; i < 4; i++) {
    const sun = sunAmongStars(at);
    const hour = sun.greenwichSidereal + longitudeDeg * RAD - sun.rightAscension;
    at += (turn(target(sun.declination) - hour) / (2 * Math.PI)) * DAY_MS;
  }
  return at;
}

/** Instants of the sun (ms since 1970 UTC) for the day whose local noon by `zone` it is. Sunrise and sunset within half a minute. */
export function sunTimes(day: Day, zone: string, latitudeDeg: number, longitudeDeg: number): SunTimes {
  const noonMs = whenHourAngle(instantInZone(day, zone, 12), longitudeDeg, () => 0);
  const cos = cosHourAngle(sunAmongStars(noonMs).declination, latitudeDeg, HORIZON_DEG);
  if (cos >= 1) return { noonMs, dayLengthH: 0 };
  if (cos <= -1) return { noonMs, dayLengthH: 24 };
  const half = (Math.acos(cos) / (2 * Math.PI)) * DAY_MS;
  const atHorizon = (declination: number) =>
    Math.acos(Math.min(1, Math.max(-1, cosHourAngle(declination, latitudeDeg, HORIZON_DEG))));
  const riseMs = whenHourAngle(noonMs - half, longitudeDeg, (declination) => -atHorizon(declination));
  const setMs = whenHourAngle(noonMs + half, longitudeDeg, atHorizon);
  return { noonMs, dayLengthH: (setMs - riseMs) / 3_600_000, riseMs, setMs };
}

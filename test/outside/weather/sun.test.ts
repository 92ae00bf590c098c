import * as Astronomy from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { addDays, dayFromNumber, dayNumber } from '../../../src/measure/day.ts';
import { dayLengthH, solarPosition, sunTimes } from '../../../src/weather/sun.ts';

const MINUTE = 60_000;

/** Hours from sunrise to sunset by the astronomy library; the day is that of the meridian of Greenwich. */
function libraryDayLengthH(day: string, latitudeDeg: number): number {
  const observer = new Astronomy.Observer(latitudeDeg, 0, 0);
  const start = new Date(dayNumber(day) * 86_400_000);
  const rise = Astronomy.SearchRiseSet(Astronomy.Body.Sun, observer, 1, start, 1)!;
  const set = Astronomy.SearchRiseSet(Astronomy.Body.Sun, observer, -1, rise.date, 1)!;
  return (set.date.getTime() - rise.date.getTime()) / 3_600_000;
}

describe('day length', () => {
  it('agrees with astronomy-engine within 1 minute from 60 S to 60 N through two years', () => {
    let worst = 0;
    for (let number = dayNumber('2025-07-01'); number < dayNumber('2027-07-01'); number += 13) {
      for (const latitude of [-60, -45, -33, -15, 0, 15, 30, 45, 51.5, 55, 60]) {
        const day = dayFromNumber(number);
        worst = Math.max(worst, Math.abs(dayLengthH(day, latitude) - libraryDayLengthH(day, latitude)) * 60);
      }
    }
    expect(worst).toBeLessThan(1);
  });

  // NREL solar position algorithm (Reda and Andreas 2004), values as carried in the tests of pvlib.
  it.each([
    ['2015-01-02', 'America/Denver', 39.7425, -105.1786, '2015-01-02T14:21:55Z', '2015-01-02T23:47:43Z'],
    ['1996-07-05', 'UTC', -35, 0, '1996-07-05T07:08:15Z', '1996-07-05T17:01:04Z'],
    ['2004-12-04', 'UTC', -35, 0, '2004-12-04T04:38:57Z', '2004-12-04T19:02:03Z'],
  ])('%s in zone %s at %f, %f', (day, zone, latitude, longitude, rise, set) => {
    const sun = sunTimes(day, zone, latitude, longitude);
    expect(Math.abs(sun.riseMs! - Date.parse(rise))).toBeLessThan(15_000);
    expect(Math.abs(sun.setMs! - Date.parse(set))).toBeLessThan(15_000);
  });

  it('gives sunrise and sunset within half a minute of astronomy-engine on the day of the keeper’s own zone', () => {
    const places: [string, number, number][] = [
      ['Europe/London', 52.2, -1.4],
      ['Pacific/Auckland', -41.3, 174.8],
      ['America/Los_Angeles', 47.45, -122.3],
      ['Asia/Shanghai', 43.8, 87.6],
    ];
    for (const [zone, latitude, longitude] of places) {
      for (let i = 0; i < 365; i += 29) {
        const sun = sunTimes(addDays('2026-09-01', i), zone, latitude, longitude);
        const observer = new Astronomy.Observer(latitude, longitude, 0);
        const night = new Date(sun.noonMs - 12 * 60 * MINUTE);
        const rise = Astronomy.SearchRiseSet(Astronomy.Body.Sun, observer, 1, night, 1)!;
        const set = Astronomy.SearchRiseSet(Astronomy.Body.Sun, observer, -1, new Date(sun.noonMs), 1)!;
        expect(Math.abs(sun.riseMs! - rise.date.getTime())).toBeLessThan(MINUTE / 2);
        expect(Math.abs(sun.setMs! - set.date.getTime())).toBeLessThan(MINUTE / 2);
      }
    }
  });

  it('agrees on polar day and polar night', () => {
    expect(dayLengthH('2026-12-21', 70)).toBe(0);
    expect(dayLengthH('2026-06-21', 70)).toBe(24);
    expect(dayLengthH('2026-12-21', -70)).toBe(24);
    expect(sunTimes('2026-12-21', 'UTC', 70, 25)).not.toHaveProperty('riseMs');
  });
});

describe('solar position', () => {
  it('meets the worked case of the NREL algorithm (Reda and Andreas 2004) within 0.02°', () => {
    const sun = solarPosition(Date.parse('2003-10-17T12:30:30-07:00'), 39.742476, -105.1786);
    expect(Math.abs(sun.azimuthDeg - 194.340241)).toBeLessThan(0.02);
    // The printed zenith holds refraction: 50.1116 with, 50.128 without.
    expect(Math.abs(90 - sun.elevationDeg - 50.128)).toBeLessThan(0.02);
  });

  it('stays within 0.02° of astronomy-engine, both hemispheres, 2000 to 2050', () => {
    for (let i = 0; i < 300; i++) {
      const at = Date.UTC(2000, 0, 1) + i * (50 / 300) * 365.25 * 86_400_000 + i * 7_777_000;
      const latitude = -60 + ((i * 37) % 121);
      const longitude = -180 + ((i * 53) % 360);
      const observer = new Astronomy.Observer(latitude, longitude, 0);
      const equator = Astronomy.Equator(Astronomy.Body.Sun, new Date(at), observer, true, true);
      const expected = Astronomy.Horizon(new Date(at), observer, equator.ra, equator.dec);
      const found = solarPosition(at, latitude, longitude);
      expect(Math.abs(found.elevationDeg - expected.altitude)).toBeLessThan(0.02);
      const turn = Math.abs(((found.azimuthDeg - expected.azimuth + 540) % 360) - 180);
      // A degree of azimuth shrinks towards the zenith.
      expect(turn * Math.cos((expected.altitude * Math.PI) / 180)).toBeLessThan(0.02);
    }
  });
});

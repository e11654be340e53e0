import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  crossingTime,
  destination,
  geodesicBetween,
  metresPerDegree,
  placeAfter,
  stepBetween,
} from '../../src/geodesy/index.js';

const dms = (deg: number, min: number, sec: number): number =>
  Math.sign(deg) * (Math.abs(deg) + min / 60 + sec / 3600);
const INTERNATIONAL = { radiusM: 6378388, inverseFlattening: 297 };
const BESSEL = { radiusM: 6377397.155, inverseFlattening: 299.1528128 };

describe('geodesics against published values', () => {
  it('Flinders Peak to Buninyong (GDA Technical Manual, ICSM / Geoscience Australia)', () => {
    const way = geodesicBetween(
      { latDeg: dms(-37, 57, 3.7203), lonDeg: dms(144, 25, 29.5244) },
      { latDeg: dms(-37, 39, 10.1561), lonDeg: dms(143, 55, 35.3839) },
    );
    expect(Math.abs(way.distanceM - 54972.271)).toBeLessThan(0.001);
    expect(Math.abs(way.bearingDeg - dms(306, 52, 5.37))).toBeLessThan(0.01 / 3600);
    expect(Math.abs(way.finalBearingDeg - 180 - dms(127, 10, 25.07))).toBeLessThan(0.01 / 3600);
  });

  it.each([
    ['line a, Bessel', BESSEL, dms(55, 45, 0), dms(-33, 26, 0), dms(108, 13, 0), 14110526.17],
    [
      'line b, International',
      INTERNATIONAL,
      dms(37, 19, 54.95367),
      dms(26, 7, 42.83946),
      dms(41, 28, 35.50729),
      4085966.703,
    ],
    [
      'line c, International',
      INTERNATIONAL,
      dms(35, 16, 11.24862),
      dms(67, 22, 14.77638),
      dms(137, 47, 28.31435),
      8084823.839,
    ],
  ] as const)(
    'Vincenty 1975, Survey Review XXIII 176, table II: %s',
    (_, ellipsoid, lat1, lat2, lon2, metres) => {
      const way = geodesicBetween({ latDeg: lat1, lonDeg: 0 }, { latDeg: lat2, lonDeg: lon2 }, ellipsoid);
      expect(Math.abs(way.distanceM - metres)).toBeLessThan(0.0011);
    },
  );

  it('Karney 2013, J. Geodesy 87:43-55, direct problem (values from memory, computed again with geographiclib)', () => {
    const place = destination({ latDeg: 40, lonDeg: 0 }, 30, 10_000_000);
    expect(place.latDeg).toBeCloseTo(41.79331020506, 10);
    expect(place.lonDeg).toBeCloseTo(137.84490004377, 10);
  });

  it.each([
    [19.707097385334, 20.996796804557, 76.1478894, 19.70773958281026, 0.000260256428101053],
    [23.104245923137, 108.788775202534, 249.4508219, 23.10352043028049, 0.00230523747011909],
    [78.10174623178, 124.870465352256, 397.364659, 78.09971103163879, 0.014156770744057927],
  ])('GeodTest-short (Karney, Zenodo 32156) from latitude %d', (lat1, bearingDeg, metres, lat2, lon2) => {
    const place = destination({ latDeg: lat1, lonDeg: 0 }, bearingDeg, metres);
    expect(Math.abs(place.latDeg - lat2)).toBeLessThan(1e-12);
    expect(Math.abs(place.lonDeg - lon2)).toBeLessThan(1e-12);
    const step = stepBetween({ latDeg: lat1, lonDeg: 0 }, place);
    expect(Math.abs(Math.hypot(step.eastM, step.northM) - metres)).toBeLessThan(1e-5);
  });

  const folder = process.env.THOLE_LOGS ?? '../shared/logs';
  const file = `${folder}/geodtest-100.dat`;
  it.skipIf(!existsSync(file))('GeodTest, 100 lines of every length (skipped: its file is absent)', () => {
    const rows = readFileSync(file, 'utf8')
      .trim()
      .split('\n')
      .map((line) => line.split(' ').map(Number));
    expect(rows.length).toBe(100);
    for (const [lat1, lon1, , lat2, lon2, , metres] of rows as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ][])
      expect(
        Math.abs(
          geodesicBetween({ latDeg: lat1, lonDeg: lon1 }, { latDeg: lat2, lonDeg: lon2 }).distanceM - metres,
        ),
      ).toBeLessThan(1e-6);
  });

  it.each([
    [0, 110574.276, 111319.491],
    [30, 110852.442, 96486.28],
    [45, 111131.777, 78846.835],
    [60, 111412.287, 55800.002],
  ])(
    'one degree at %d° on WGS84 (computed with geographiclib from the formulas of Bomford 1980)',
    (latDeg, northM, eastM) => {
      const one = metresPerDegree(latDeg);
      // the tabled northing is of the arc of one degree at this latitude as a differential
      expect(Math.abs(one.northM - northM)).toBeLessThan(0.001);
      expect(Math.abs(one.eastM - eastM)).toBeLessThan(0.001);
    },
  );

  it.each([45, 60])(
    'a plane at the mid latitude of %d° keeps 2000 m at azimuth 45° (against geographiclib)',
    (latDeg) => {
      const from = { latDeg, lonDeg: 11 };
      const to = destination(from, 45, 2000);
      const step = stepBetween(from, to);
      expect(Math.abs(Math.hypot(step.eastM, step.northM) - 2000)).toBeLessThan(5e-5);
      const back = placeAfter(from, step);
      expect(Math.abs(back.latDeg - to.latDeg)).toBeLessThan(1e-9);
      expect(Math.abs(back.lonDeg - to.lonDeg)).toBeLessThan(1e-9);
    },
  );

  it('a haversine on a sphere would be 6 m off at 51.5°, which the geodesic is not (computed)', () => {
    const from = { latDeg: 51.5, lonDeg: 0 };
    const to = destination(from, 90, 2000);
    const radians = Math.PI / 180;
    const half = Math.sin(((to.lonDeg - from.lonDeg) * radians) / 2) * Math.cos(51.5 * radians);
    expect(2 * 6371008.77 * Math.asin(half)).toBeCloseTo(1993.665, 2);
    expect(geodesicBetween(from, to).distanceM).toBeCloseTo(2000, 6);
  });

  it('a crossing between -1.2 m at 10 s and +3.3 m at 11 s is at 10.26667 s (computed)', () => {
    expect(crossingTime(-1.2, 3.3, 10, 11)).toBeCloseTo(10.26667, 5);
  });
});

import geographiclib from 'geographiclib-geodesic';
import type { Place } from './place.js';

/** The shortest way between two places. */
export interface Geodesic {
  readonly distanceM: number;
  /** Direction at the first place, degrees from true north, 0 to 360. */
  readonly bearingDeg: number;
  /** Direction of travel at the second place. */
  readonly finalBearingDeg: number;
}

/** An ellipsoid of revolution; WGS84 unless a published check is made on another one. */
export interface Ellipsoid {
  readonly radiusM: number;
  readonly inverseFlattening: number;
}

const WGS84: Ellipsoid = { radiusM: 6378137, inverseFlattening: 298.257223563 };

const solverOf = ({ radiusM, inverseFlattening }: Ellipsoid) =>
  new geographiclib.Geodesic.Geodesic(radiusM, 1 / inverseFlattening);
const wgs84 = solverOf(WGS84);

const positive = (deg: number): number => (deg < 0 ? deg + 360 : deg);

/**
 * The geodesic between two places (Karney 2013, J. Geodesy 87:43-55; good to nanometres).
 * @example geodesicBetween({ latDeg: 0, lonDeg: 0 }, { latDeg: 0, lonDeg: 1 }).distanceM // 111319.49
 */
export const geodesicBetween = (from: Place, to: Place, ellipsoid: Ellipsoid = WGS84): Geodesic => {
  const solver = ellipsoid === WGS84 ? wgs84 : solverOf(ellipsoid);
  const found = solver.Inverse(from.latDeg, from.lonDeg, to.latDeg, to.lonDeg);
  if (found.s12 === undefined || found.azi1 === undefined || found.azi2 === undefined)
    throw new Error('the geodesic solver gave no distance; ask it for distance and azimuths');
  return {
    distanceM: found.s12,
    bearingDeg: positive(found.azi1),
    finalBearingDeg: positive(found.azi2),
  };
};

/**
 * The place that lies so many metres away in a direction, along the geodesic.
 * @param bearingDeg direction at `from`, degrees from true north
 */
export const destination = (from: Place, bearingDeg: number, distanceM: number): Place => {
  const found = wgs84.Direct(from.latDeg, from.lonDeg, bearingDeg, distanceM);
  if (found.lat2 === undefined || found.lon2 === undefined)
    throw new Error('the geodesic solver gave no place; ask it for latitude and longitude');
  return { latDeg: found.lat2, lonDeg: found.lon2 };
};

const EQUATOR_RADIUS_M = 6378137; // WGS84
const FLATTENING = 1 / 298.257223563; // WGS84
const ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING);
const RADIANS = Math.PI / 180;

/** Lengths of one degree at a latitude, m. */
export interface MetresPerDegree {
  readonly northM: number;
  readonly eastM: number;
}

/**
 * Lengths of one degree of latitude and of longitude, from the radii of curvature in the meridian and in the
 * prime vertical (Bomford, Geodesy, 4th ed., 1980, appendix A): differential, so right at this latitude only.
 * @param latDeg latitude on WGS84, degrees
 * @example metresPerDegree(0).eastM // 111319.49
 */
export const metresPerDegree = (latDeg: number): MetresPerDegree => {
  const sine = Math.sin(latDeg * RADIANS);
  const w2 = 1 - ECCENTRICITY_SQUARED * sine * sine;
  const vertical = EQUATOR_RADIUS_M / Math.sqrt(w2);
  return {
    northM: ((vertical * (1 - ECCENTRICITY_SQUARED)) / w2) * RADIANS,
    eastM: vertical * Math.cos(latDeg * RADIANS) * RADIANS,
  };
};

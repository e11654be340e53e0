import geodesic from 'geographiclib-geodesic';

const { Geodesic } = geodesic;

/**
 * Place on WGS84 of a point of the true plane. The plane keeps distance and direction from its origin (azimuthal
 * equidistant, by the direct geodesic problem, Karney 2013); lengths elsewhere on it are true to r²/6R², 4e-7 at
 * 10 km.
 * @param origin of the plane, degrees
 * @returns of(eastM, northM): latitude and longitude, degrees
 */
export const placeOnEarth = (origin: {
  readonly latDeg: number;
  readonly lonDeg: number;
}): ((eastM: number, northM: number) => readonly [latDeg: number, lonDeg: number]) => {
  const mask = Geodesic.LATITUDE | Geodesic.LONGITUDE;
  return (eastM, northM) => {
    const bearing = (Math.atan2(eastM, northM) * 180) / Math.PI;
    const found = Geodesic.WGS84.Direct(
      origin.latDeg,
      origin.lonDeg,
      bearing,
      Math.hypot(eastM, northM),
      mask,
    );
    return [found.lat2!, found.lon2!];
  };
};

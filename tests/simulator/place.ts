/** WGS84, NIMA TR8350.2. */
const A_M = 6378137;
const FLATTENING = 1 / 298.257223563;
const E2 = FLATTENING * (2 - FLATTENING);

/** Metres in a radian of latitude and of longitude, at a latitude. */
const radii = (latDeg: number): { readonly northM: number; readonly eastM: number } => {
  const sine = Math.sin((latDeg * Math.PI) / 180);
  const w = 1 - E2 * sine * sine;
  return {
    northM: (A_M * (1 - E2)) / w ** 1.5,
    eastM: (A_M / Math.sqrt(w)) * Math.cos((latDeg * Math.PI) / 180),
  };
};

const RAD_TO_DEG = 180 / Math.PI;

/** Degrees that a small offset in metres makes at a latitude. */
export const degreesOf = (latDeg: number, eastM: number, northM: number) => {
  const radius = radii(latDeg);
  return { latDeg: (northM / radius.northM) * RAD_TO_DEG, lonDeg: (eastM / radius.eastM) * RAD_TO_DEG };
};

/**
 * Latitudes and longitudes of a path given by its east and north, each small step on the ellipsoid where it is
 * made: so the length of the path in degrees is that in metres.
 */
export const placesOf = (
  origin: { readonly latDeg: number; readonly lonDeg: number },
  eastM: Float64Array,
  northM: Float64Array,
): { readonly latDeg: Float64Array; readonly lonDeg: Float64Array } => {
  const latDeg = new Float64Array(eastM.length);
  const lonDeg = new Float64Array(eastM.length);
  let radius = radii(origin.latDeg);
  let [lat, lon, east, north] = [origin.latDeg, origin.lonDeg, 0, 0];
  for (let i = 0; i < eastM.length; i++) {
    // The radii change by 2e-7 of themselves over 10 m.
    if (i % 100 === 0) radius = radii(lat);
    lat += ((northM[i]! - north) / radius.northM) * RAD_TO_DEG;
    lon += ((eastM[i]! - east) / radius.eastM) * RAD_TO_DEG;
    north = northM[i]!;
    east = eastM[i]!;
    latDeg[i] = lat;
    lonDeg[i] = lon;
  }
  return { latDeg, lonDeg };
};

import { destination, type Place } from '../geodesy/index.js';

/**
 * Place on WGS84 of a point of the true plane. The plane keeps distance and direction from its origin (azimuthal
 * equidistant, by the direct geodesic problem); lengths elsewhere on it are true to r²/6R², 4e-7 at 10 km.
 * @param origin of the plane, degrees
 * @returns of(eastM, northM): the place
 */
export const placeOnEarth =
  (origin: Place): ((eastM: number, northM: number) => Place) =>
  (eastM, northM) =>
    destination(origin, (Math.atan2(eastM, northM) * 180) / Math.PI, Math.hypot(eastM, northM));

import { geodesicBetween } from '../geodesy/index.js';
import type { Channel } from '../recording/index.js';

/** Least and greatest of a column. */
const range = (column: Float64Array): readonly [number, number] => {
  let low = column[0]!;
  let high = low;
  for (let i = 0; i < column.length; i++) {
    const value = column[i]!;
    if (value < low) low = value;
    else if (value > high) high = value;
  }
  return [low, high];
};

const HALF_TURN_DEG = 180;

/** The same of longitudes, shifted so that a crossing of the date line does not tear them. */
const lonRange = (lon: Float64Array): readonly [number, number] => {
  const [west, east] = range(lon);
  if (east - west < HALF_TURN_DEG) return [west, east];
  const first = lon[0]!;
  const turn = 2 * HALF_TURN_DEG;
  return range(lon.map((deg) => deg - turn * Math.round((deg - first) / turn)));
};

/** Diagonal of the box of latitude and longitude that holds every position, m. */
export const logExtentM = (position: Channel): number => {
  const [south, north] = range(position.columns[0]!);
  const [west, east] = lonRange(position.columns[1]!);
  return geodesicBetween({ latDeg: south, lonDeg: west }, { latDeg: north, lonDeg: east }).distanceM;
};

import { geodesicBetween } from '../geodesy/index.js';
import type { Channel } from '../recording/index.js';

/** Least and greatest of a column, the column shifted so that a crossing of the date line does not tear it. */
const range = (column: Float64Array, wrapDeg: number | null): readonly [number, number] => {
  const first = column[0]!;
  let [low, high] = [first, first];
  for (let i = 0; i < column.length; i++) {
    const value = column[i]!;
    const near = wrapDeg === null ? value : value - wrapDeg * Math.round((value - first) / wrapDeg);
    if (near < low) low = near;
    else if (near > high) high = near;
  }
  return [low, high];
};

/** Diagonal of the box of latitude and longitude that holds every position, m. */
export const logExtentM = (position: Channel): number => {
  const [south, north] = range(position.columns[0]!, null);
  const [west, east] = range(position.columns[1]!, 360);
  return geodesicBetween({ latDeg: south, lonDeg: west }, { latDeg: north, lonDeg: east }).distanceM;
};

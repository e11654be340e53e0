import { geodesicBetween, stepBetween } from '../geodesy/index.js';
import { momentOfKnot, type Path, type PathSection, placeOf } from './path.js';
import { placeOfKnot } from './section.js';
import type { Place } from './track.js';

/** A place looked at is this long after the one before, s: a boat makes some metres in it. */
const EVERY_S = 1;

/** Within this a plane gives distances to the share below, m. */
const FLAT_M = 100_000;
const FLAT_SHARE = 0.9;

/** Distances on a plane, m; 0 for places that are not looked at: of a still boat, or soon after the one before. */
const approximateDistances = ({ smoothed, steps }: PathSection, home: Place): Float64Array => {
  const { section, eastM, northM } = smoothed;
  const from = stepBetween(home, placeOfKnot(section, 0));
  const approximate = new Float64Array(section.count);
  let lastAt = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < approximate.length; k++) {
    if (steps.still[k] || section.atS[k]! - lastAt < EVERY_S) continue;
    lastAt = section.atS[k]!;
    const east = from.eastM + eastM[k]!;
    const north = from.northM + northM[k]!;
    approximate[k] = Math.sqrt(east * east + north * north);
  }
  return approximate;
};

const greatestOf = (values: Float64Array): number => {
  let greatest = 0;
  for (let k = 0; k < values.length; k++) greatest = Math.max(greatest, values[k]!);
  return greatest;
};

/**
 * Geodesic distance of the farthest place of a path from its first, m; a plane tells which places may be it.
 */
export const furthestM = ({ parts }: Path): number => {
  const first = parts[0];
  if (first === undefined) return 0;
  const home = placeOf(momentOfKnot(first, 0));
  const approximate = parts.map((part) => approximateDistances(part, home));
  const most = Math.max(...approximate.map(greatestOf));
  const least = most > FLAT_M ? 0 : FLAT_SHARE * most;
  let farthestM = 0;
  for (const [i, part] of parts.entries())
    for (let k = 0; k < approximate[i]!.length; k++)
      if (approximate[i]![k]! > 0 && approximate[i]![k]! >= least)
        farthestM = Math.max(farthestM, geodesicBetween(home, placeOf(momentOfKnot(part, k))).distanceM);
  return farthestM;
};

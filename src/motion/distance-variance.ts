import { lastAtMost } from '../units/last-at-most.js';
import type { Path, PathSection } from './path.js';
import { MOTION_SETTINGS } from './settings.js';

/** Variance of where an end of a stretch lies within the stroke, where the log does not show the inside, m². */
const surgeVariance = (part: PathSection, knot: number): number =>
  part.smoothed.model.fine || part.smoothed.slow[knot] ? 0 : MOTION_SETTINGS.surgePathM ** 2;

/** Variance of the way that a boat may creep before it is seen to lie still, m². */
const hiddenVariance = ({ smoothed: { model } }: PathSection): number =>
  MOTION_SETTINGS.hiddenPathM ** 2 +
  (MOTION_SETTINGS.hiddenWanderShare * model.wander.sdM) ** 2 +
  (MOTION_SETTINGS.hiddenWhiteShare * model.whiteSdM) ** 2;

/** Variance of how much longer or shorter a path is in gaps that are bridged than the smoothed one, m². */
const bridgeVariance = (
  { smoothed: { section }, steps }: PathSection,
  first: number,
  last: number,
): number => {
  let metres = 0;
  for (let k = first; k <= last; k++) if (section.bridged[k]) metres += steps.metres[k]!;
  return (MOTION_SETTINGS.bridgeShare * metres) ** 2;
};

/** Share of the step from a knot that lies between two times. */
const shareOf = (atS: Float64Array, knot: number, fromS: number, toS: number): number => {
  const stepS = atS[knot + 1]! - atS[knot]!;
  return Math.max(0, Math.min(1, (toS - atS[knot]!) / stepS) - Math.max(0, (fromS - atS[knot]!) / stepS));
};

/**
 * Variance of the path's length between two times, m²: of each section's own part, from the covariances of its
 * smoothed places; still steps have no part in it. Errors of two sections are taken as independent.
 */
export const distanceVariance = (path: Path, fromS: number, toS: number): number => {
  let variance = 0;
  for (const part of path.parts) {
    const { smoothed, steps } = part;
    const { atS, count } = smoothed.section;
    if (count < 2 || atS[0]! >= toS || atS[count - 1]! <= fromS) continue;
    const first = Math.max(0, lastAtMost(atS, fromS));
    const last = Math.min(count - 2, Math.max(first, lastAtMost(atS, toS)));
    for (let k = first; k < last; k++)
      if (!steps.still[k] && steps.still[k + 1]) variance += hiddenVariance(part);
    variance += surgeVariance(part, first) + surgeVariance(part, last);
    variance += bridgeVariance(part, first, last);
    // The length is a sum of steps along the way, so each knot's place counts by the step into it less the one out.
    const east = new Float64Array(last + 2 - first);
    const north = new Float64Array(last + 2 - first);
    let into = 0;
    for (let k = first; k <= last + 1; k++) {
      const out = k > last ? 0 : shareOf(atS, k, fromS, toS);
      east[k - first] = (into > 0 ? into * steps.east[k - 1]! : 0) - out * steps.east[k]!;
      north[k - first] = (into > 0 ? into * steps.north[k - 1]! : 0) - out * steps.north[k]!;
      into = out;
    }
    variance += smoothed.covariance().varianceOfSum(first, east, north);
  }
  return variance;
};

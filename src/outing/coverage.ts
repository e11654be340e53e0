import { type Interval, lengthBetween, type Track } from '../motion/index.js';
import type { Estimate } from '../units/estimate.js';

const overlapS = (a: Interval, b: Interval): number =>
  Math.max(0, Math.min(a.toS, b.toS) - Math.max(a.fromS, b.fromS));

/** Seconds of a stretch for which the track tells where the boat was. */
export const coveredS = (track: Track, within: Interval): number =>
  track.outages.reduce((left, outage) => left - overlapS(outage, within), overlapS(track, within));

/** A stretch is covered where the track misses no more of it than this, s: a sample at either end. */
const MISSED_S = 1;

/** Does the track tell where the boat was for the whole of a stretch? What it misses has no length and no time. */
export const isCovered = (track: Track, within: Interval): boolean =>
  within.toS - within.fromS - coveredS(track, within) <= MISSED_S;

/** Length of a stretch that the track tells whole, with its sd; null where it does not. */
export const coveredDistance = (track: Track | null, within: Interval): Estimate | null =>
  track !== null && isCovered(track, within)
    ? track.distanceM(Math.max(within.fromS, track.fromS), Math.min(within.toS, track.toS))
    : null;

/** Length of the path within a stretch, as far as the track tells it, m; 0 where it tells nothing. */
export const coveredM = (track: Track, { fromS, toS }: Interval): number =>
  lengthBetween(track, Math.max(fromS, track.fromS), Math.min(toS, track.toS)) ?? 0;

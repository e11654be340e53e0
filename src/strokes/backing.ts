import type { Track } from '../motion/track.js';
import { BACKING_SETTINGS } from './stroke-settings.js';

/** Smaller angle between two headings, degrees. */
const apart = (p: number, q: number): number => Math.abs(((p - q + 540) % 360) - 180);

/** Heading of the boat while it last or next ran ahead, degrees; null where it does not within reach. */
const headingAhead = (track: Track, fromS: number, step: 1 | -1): number | null => {
  for (let k = 1; k <= BACKING_SETTINGS.reachS; k++) {
    const atS = fromS + step * k;
    if ((track.speedAt(atS) ?? 0) >= BACKING_SETTINGS.aheadMps) return track.headingAt(atS);
  }
  return null;
};

/**
 * Whether a stroke backed the boat down: it moved slowly against the way that it ran before and ran again after.
 * A boat that turns round between the two is not given from one that backs, and its strokes count as forward.
 * @param atS catch mark, s
 * @param endS next catch mark, or about where it would be, s
 */
export const isBacking = (track: Track, atS: number, endS: number): boolean => {
  const middleS = (atS + endS) / 2;
  const speed = track.speedAt(middleS);
  if (speed === null || speed < BACKING_SETTINGS.leastMps || speed > BACKING_SETTINGS.mostMps) return false;
  const way = track.headingAt(middleS);
  if (way === null) return false;
  return ([-1, 1] as const).every((step) => {
    const ahead = headingAhead(track, middleS, step);
    return ahead !== null && apart(ahead, way) > BACKING_SETTINGS.leastAngleDeg;
  });
};

import type { Progress } from './track.js';

/**
 * Length of a track's path between two times, m: the value of `distanceM` without its sd, which costs a pass over
 * the stretch.
 * @returns null outside the track, and without one
 */
export const lengthBetween = (track: Progress | null, fromS: number, toS: number): number | null => {
  const [from, to] = [track?.alongAt(fromS) ?? null, track?.alongAt(toS) ?? null];
  return from === null || to === null || toS < fromS ? null : to - from;
};

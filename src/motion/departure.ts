import type { Track } from './track.js';

/** How a boat's first movement is read from its speed. */
export const DEPARTURE_SETTINGS = Object.freeze({
  /** Speeds between which the rise is taken for straight, m/s: above the noise of a boat at rest, below the first stroke's end. */
  lowMps: 0.4,
  highMps: 1.2,
  /** Longest time from the one to the other in a start, s. */
  riseS: 4,
  /** How long after a rest has ended the boat may still lie, s: rests are cut short by a margin. */
  withinS: 30,
  /** sd where speed is logged, and where only positions tell it, s. */
  speedSdS: 0.2,
  positionSdS: 1.2,
});

/** A moment with its sd, s. */
export interface Departure {
  readonly atS: number;
  readonly sdS: number;
}

/**
 * When a boat that lay still began to move: the rise of its speed, carried back to zero.
 * @param restToS end of the rest, s
 * @returns null where it did not get under way soon
 */
export const departureAfter = (track: Track, restToS: number): Departure | null => {
  const { lowMps, highMps, riseS, withinS, speedSdS, positionSdS } = DEPARTURE_SETTINGS;
  const { atS, speedMps } = track;
  let lowS: number | null = null;
  const passed = (k: number, speed: number): number => {
    const [before, after] = [speedMps[k - 1]!, speedMps[k]!];
    return atS[k - 1]! + ((speed - before) / (after - before)) * (atS[k]! - atS[k - 1]!);
  };
  for (let k = 1; k < atS.length && atS[k]! < restToS + withinS; k++) {
    if (atS[k]! <= restToS) continue;
    if (speedMps[k - 1]! < lowMps && speedMps[k]! >= lowMps) lowS = passed(k, lowMps);
    if (lowS === null || speedMps[k]! < highMps || speedMps[k - 1]! >= highMps) continue;
    const highS = passed(k, highMps);
    if (highS - lowS > riseS) continue;
    const rise = (highS - lowS) / (highMps - lowMps);
    return {
      atS: Math.max(restToS, lowS - rise * lowMps),
      sdS: track.errorModel.speedSdMps === null ? positionSdS : speedSdS,
    };
  }
  return null;
};

import { linearRegression } from 'simple-statistics';
import type { Interval } from '../motion/index.js';
import type { Outing } from '../outing/index.js';
import { median } from '../signal/index.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { firstForward } from './forward-surge.js';

/** A moment with its sd, s. */
export interface Moment {
  readonly atS: number;
  readonly sdS: number;
}

/** Settings of the search for the first movement. */
export const FIRST_MOVEMENT_SETTINGS = Object.freeze({
  /** Looked for from so long before the first catch mark to so long after it, s; 2 to 4 and 3 to 8. */
  beforeS: 3,
  afterS: 5,
  /** Speed at rest is the median of so long before that, s; 3 to 10. */
  restS: 5,
  /** Least samples a second of a logged speed that shows a start; 3 to 10: a first stroke lasts 1 s. */
  leastHz: 3,
  /** Moving for good: this much faster than at rest, m/s; 0.8 to 1.5: one stroke of any craft. */
  underWayMps: 1,
  /** Movement stands so many sd above the scatter at rest; 2 to 4. */
  aboveSd: 3,
  /** Least sd of a logged speed at rest, m/s; 0.02 to 0.1: some receivers write zeros at rest. */
  leastSdMps: 0.04,
  /** A straight line through the first push meets rest so long after the first movement, with this sd, s: measured on both simulators. */
  shapeLagS: 0.07,
  shapeSdS: 0.08,
  /** sd where an accelerometer shows the first surge, s: measured on both simulators. */
  imuSdS: 0.2,
  /** sd where only the smoothed track or a cadence shows it, s. */
  coarseSdS: 1,
});

/** A stretch of samples of a logged speed. */
interface Samples {
  readonly atS: Float64Array;
  readonly mps: Float64Array;
}

const samplesWithin = (outing: Outing, { fromS, toS }: Interval): Samples | null => {
  const channel = outing.recording.channels.speed;
  if (channel === undefined || outing.track?.errorModel.speedSdMps == null) return null;
  const from = firstAtLeast(channel.atS, fromS);
  let to = firstAtLeast(channel.atS, toS);
  if (channel.atS[to] === toS) to++;
  if (from === channel.atS.length || to - from < FIRST_MOVEMENT_SETTINGS.leastHz * (toS - fromS)) return null;
  return { atS: channel.atS.subarray(from, to), mps: channel.columns[0]!.subarray(from, to) };
};

/** The moment at which a straight line through the first push meets the speed at rest. */
const onset = ({ atS, mps }: Samples, restToS: number, speedSdMps: number): Moment | null => {
  const set = FIRST_MOVEMENT_SETTINGS;
  const atRest = [...mps].filter((_, i) => atS[i]! < restToS);
  if (atRest.length === 0) return null;
  const restMps = median(atRest);
  const underWay = mps.findIndex((value, i) => atS[i]! >= restToS && value > restMps + set.underWayMps);
  if (underWay < 1) return null;
  const floor = restMps + set.aboveSd * Math.max(set.leastSdMps, speedSdMps);
  let first = underWay;
  while (first > 0 && mps[first - 1]! > floor) first--;
  const push = Array.from({ length: underWay - first + 1 }, (_, i) => [atS[first + i]!, mps[first + i]!]);
  const line = push.length > 1 ? push : [[atS[first - 1]!, mps[first - 1]!], ...push];
  const { m: slope, b } = linearRegression(line);
  if (!(slope > 0)) return null;
  const met = (restMps - b) / slope;
  const found = Math.min(
    Math.max(met, atS[Math.max(0, first - 1)]! - (atS[first]! - atS[Math.max(0, first - 1)]!)),
    atS[first]!,
  );
  return { atS: found - set.shapeLagS, sdS: Math.hypot(set.shapeSdS, speedSdMps / slope) };
};

/**
 * When the hull first moved forward at a standing start: from the accelerometer, else from a logged speed where it
 * is logged often enough.
 * @param markS catch mark of the first stroke, or where movement was found to begin
 * @returns null where neither shows it
 */
export const firstMovement = (outing: Outing, markS: number): Moment | null => {
  const set = FIRST_MOVEMENT_SETTINGS;
  const forward = firstForward(outing, markS);
  if (forward !== null) return forward;
  const restToS = markS - set.beforeS;
  const samples = samplesWithin(outing, { fromS: restToS - set.restS, toS: markS + set.afterS });
  return samples === null ? null : onset(samples, restToS, outing.track!.errorModel.speedSdMps!);
};

import { mean } from 'simple-statistics';
import { geodesicBetween } from '../geodesy/index.js';
import type { Interval } from '../motion/track.js';
import type { Stroke } from '../strokes/stroke.js';
import type { Estimate } from '../units/estimate.js';
import { coveredDistance } from './coverage.js';
import { type HeartRate, heartRateWithin } from './heart-rate.js';
import type { Outing } from './outing.js';
import { waterDistanceM } from './water-distance.js';

/** What a stretch of an outing was, as far as the logs tell. */
export interface Stretch extends Interval {
  readonly durationS: number;
  /** Over ground; null where the track does not tell all of it. */
  readonly distance: Estimate | null;
  /** Strokes with their catch mark in the stretch; null where none could be found in the log. */
  readonly strokes: readonly Stroke[] | null;
  readonly rateSpm: number | null;
  /** Through the water where the stream is known, else over ground. */
  readonly speedMps: number | null;
  readonly distancePerStrokeM: number | null;
  readonly speedVariation: number | null;
  readonly extraDragPowerPct: number | null;
  readonly heartRate: HeartRate | null;
  /** Straight from its first place to its last; null where it bends back on itself. */
  readonly headingDeg: number | null;
}

/** A stretch has one direction where its ends are at least this share of its length apart. */
const STRAIGHT_SHARE = 0.7;

/**
 * Strokes per minute over strokes in a row: 60 (n-1) / (last mark - first mark), stops left out.
 * @returns null where no two strokes follow one another
 */
export const rateOfStrokes = (strokes: readonly Stroke[]): number | null => {
  let [count, timeS] = [0, 0];
  for (let i = 1; i < strokes.length; i++) {
    if (strokes[i - 1]!.rateSpm === null) continue;
    count += 1;
    timeS += strokes[i]!.atS - strokes[i - 1]!.atS;
  }
  return count === 0 ? null : (60 * count) / timeS;
};

/** Mean of what is known; null where nothing is. */
export const meanKnown = (values: readonly (number | null)[]): number | null => {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : mean(known);
};

/** Strokes with their catch mark from `fromS` to just before `toS`; backing strokes are left out. */
export const strokesWithin = (
  outing: Pick<Outing, 'strokes'>,
  { fromS, toS }: Interval,
): readonly Stroke[] => {
  const within: Stroke[] = [];
  for (const stroke of outing.strokes.strokes)
    if (stroke.atS >= fromS && stroke.atS < toS && stroke.kind !== 'backing') within.push(stroke);
  return within;
};

const headingOf = (outing: Outing, { fromS, toS }: Interval, distanceM: number): number | null => {
  const from = outing.track?.placeAt(fromS);
  const to = outing.track?.placeAt(toS);
  if (!from || !to) return null;
  const chord = geodesicBetween(from, to);
  return chord.distanceM < STRAIGHT_SHARE * distanceM ? null : chord.bearingDeg;
};

/** Length over ground, and mean speed through the water where the stream is known, else over ground, m/s. */
export const speedWithin = (
  outing: Pick<Outing, 'track' | 'stream'>,
  within: Interval,
): Pick<Stretch, 'distance' | 'speedMps'> => {
  const durationS = within.toS - within.fromS;
  const distance = coveredDistance(outing.track, within);
  const waterM = outing.stream && outing.track ? waterDistanceM(outing.track, within, outing.stream) : null;
  return {
    distance,
    speedMps: distance === null || durationS <= 0 ? null : (waterM ?? distance.value) / durationS,
  };
};

/**
 * The figures of a stretch of an outing.
 * @param firstMarkS catch marks count from here: a first stroke's mark may lie just before the movement it makes
 */
export const stretchOf = (outing: Outing, within: Interval, firstMarkS = within.fromS): Stretch => {
  const durationS = within.toS - within.fromS;
  const { distance, speedMps } = speedWithin(outing, within);
  const strokes =
    outing.strokes.source === null ? null : strokesWithin(outing, { fromS: firstMarkS, toS: within.toS });
  const rateSpm = strokes === null ? null : rateOfStrokes(strokes);
  return {
    ...within,
    durationS,
    distance,
    strokes,
    rateSpm,
    speedMps,
    distancePerStrokeM: speedMps === null || rateSpm === null ? null : (60 * speedMps) / rateSpm,
    speedVariation: meanKnown((strokes ?? []).map((stroke) => stroke.speedVariation)),
    extraDragPowerPct: meanKnown((strokes ?? []).map((stroke) => stroke.extraDragPowerPct)),
    heartRate: heartRateWithin(outing.recording, [within]),
    headingDeg: distance === null ? null : headingOf(outing, within, distance.value),
  };
};

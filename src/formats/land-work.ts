import type { ChannelName } from '../recording/index.js';

const INDOOR = /indoor|ergo(?:meter)?\b|rowing machine|virtual/i;

/** How far a log that moved on water gets, m; positions of a device indoors wander less, as a rule within 30 m. */
const INDOOR_EXTENT_M = 60;
/** Distance that a device claims while its positions stay within that, m. */
const CLAIMED_M = 500;
/** m in one degree of latitude, to 1 %: enough to tell a room from a river. */
const M_PER_DEG = 111_000;

/** What tells land work from work on water. */
export interface LandClues {
  /** What the log says of its sport. */
  readonly sport: string | null;
  /** The last value of the logged distance, m; null where none is logged. */
  readonly distanceM: number | null;
  /** Latitudes and longitudes, degrees; null where none are logged. */
  readonly position: readonly Float64Array[] | null;
  readonly channels: readonly ChannelName[];
}

const spanDeg = (column: Float64Array): number => {
  let [low, high] = [column[0]!, column[0]!];
  for (const value of column) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return high - low;
};

const extentM = (position: readonly Float64Array[]): number => {
  const [lat, lon] = position as [Float64Array, Float64Array];
  const shrink = Math.cos((lat[0]! * Math.PI) / 180);
  return Math.hypot(spanDeg(lat), spanDeg(lon) * shrink) * M_PER_DEG;
};

/**
 * Why a log is taken for work on land (an ergometer): it says so and has been nowhere; or it counts strokes and
 * metres without having been anywhere.
 * @returns the reason in words, or null where nothing speaks for land
 */
export const landWork = ({ sport, distanceM, position, channels }: LandClues): string | null => {
  if (channels.includes('acceleration')) return null;
  const calledSo = sport !== null && INDOOR.test(sport);
  const counted = channels.includes('cadence') ? distanceM : null;
  if (!calledSo && counted === null) return null;
  if (position !== null && extentM(position) > INDOOR_EXTENT_M) return null;
  if (calledSo) return `it calls itself ${sport}`;
  if (position === null) return 'it holds a stroke rate and a distance, and no positions';
  return counted! > CLAIMED_M
    ? `it counts ${Math.round(counted!)} m while its positions stay in place`
    : null;
};

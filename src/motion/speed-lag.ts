import type { Channel } from '../recording/index.js';
import type { Estimate } from '../units/estimate.js';
import { lastAtMost } from '../units/last-at-most.js';
import { speedRateHz } from './noise.js';
import { pathExcess } from './path-excess.js';
import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

/** When a logged speed is moved in time. */
export const SPEED_LAG_SETTINGS = Object.freeze({
  /** Means of the excess are so long, s; 2 to 4: a start takes some 10 s. */
  meanS: 3,
  /** A lag counts from this on, s, and from so many of its sd on. */
  leastS: 0.6,
  leastSds: 4,
  /** What is longer than this is no lag, s; watches smooth over 2 to 10 s. */
  longestS: 6,
  /** Squared changes of speed that tell a lag, m²/s²: a start and a stop. */
  leastSquare: 3,
});

/**
 * By how much a logged speed lags the positions, s: a mean over the seconds before lags by half of them. Where it
 * does, the summed speed falls behind the fixes by lag times speed while the boat gains speed, and catches up while
 * it loses it; a least-squares line through the changes of both.
 * Fine speeds are not looked at: what shows the inside of a stroke is no such mean.
 * @returns null where the boat changed its speed too little to tell, or where no lag shows
 */
export const speedLag = (section: Section): Estimate | null => {
  if (speedRateHz(section) >= MOTION_SETTINGS.fineSpeedHz) return null;
  const { meanS, leastS, leastSds, longestS, leastSquare } = SPEED_LAG_SETTINGS;
  const { metres, begins, speedMps } = pathExcess(section, meanS);
  let [square, product, count] = [0, 0, 0];
  for (let i = 2; i < metres.length - 1; i++) {
    if (begins[i - 1] || begins[i] || begins[i + 1]) continue;
    // The speeds are those between the values.
    const gain = (speedMps[i + 1]! - speedMps[i - 1]!) / 2;
    square += gain * gain;
    product -= gain * (metres[i]! - metres[i - 1]!);
    count++;
  }
  if (square < leastSquare) return null;
  const value = product / square;
  let left = 0;
  for (let i = 2; i < metres.length - 1; i++)
    if (!begins[i - 1] && !begins[i] && !begins[i + 1])
      left += (metres[i]! - metres[i - 1]! + (value * (speedMps[i + 1]! - speedMps[i - 1]!)) / 2) ** 2;
  const sd = Math.sqrt(left / (count - 1) / square);
  return value > leastS && value < longestS && value > leastSds * sd ? { value, sd } : null;
};

/** A speed as it was so many seconds earlier than logged, at the times of the log; its end is cut off. */
export const speedAhead = (speed: Channel, lagS: number): Channel => {
  const { atS, columns } = speed;
  const [mps] = columns as [Float64Array];
  const last = atS.length - 1;
  const count = lastAtMost(atS, atS[last]! - lagS) + 1;
  const moved = new Float64Array(Math.max(0, count));
  for (let i = 0; i < count; i++) {
    const at = atS[i]! + lagS;
    const k = Math.min(last - 1, lastAtMost(atS, at));
    moved[i] = mps[k]! + ((mps[k + 1]! - mps[k]!) * (at - atS[k]!)) / (atS[k + 1]! - atS[k]!);
  }
  return { ...speed, atS: atS.subarray(0, count), columns: [moved] };
};

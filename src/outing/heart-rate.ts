import type { Interval } from '../motion/track.js';
import type { Recording } from '../recording/index.js';
import { firstAtLeast } from '../units/first-at-least.js';

/** Heart rate over a stretch, beats per minute. */
export interface HeartRate {
  readonly meanBpm: number;
  readonly maxBpm: number;
}

/** A reading counts until the next one, but no longer than this, s: belts report every 1 to 5 s. */
const LONGEST_READING_S = 10;

/**
 * Mean (by time) and highest heart rate within stretches of time.
 * @returns null where nothing was logged there
 */
export const heartRateWithin = (recording: Recording, within: readonly Interval[]): HeartRate | null => {
  const channel = recording.channels.heart_rate;
  if (channel === undefined) return null;
  const [{ atS }, values] = [channel, channel.columns[0]!];
  let [sum, timeS, maxBpm] = [0, 0, 0];
  for (const { fromS, toS } of within)
    for (let i = firstAtLeast(atS, fromS - LONGEST_READING_S); i < atS.length && atS[i]! < toS; i++) {
      const endS = Math.min(atS[i + 1] ?? Number.POSITIVE_INFINITY, atS[i]! + LONGEST_READING_S, toS);
      const lengthS = endS - Math.max(atS[i]!, fromS);
      if (lengthS <= 0) continue;
      sum += values[i]! * lengthS;
      timeS += lengthS;
      maxBpm = Math.max(maxBpm, values[i]!);
    }
  return timeS > 0 ? { meanBpm: sum / timeS, maxBpm } : null;
};

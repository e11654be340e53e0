import type { Positions } from '../contract/positions.js';
import type { Interval, Track } from '../motion/index.js';
import { isoTimeOrNull } from '../units/instant.js';

/** Seconds between two places; 1 to 5: a boat goes a few metres. */
const STEP_S = 1;

/** Moments of a stretch at even steps, its ends and further moments within it, in order. */
const momentsWithin = ({ fromS, toS }: Interval, further: readonly number[]): number[] => {
  const moments = new Set([fromS, toS, ...further.filter((atS) => atS > fromS && atS < toS)]);
  for (let atS = Math.ceil(fromS / STEP_S) * STEP_S; atS < toS; atS += STEP_S) moments.add(atS);
  return [...moments].sort((a, b) => a - b);
};

/**
 * Where a boat was within a stretch of time, second by second, by its smoothed track. An outage parts it.
 * @param further moments that have a place of their own, s: borders of parts
 */
export const positionsOf = (
  track: Track | null,
  within: Interval,
  further: readonly number[] = [],
): Positions => {
  if (track === null) return [];
  const stretch = { fromS: Math.max(within.fromS, track.fromS), toS: Math.min(within.toS, track.toS) };
  if (!(stretch.toS > stretch.fromS)) return [];
  const parts: Positions = [[]];
  for (const atS of momentsWithin(stretch, further)) {
    const place = track.placeAt(atS);
    if (place === null) {
      if (parts.at(-1)!.length > 0) parts.push([]);
      continue;
    }
    parts.at(-1)!.push({
      at_s: atS,
      time: isoTimeOrNull(track.startUnixS === null ? null : track.startUnixS + atS),
      lat_deg: place.latDeg,
      lon_deg: place.lonDeg,
    });
  }
  return parts.filter((part) => part.length > 1);
};

import type { Interval } from '../motion/index.js';
import type { RowedTrack } from '../outing/index.js';
import { firstAtLeast } from '../units/first-at-least.js';

/**
 * Stretches in which the smoothed speed stays below a limit for long enough; a hole in the track ends one.
 * @param within looked at, s on the outing's clock
 * @param belowMps limit, m/s
 * @param leastS shortest rest, s
 */
export const restsOf = (
  track: RowedTrack,
  within: Interval,
  belowMps: number,
  leastS: number,
): readonly Interval[] => {
  const rests: Interval[] = [];
  let fromS: number | null = null;
  let lastS = within.fromS;
  const close = (toS: number) => {
    if (fromS !== null && toS - fromS >= leastS) rests.push({ fromS, toS });
    fromS = null;
  };
  for (let i = firstAtLeast(track.atS, within.fromS); i < track.atS.length; i++) {
    const atS = track.atS[i]!;
    if (atS > within.toS) break;
    const hole = track.outages.some((gap) => gap.fromS < atS && gap.toS > lastS);
    if (hole) close(lastS);
    if (track.speedMps[i]! < belowMps) fromS ??= atS;
    else close(atS);
    lastS = atS;
  }
  close(lastS);
  return rests;
};

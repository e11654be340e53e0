import { lengthBetween } from '../motion/index.js';
import type { Interval } from '../motion/track.js';
import { type Outing, type RowingInterval, rowedTrack } from '../outing/index.js';

/** A short span of a rowing interval with its rate and speed: a stroke, or a few seconds where there are no strokes. */
export interface Effort extends Interval {
  readonly rateSpm: number | null;
  readonly speedMps: number | null;
}

/** Length of a span where there are no strokes, s; 2 to 5: about a stroke. */
const SPAN_S = 3;

const spanBorders = ({ fromS, toS }: Interval): readonly number[] => {
  const count = Math.max(1, Math.round((toS - fromS) / SPAN_S));
  return Array.from({ length: count + 1 }, (_, i) => fromS + (i * (toS - fromS)) / count);
};

/** A rowing interval as a row of strokes (or spans) end to end, each with its rate and its mean speed, through the water where the stream is known. */
export const effortsOf = (
  outing: Pick<Outing, 'track' | 'stream'>,
  rowing: RowingInterval,
): readonly Effort[] => {
  const byStroke = rowing.strokes.length > 0;
  const borders = byStroke ? [...rowing.strokes.map(({ atS }) => atS), rowing.toS] : spanBorders(rowing);
  const track = rowedTrack(outing);
  return borders.slice(1).map((toS, i) => {
    const fromS = borders[i]!;
    const distance = lengthBetween(track, fromS, toS);
    return {
      fromS,
      toS,
      rateSpm: byStroke ? 60 / (toS - fromS) : null,
      speedMps: distance === null ? null : distance / (toS - fromS),
    };
  });
};

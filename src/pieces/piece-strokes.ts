import type { OpeningStrokeRow } from '../contract/piece-detail.js';
import type { Interval } from '../motion/index.js';
import { type Outing, speedWithin, strokesWithin } from '../outing/index.js';
import type { Piece } from './piece.js';

/** A stroke of a piece, from its catch mark to the next one or to the end of the piece. */
export type PieceStroke = OpeningStrokeRow;

/**
 * Every stroke of a piece, in order. The first of a standing start counts from the first movement, where its
 * catch mark lies a moment before it. The last has no rate unless the crew rowed on.
 */
export const pieceStrokes = (outing: Outing, piece: Piece): readonly PieceStroke[] => {
  const strokes = strokesWithin(outing, { fromS: piece.strokesFromS, toS: piece.toS });
  return strokes.map(({ atS, rateSpm }, i) => {
    const span: Interval = {
      fromS: Math.max(atS, piece.fromS),
      toS: strokes[i + 1]?.atS ?? piece.toS,
    };
    const { distance, speedMps } = speedWithin(outing, span);
    return {
      stroke: i + 1,
      at_s: span.fromS,
      cumulative_s: span.toS - piece.fromS,
      rate_spm: rateSpm,
      speed_mps: speedMps,
      distance_m: distance?.value ?? null,
      distance_sd_m: distance?.sd ?? null,
      cumulative_m: speedWithin(outing, { fromS: piece.fromS, toS: span.toS }).distance?.value ?? null,
    };
  });
};

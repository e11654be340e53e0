import type { Curve } from '../contract/curve.js';
import type { DrawnPiece } from '../contract/drawn.js';
import { momentsOf, type Outing } from '../outing/index.js';
import { curveSpeed } from './curve.js';
import type { Piece } from './piece.js';

/**
 * What pictures of a piece are drawn from: speed and rate along it, stroke by stroke.
 * @param number of the piece within the log, from 1
 * @param curve what speed is held against; null for nothing
 */
export const drawnPiece = (
  outing: Outing,
  piece: Piece,
  number: number,
  curve: Curve | null,
): DrawnPiece => ({
  file: outing.file,
  piece: number,
  moments: momentsOf(outing, piece, false, piece.strokesFromS).map(
    ({ at_s, along_m, speed_mps, rate_spm }) => ({
      at_s,
      cumulative_s: at_s - piece.fromS,
      along_m,
      speed_mps,
      rate_spm,
      ...(curve === null ? {} : { curve_speed_mps: rate_spm === null ? null : curveSpeed(curve, rate_spm) }),
    }),
  ),
});

import type { PiecesResult } from '../contract/pieces.js';
import { type BestAsk, type Outing, resultFrame } from '../outing/index.js';
import { bestPieces } from './best-pieces.js';
import { findPieces } from './find-pieces.js';
import type { PartAsk } from './part.js';
import type { PieceAsk } from './piece.js';
import { pieceRow } from './piece-row.js';

/**
 * What `thole pieces` tells of an outing: each piece and its parts.
 * @param ask how pieces are found, or the lengths of best stretches
 * @throws UserError where what is asked cannot be made of any log
 */
export const piecesResultOf = (
  outing: Outing,
  ask: PieceAsk | { readonly kind: 'best'; readonly lengths: readonly BestAsk[] },
  parts?: PartAsk,
): PiecesResult => {
  const found = ask.kind === 'best' ? bestPieces(outing, ask.lengths) : findPieces(outing, ask);
  return {
    schema: 'thole/pieces/1',
    ...resultFrame(outing, found.warnings),
    pieces: found.pieces.map((piece, i) => pieceRow(outing, piece, i + 1, parts)),
  };
};

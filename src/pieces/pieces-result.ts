import type { PiecesResult } from '../contract/pieces.js';
import type { Course } from '../geodesy/index.js';
import { type BestAsk, type Outing, resultFrame, type Target } from '../outing/index.js';
import { bestPieces } from './best-pieces.js';
import { coursePieces } from './course-pieces.js';
import { findPieces, type PieceLook, USUAL_LOOK } from './find-pieces.js';
import type { PartAsk } from './part.js';
import type { PieceAsk } from './piece.js';
import { pieceRow } from './piece-row.js';
import { type DetailAsk, piecesDetail } from './pieces-detail.js';

/**
 * What `thole pieces` tells of an outing: each piece and its parts.
 * @param ask how pieces are found, or the lengths of best stretches, or a course along which they are passes
 * @param target what speeds are compared with; null for nothing
 * @param detail what else is reported of them
 * @throws UserError where what is asked cannot be made of any log
 */
export const piecesResultOf = (
  outing: Outing,
  ask:
    | PieceAsk
    | { readonly kind: 'best'; readonly lengths: readonly BestAsk[] }
    | { readonly kind: 'course'; readonly course: Course },
  parts?: PartAsk,
  target: Target | null = null,
  detail: DetailAsk = {},
  look: PieceLook = USUAL_LOOK,
): PiecesResult => {
  const found =
    ask.kind === 'best'
      ? bestPieces(outing, ask.lengths, look.within)
      : ask.kind === 'course'
        ? coursePieces(outing, ask.course, look.within)
        : findPieces(outing, ask, look);
  const rows = found.pieces.map((piece, i) => pieceRow(outing, piece, i + 1, parts, target));
  const { said, ...rest } = piecesDetail(outing, found.pieces, rows, detail);
  return { schema: 'thole/pieces/1', ...resultFrame(outing, [...found.warnings, ...said]), ...rest };
};

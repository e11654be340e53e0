import type { PiecesResult } from '../contract/pieces.js';
import { type Outing, rateBands } from '../outing/index.js';
import { openingRow } from './opening.js';
import type { Piece } from './piece.js';
import { pieceStrokes } from './piece-strokes.js';

/** What is told of pieces beyond their figures. */
export interface DetailAsk {
  /** Strokes of each opening to tell; none unless given. */
  readonly openingStrokes?: number | null;
  /** Bounds of the rate bands, spm; the usual ones unless given. */
  readonly boundsSpm?: readonly number[] | null;
}

/** A boat takes its speed in about so long after a start, and is not steady before; 15 to 30 s. */
const SETTLED_S = 20;

/** The settled strokes of the pieces by rate band: how steadiness changes with rate. */
const bandsOf = (outing: Outing, pieces: readonly Piece[], boundsSpm: readonly number[] | null) => {
  const within = outing.strokes.strokes.filter(({ atS }) =>
    pieces.some(({ fromS, toS }) => atS >= fromS + SETTLED_S && atS < toS),
  );
  const worked: Outing = { ...outing, strokes: { ...outing.strokes, strokes: within } };
  return rateBands(worked, boundsSpm ?? undefined).map((band) => ({ file: outing.file, ...band }));
};

/** Steadiness by rate, and the openings where they are asked for. */
export const piecesDetail = (
  outing: Outing,
  pieces: readonly Piece[],
  { openingStrokes = null, boundsSpm = null }: DetailAsk,
): Pick<PiecesResult, 'rate_bands' | 'openings'> => ({
  rate_bands: bandsOf(outing, pieces, boundsSpm),
  ...(openingStrokes === null
    ? {}
    : {
        openings: pieces.map((piece, i) =>
          openingRow(outing, piece, i + 1, pieceStrokes(outing, piece), openingStrokes),
        ),
      }),
});

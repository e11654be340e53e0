import type { Curve } from '../contract/curve.js';
import type { WarningRow } from '../contract/envelope.js';
import type { PieceRow, PiecesResult } from '../contract/pieces.js';
import { type Outing, positionsOf, rateBands } from '../outing/index.js';
import { curveWarnings, pieceAgainstCurve } from './against-curve.js';
import { drawnPiece } from './drawn-piece.js';
import { offCurve } from './off-curve.js';
import { openingRow } from './opening.js';
import type { Piece } from './piece.js';
import { pieceStrokes } from './piece-strokes.js';

/** What is reported of pieces beyond their figures. */
export interface DetailAsk {
  /** Strokes of each opening to tell; none unless given. */
  readonly openingStrokes?: number | null;
  /** Bounds of the rate bands, spm; the usual ones unless given. */
  readonly boundsSpm?: readonly number[] | null;
  /** What speed is held against; nothing unless given. */
  readonly curve?: Curve | null;
  /** Speed and rate along each piece, to be drawn. */
  readonly drawn?: boolean;
  /** Where the boat was along each piece, for a map. */
  readonly positions?: boolean;
}

/** A boat takes its speed in about so long after a start, and is not steady before; 15 to 30 s. */
const SETTLED_S = 20;

/** Where the boat was along a piece, at the borders of its parts too. */
const alongPiece = ({ track }: Outing, { start_at_s, end_at_s, parts }: PieceRow) =>
  positionsOf(
    track,
    { fromS: start_at_s, toS: end_at_s },
    parts.map(({ cumulative_s }) => start_at_s + cumulative_s),
  );

/** The settled strokes of the pieces by rate band: how steadiness changes with rate. */
const bandsOf = (outing: Outing, pieces: readonly Piece[], boundsSpm: readonly number[] | null) => {
  const within = outing.strokes.strokes.filter(({ atS }) =>
    pieces.some(({ fromS, toS }) => atS >= fromS + SETTLED_S && atS < toS),
  );
  const worked: Outing = { ...outing, strokes: { ...outing.strokes, strokes: within } };
  return rateBands(worked, boundsSpm ?? undefined).map((band) => ({ file: outing.file, ...band }));
};

/** What the detail of pieces adds to a result. */
interface Detail extends Pick<PiecesResult, 'pieces' | 'rate_bands' | 'openings' | 'off_curve' | 'drawn'> {
  readonly said: readonly WarningRow[];
}

/**
 * Steadiness by rate, and what else was asked for: openings, and speed against a curve.
 * @param rows the pieces' figures, one a piece
 */
export const piecesDetail = (
  outing: Outing,
  pieces: readonly Piece[],
  rows: readonly PieceRow[],
  { openingStrokes = null, boundsSpm = null, curve = null, drawn = false, positions = false }: DetailAsk,
): Detail => {
  const strokes =
    openingStrokes === null && curve === null ? [] : pieces.map((piece) => pieceStrokes(outing, piece));
  return {
    pieces: rows
      .map((row) => (curve === null ? row : pieceAgainstCurve(row, curve)))
      .map((row) => (positions ? { ...row, positions: alongPiece(outing, row) } : row)),
    said: curve === null ? [] : curveWarnings(rows, curve, outing.file),
    ...(drawn ? { drawn: pieces.map((piece, i) => drawnPiece(outing, piece, i + 1, curve)) } : {}),
    rate_bands: bandsOf(outing, pieces, boundsSpm),
    ...(openingStrokes === null
      ? {}
      : {
          openings: pieces.map((piece, i) => openingRow(outing, piece, i + 1, strokes[i]!, openingStrokes)),
        }),
    ...(curve === null
      ? {}
      : { off_curve: pieces.flatMap((_, i) => offCurve(outing.file, i + 1, strokes[i]!, curve)) }),
  };
};

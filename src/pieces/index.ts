
export { comparedPieces } from './compared-pieces.js';
export { curveOf, curveSpeed } from './curve.js';
export { type CurveBlock, curveBlocks, type SteadyBlock } from './curve-block.js';
export { type CurvePart, curvePartOf, curveResultOf } from './curve-result.js';
export { findPieces, wholePiece } from './find-pieces.js';
export { outingResultOf } from './outing-result.js';
export type { PartAsk } from './part.js';
export type { Piece, PieceAsk } from './piece.js';
export { pieceRow } from './piece-row.js';
export type { PieceStroke } from './piece-strokes.js';
export type { DetailAsk, DrawnPiece, DrawnPieces } from './pieces-detail.js';
export { piecesResultOf } from './pieces-result.js';
export type { SoughtStep } from './rate-steps.js';
export { togetherRows } from './together.js';
export { type Work, workOf } from './work.js';

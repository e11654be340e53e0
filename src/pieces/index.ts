export { bestPieces } from './best-pieces.js';
export { type Found, findPieces } from './find-pieces.js';
export { outingResultOf } from './outing-result.js';
export { type Part, type PartAsk, partsOf, USUAL_PARTS } from './part.js';
export type { Piece, PieceAsk } from './piece.js';
export { pieceRow } from './piece-row.js';
export { piecesResultOf } from './pieces-result.js';
export { type Work, workOf } from './work.js';
